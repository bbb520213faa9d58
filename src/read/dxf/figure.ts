/**
 * Figures: what an entity draws, in space and in the system of its block, read once however often the block is
 * inserted. Maps of space keep the kinds of curve as they are: arcs are held by centre and two conjugate half axes.
 */
import type { Pen } from '../intake/pen.js';
import type { Map3 } from './space.js';

/** Codes of what is drawn, and how many numbers each takes. */
const step = { move: 0, line: 1, quadratic: 2, cubic: 3, arc: 4, close: 5 } as const;
const sizes: readonly number[] = [3, 3, 6, 9, 14, 0];

export interface Figure {
  readonly steps: readonly number[];
  readonly numbers: readonly number[];
}

/** Many figures are one line: they share their steps. */
const oneLine: readonly number[] = [step.move, step.line];

/** Draws a figure; `system`, if any, maps what is drawn to the block's own space. */
export class FigurePen {
  private readonly steps: number[] = [];
  private readonly numbers: number[] = [];

  constructor(private readonly system: Map3 | null = null) {}

  moveTo(x: number, y: number, z: number): void {
    this.steps.push(step.move);
    this.point(x, y, z);
  }

  lineTo(x: number, y: number, z: number): void {
    this.steps.push(step.line);
    this.point(x, y, z);
  }

  /** A Bézier curve to the last of these points, from where the pen stands: one point (a line), two or three. */
  curveTo(points: readonly number[]): void {
    this.steps.push(points.length / 3);
    for (let i = 0; i < points.length; i += 3) this.point(points[i], points[i + 1], points[i + 2]);
  }

  /** Centre, the two half axes and the end, three numbers each; `start` and `sweep` in radians. */
  arcTo(
    centre: readonly number[],
    u: readonly number[],
    v: readonly number[],
    start: number,
    sweep: number,
    end: readonly number[],
  ): void {
    this.steps.push(step.arc);
    this.point(centre[0], centre[1], centre[2]);
    this.direction(u[0], u[1], u[2]);
    this.direction(v[0], v[1], v[2]);
    this.numbers.push(start, sweep);
    this.point(end[0], end[1], end[2]);
  }

  close(): void {
    this.steps.push(step.close);
  }

  done(): Figure {
    const { steps, numbers } = this;
    const isLine = steps.length === 2 && steps[0] === step.move && steps[1] === step.line;
    return { steps: isLine ? oneLine : steps, numbers };
  }

  private point(x: number, y: number, z: number): void {
    const m = this.system;
    if (m === null) this.numbers.push(x, y, z);
    else this.mapped(m, x, y, z, 1);
  }

  private direction(x: number, y: number, z: number): void {
    const m = this.system;
    if (m === null) this.numbers.push(x, y, z);
    else this.mapped(m, x, y, z, 0);
  }

  private mapped(m: Map3, x: number, y: number, z: number, moves: number): void {
    this.numbers.push(
      m[0] * x + m[1] * y + m[2] * z + moves * m[3],
      m[4] * x + m[5] * y + m[6] * z + moves * m[7],
      m[8] * x + m[9] * y + m[10] * z + moves * m[11],
    );
  }
}

/** Draws the figure, seen from above, with a pen; returns how far its z spreads. Both in what `m` maps to. */
export function drawFigure({ steps, numbers }: Figure, m: Map3, pen: Pen): number {
  const x = (i: number) => m[0] * numbers[i] + m[1] * numbers[i + 1] + m[2] * numbers[i + 2];
  const y = (i: number) => m[4] * numbers[i] + m[5] * numbers[i + 1] + m[6] * numbers[i + 2];
  const z = (i: number) => m[8] * numbers[i] + m[9] * numbers[i + 1] + m[10] * numbers[i + 2];
  const [dx, dy] = [m[3], m[7]];
  let low = Infinity;
  let high = -Infinity;
  const spread = (level: number, by = 0) => {
    low = Math.min(low, level - by);
    high = Math.max(high, level + by);
  };
  let i = 0;
  for (const kind of steps) {
    switch (kind) {
      case step.move:
        pen.moveTo(x(i) + dx, y(i) + dy);
        break;
      case step.line:
        pen.lineTo(x(i) + dx, y(i) + dy);
        break;
      case step.quadratic:
        pen.quadraticTo(x(i) + dx, y(i) + dy, x(i + 3) + dx, y(i + 3) + dy);
        break;
      case step.cubic:
        pen.cubicTo(x(i) + dx, y(i) + dy, x(i + 3) + dx, y(i + 3) + dy, x(i + 6) + dx, y(i + 6) + dy);
        break;
      case step.arc: {
        const [u, v] = [i + 3, i + 6];
        const [start, sweep] = [numbers[i + 9], numbers[i + 10]];
        const end = i + 11;
        pen.arc(x(i) + dx, y(i) + dy, x(u), y(u), x(v), y(v), start, sweep, x(end) + dx, y(end) + dy);
        spread(z(i), Math.hypot(z(u), z(v)));
        break;
      }
      default:
        pen.close();
    }
    if (kind !== step.arc) for (let j = i; j < i + sizes[kind]; j += 3) spread(z(j));
    i += sizes[kind];
  }
  return high > low ? high - low : 0;
}

/** Where the figure begins, for a note. */
export function startOf({ numbers }: Figure, m: Map3): { x: number; y: number } {
  const [x, y, z] = numbers;
  return {
    x: m[0] * x + m[1] * y + m[2] * z + m[3],
    y: m[4] * x + m[5] * y + m[6] * z + m[7],
  };
}
