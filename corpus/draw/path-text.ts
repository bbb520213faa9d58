/** Path data as drawing programs write it: long or short, absolute or relative, with or without the shorthands. */
import type { Point } from '../../shared/plane.js';
import { at, type Segment, type Stroke } from './stroke.js';

export interface Hand {
  /** Places after the point. */
  readonly decimals: number;
  readonly relative?: boolean;
  /** H, V, S and T where they say the same. */
  readonly shorthand?: boolean;
  /** No space that can be left out, no zero before the point. */
  readonly dense?: boolean;
}

/** The `d` of one or more strokes, in the units that their coordinates are in. */
export function pathText(strokes: readonly Stroke[], hand: Hand): string {
  return strokes.map((stroke) => new Writer(hand).stroke(stroke)).join(hand.dense ? '' : ' ');
}

/** `x,y x,y …` of a stroke of straight lines. */
export function pointsText(stroke: Stroke, decimals: number): string {
  const points = [stroke.from, ...stroke.segments.map((segment) => segment.to)];
  return points.map(({ x, y }) => `${number(x, decimals)},${number(y, decimals)}`).join(' ');
}

export function number(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  const plain = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return plain === '-0' ? '0' : plain;
}

interface Control {
  readonly kind: 'quadratic' | 'cubic';
  readonly at: Point;
}

class Writer {
  /** Where the pen is, as a reader of the rounded numbers has it. */
  private pen = at(0, 0);
  /** The last control point, for S and T. */
  private control: Control | null = null;
  private readonly words: string[] = [];

  constructor(private readonly hand: Hand) {}

  stroke({ from, segments }: Stroke): string {
    this.write('M', [], [from]);
    for (const segment of segments) this.segment(segment);
    return this.words.join(this.hand.dense ? '' : ' ');
  }

  private segment(segment: Segment): void {
    switch (segment.kind) {
      case 'line':
        this.line(segment.to);
        break;
      case 'quadratic':
        this.quadratic(segment);
        break;
      case 'cubic':
        this.cubic(segment);
        break;
      case 'arc': {
        const flags = [segment.large ? 1 : 0, segment.clockwise ? 1 : 0];
        this.write('A', [segment.radius, segment.radius, 0, ...flags], [segment.to]);
      }
    }
  }

  private quadratic({ c, to }: Segment & { kind: 'quadratic' }): void {
    if (this.follows('quadratic', c))
      this.write('T', [], [to], { kind: 'quadratic', at: this.mirroredControl() });
    else this.write('Q', [], [c, to], { kind: 'quadratic', at: c });
  }

  private cubic({ c1, c2, to }: Segment & { kind: 'cubic' }): void {
    if (this.follows('cubic', c1)) this.write('S', [], [c2, to], { kind: 'cubic', at: c2 });
    else this.write('C', [], [c1, c2, to], { kind: 'cubic', at: c2 });
  }

  private line(to: Point): void {
    const tiny = 0.5 * 10 ** -this.hand.decimals;
    if (this.hand.shorthand && Math.abs(to.y - this.pen.y) < tiny)
      this.write('H', [], [at(to.x, this.pen.y)]);
    else if (this.hand.shorthand && Math.abs(to.x - this.pen.x) < tiny)
      this.write('V', [], [at(this.pen.x, to.y)]);
    else this.write('L', [], [to]);
  }

  private mirroredControl(): Point {
    const { at: control } = this.control!;
    return at(2 * this.pen.x - control.x, 2 * this.pen.y - control.y);
  }

  /** True where `c` is what S or T would take by itself. */
  private follows(kind: 'quadratic' | 'cubic', c: Point): boolean {
    if (!this.hand.shorthand || this.control?.kind !== kind) return false;
    const own = this.mirroredControl();
    return Math.hypot(own.x - c.x, own.y - c.y) < 2 * 10 ** -this.hand.decimals;
  }

  private write(
    letter: string,
    plain: readonly number[],
    points: readonly Point[],
    control: Control | null = null,
  ): void {
    const { decimals, relative, dense } = this.hand;
    const step = 10 ** -decimals;
    const rounded = (value: number) => Math.round(value / step) * step;
    const texts = plain.map((value) => number(value, decimals));
    let landed = this.pen;
    for (const point of points) {
      const base = relative ? this.pen : at(0, 0);
      const [x, y] = [rounded(point.x - base.x), rounded(point.y - base.y)];
      landed = at(base.x + x, base.y + y);
      if (letter !== 'V') texts.push(number(x, decimals));
      if (letter !== 'H') texts.push(number(y, decimals));
    }
    this.words.push(sentence(relative ? letter.toLowerCase() : letter, texts, dense ?? false));
    this.control = control;
    this.pen = landed;
  }
}

function sentence(letter: string, numbers: readonly string[], dense: boolean): string {
  if (!dense) return `${letter} ${numbers.join(' ')}`;
  let text = letter;
  numbers.forEach((long, i) => {
    const short = long.replace(/^(-?)0\./, '$1.');
    text += i > 0 && !short.startsWith('-') ? `,${short}` : short;
  });
  return text;
}
