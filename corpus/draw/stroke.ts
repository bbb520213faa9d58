/**
 * What the drawings are made of: one pen stroke in millimetres, x to the right and y down, as a start and the
 * segments that follow. Everything here returns new strokes and leaves its arguments as they were.
 */
import type { Point } from '../../shared/plane.js';

export type Segment =
  | { readonly kind: 'line'; readonly to: Point }
  | { readonly kind: 'quadratic'; readonly c: Point; readonly to: Point }
  | { readonly kind: 'cubic'; readonly c1: Point; readonly c2: Point; readonly to: Point }
  /** A circular arc; `clockwise` as seen on the page. */
  | {
      readonly kind: 'arc';
      readonly radius: number;
      readonly large: boolean;
      readonly clockwise: boolean;
      readonly to: Point;
    };

export interface Stroke {
  readonly from: Point;
  readonly segments: readonly Segment[];
}

export const at = (x: number, y: number): Point => ({ x, y });

export function endOf({ from, segments }: Stroke): Point {
  return segments.length > 0 ? segments[segments.length - 1].to : from;
}

export function lineTo(x: number, y: number): Segment {
  return { kind: 'line', to: at(x, y) };
}

/** A half circle or less to (x, y). */
export function arcTo(radius: number, clockwise: boolean, x: number, y: number): Segment {
  return { kind: 'arc', radius, large: false, clockwise, to: at(x, y) };
}

/** Straight lines from point to point. */
export function polygonal(points: readonly (readonly [number, number])[]): Stroke {
  const [first, ...rest] = points;
  return { from: at(...first), segments: rest.map(([x, y]) => lineTo(x, y)) };
}

/** One stroke after the other; each is taken to begin where the one before it ended. */
export function joined(...strokes: readonly Stroke[]): Stroke {
  return { from: strokes[0].from, segments: strokes.flatMap((stroke) => stroke.segments) };
}

/** A map that keeps shapes: shift, turn, mirror, scale by `scale`; `mirrors` where it turns arcs round. */
interface Likeness {
  readonly map: (p: Point) => Point;
  readonly scale: number;
  readonly mirrors: boolean;
}

function under(
  stroke: Stroke,
  { map, scale = 1, mirrors = false }: Partial<Likeness> & Pick<Likeness, 'map'>,
) {
  const likeness = { map, scale, mirrors };
  return {
    from: map(stroke.from),
    segments: stroke.segments.map((segment) => segmentUnder(segment, likeness)),
  };
}

function segmentUnder(segment: Segment, { map, scale, mirrors }: Likeness): Segment {
  const to = map(segment.to);
  switch (segment.kind) {
    case 'line':
      return { ...segment, to };
    case 'quadratic':
      return { ...segment, c: map(segment.c), to };
    case 'cubic':
      return { ...segment, c1: map(segment.c1), c2: map(segment.c2), to };
    case 'arc':
      return { ...segment, to, radius: segment.radius * scale, clockwise: segment.clockwise !== mirrors };
  }
}

export function shifted(stroke: Stroke, dx: number, dy: number): Stroke {
  return under(stroke, { map: ({ x, y }) => at(x + dx, y + dy) });
}

export function scaled(stroke: Stroke, factor: number): Stroke {
  return under(stroke, { map: ({ x, y }) => at(x * factor, y * factor), scale: factor });
}

/** Turned clockwise on the page about a point. */
export function turned(stroke: Stroke, degrees: number, about: Point): Stroke {
  const cos = Math.cos((degrees * Math.PI) / 180);
  const sin = Math.sin((degrees * Math.PI) / 180);
  const map = ({ x, y }: Point) => {
    const [dx, dy] = [x - about.x, y - about.y];
    return at(about.x + cos * dx - sin * dy, about.y + sin * dx + cos * dy);
  };
  return under(stroke, { map });
}

/** Left and right exchanged about the upright line at `x`. */
export function mirrored(stroke: Stroke, x: number): Stroke {
  return under(stroke, { map: (p) => at(2 * x - p.x, p.y), mirrors: true });
}

/** Top and bottom exchanged about the level line at `y`. */
export function flipped(stroke: Stroke, y: number): Stroke {
  return under(stroke, { map: (p) => at(p.x, 2 * y - p.y), mirrors: true });
}

export function reversed({ from, segments }: Stroke): Stroke {
  const starts = [from, ...segments.map((segment) => segment.to)];
  const back = segments.map((segment, i): Segment => {
    const to = starts[i];
    if (segment.kind === 'cubic') return { ...segment, c1: segment.c2, c2: segment.c1, to };
    if (segment.kind === 'arc') return { ...segment, clockwise: !segment.clockwise, to };
    return { ...segment, to };
  });
  return { from: starts[starts.length - 1], segments: back.reverse() };
}

/** A half and the same half turned round its end and walked backwards: the whole looks the same upside down. */
export function withHalfTurn(half: Stroke): Stroke {
  return joined(half, reversed(turned(half, 180, endOf(half))));
}

/** `count` copies side by side, each `stepMm` further to the right. */
export function repeated(stroke: Stroke, count: number, stepMm: number): Stroke {
  return joined(...Array.from({ length: count }, (_, i) => shifted(stroke, i * stepMm, 0)));
}
