/**
 * The line as each side of the border tells it: the border moved inward by half a pen. Every place of the border lies
 * half a pen from the line, also where the other side is hidden by a second pass, so this holds right up to the notch
 * between two passes, where the medial axis is long off the line.
 */
import type { Polyline } from '../../shared/plane.js';
import { pointCount } from '../geometry/polyline.js';
import { pointToSegment } from '../geometry/segment.js';
import { PointGrid } from '../near/point-grid.js';
import { type Border, neighbours } from './border.js';

/** Support is looked for this far off, in radii. */
const reachRadii = 0.35;
/** It must run along to this, as the sine of the angle. */
const alongSine = Math.sin((15 * Math.PI) / 180);
/** Directions are taken over this much border on either side, in radii. */
const tangentRadii = 0.2;
const rounds = 4;
/** Nearer to another line by more than this, it is that one's, in radii. */
const nearerRadii = 0.02;
/** Farther off than this counts no more, in radii. */
const mostOff = 4;

export class Offsets {
  /** For each point of the border [x, y] moved inward, and the direction of the border there. */
  readonly moved: Float64Array;
  readonly along: Float64Array;
  private readonly grid: PointGrid;

  constructor(
    private readonly border: Border,
    private readonly radius: number,
    step: number,
  ) {
    const count = border.ringOf.length;
    this.moved = new Float64Array(2 * count);
    this.along = new Float64Array(2 * count);
    this.grid = new PointGrid(reachRadii * radius, Infinity, count);
    const reach = Math.max(1, Math.round((tangentRadii * radius) / step));
    for (let i = 0; i < count; i++) {
      const [tx, ty] = this.tangent(i, reach);
      this.along[2 * i] = tx;
      this.along[2 * i + 1] = ty;
      this.moved[2 * i] = border.points[2 * i] - radius * ty;
      this.moved[2 * i + 1] = border.points[2 * i + 1] + radius * tx;
      this.grid.add(this.moved[2 * i], this.moved[2 * i + 1]);
    }
  }

  private tangent(point: number, reach: number): readonly [number, number] {
    let before = point;
    let after = point;
    for (let i = 0; i < reach; i++) {
      before = neighbours(this.border, before)[0];
      after = neighbours(this.border, after)[1];
    }
    const { points } = this.border;
    const dx = points[2 * after] - points[2 * before];
    const dy = points[2 * after + 1] - points[2 * before + 1];
    const length = Math.hypot(dx, dy) || 1;
    return [dx / length, dy / length];
  }

  /**
   * The inside points of lines moved sideways to where the border says they run; their ends stay. Where lines lie near
   * one another, each goes by the border that lies nearer to it than to the others.
   */
  settled(lines: readonly Polyline[]): Polyline[] {
    let now = [...lines];
    for (let round = 0; round < rounds; round++) {
      const before = now;
      now = before.map((line) =>
        this.once(
          line,
          before.filter((other) => other !== line),
        ),
      );
    }
    return now;
  }

  private once(line: Polyline, others: readonly Polyline[]): Polyline {
    const count = pointCount(line);
    const shift = new Float64Array(count).fill(Number.NaN);
    shift[0] = 0;
    shift[count - 1] = 0;
    const side = (i: number) => {
      const dx = line[2 * i + 2] - line[2 * i - 2];
      const dy = line[2 * i + 3] - line[2 * i - 1];
      const length = Math.hypot(dx, dy) || 1;
      return [dx / length, dy / length] as const;
    };
    for (let i = 1; i < count - 1; i++)
      shift[i] = this.shiftAt(line[2 * i], line[2 * i + 1], ...side(i), line, others);
    fill(shift);
    const out = line.slice();
    for (let i = 1; i < count - 1; i++) {
      const [dx, dy] = side(i);
      const by = (shift[i - 1] + 2 * shift[i] + shift[i + 1]) / 4;
      out[2 * i] -= by * dy;
      out[2 * i + 1] += by * dx;
    }
    return out;
  }

  /** The mean square of how far points of the border, moved inward, lie from the nearest of `lines`, in radii². */
  squaredOff(points: readonly number[], lines: readonly Polyline[]): number {
    if (points.length === 0) return 0;
    let sum = 0;
    for (const point of points) {
      const [x, y] = [this.moved[2 * point], this.moved[2 * point + 1]];
      const least = lines.reduce(
        (least, line) => Math.min(least, distanceTo(line, x, y)),
        mostOff * this.radius,
      );
      sum += (least / this.radius) ** 2;
    }
    return sum / points.length;
  }

  /** Whether a point of the border speaks for another line than this one. */
  private isOthers(point: number, line: Polyline, others: readonly Polyline[]): boolean {
    if (others.length === 0) return false;
    const [x, y] = [this.moved[2 * point], this.moved[2 * point + 1]];
    const own = distanceTo(line, x, y) - nearerRadii * this.radius;
    return others.some((other) => distanceTo(other, x, y) < own);
  }

  /** How far to the side the border says the line runs; NaN where nothing of it lies near. */
  private shiftAt(
    x: number,
    y: number,
    dx: number,
    dy: number,
    line: Polyline,
    others: readonly Polyline[],
  ): number {
    const { moved, along, radius } = this;
    const reach = reachRadii * radius;
    let w = 0;
    let ws = 0;
    let wss = 0;
    let wt = 0;
    let wst = 0;
    this.grid.visitNear(x, y, (i) => {
      const sine = (along[2 * i] * dy - along[2 * i + 1] * dx) / alongSine;
      if (Math.abs(sine) >= 1 || this.isOthers(i, line, others)) return;
      const ox = moved[2 * i] - x;
      const oy = moved[2 * i + 1] - y;
      const weight = (1 - sine * sine) ** 2 * (1 - (ox * ox + oy * oy) / (reach * reach)) ** 2;
      const s = ox * dx + oy * dy;
      const t = oy * dx - ox * dy;
      w += weight;
      ws += weight * s;
      wss += weight * s * s;
      wt += weight * t;
      wst += weight * s * t;
    });
    if (w < 0.5) return Number.NaN;
    const spread = w * wss - ws * ws;
    return spread > 0.01 * w * w * reach * reach ? (wt * wss - ws * wst) / spread : wt / w;
  }
}

function distanceTo(line: Polyline, x: number, y: number): number {
  let least = Infinity;
  for (let i = 0; i + 3 < line.length; i += 2)
    least = Math.min(least, pointToSegment(x, y, line[i], line[i + 1], line[i + 2], line[i + 3]));
  return least;
}

/** Fills what is not known evenly between what is. */
function fill(values: Float64Array): void {
  let known = 0;
  for (let i = 1; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    for (let k = known + 1; k < i; k++)
      values[k] = values[known] + ((values[i] - values[known]) * (k - known)) / (i - known);
    known = i;
  }
}
