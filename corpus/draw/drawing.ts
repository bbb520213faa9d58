/** What a file of the corpus holds, before it is written in one flavour or another. */
import type { Box, Point } from '../../shared/plane.js';
import { emptyBox, extend } from '../../src/geometry/box.js';
import { at, type Segment, type Stroke } from './stroke.js';

/** Where a motif comes from, as its file says: our own invented studio and its people. */
export interface Credits {
  readonly title: string;
  readonly creator: string;
  readonly rights: string;
  readonly description?: string;
}

export interface Drawing extends Credits {
  /** In millimetres, anywhere in the plane. */
  readonly strokes: readonly Stroke[];
}

export const rights = 'Harbour Studio, an invented studio. Drawn for Linewright; MIT licence.';

/** The box of a drawing to about 0.01 mm, for the size of its page. */
export function boxOf(strokes: readonly Stroke[]): Box {
  const box = emptyBox();
  for (const stroke of strokes) for (const { x, y } of sampled(stroke, 96)) extend(box, x, y);
  return box;
}

/** Places along a stroke, `each` to a curve; lines give their ends. */
export function* sampled({ from, segments }: Stroke, each: number): Generator<Point> {
  yield from;
  let pen = from;
  for (const segment of segments) {
    const steps = segment.kind === 'line' ? 1 : each;
    const place = placeOn(pen, segment);
    for (let i = 1; i <= steps; i++) yield place(i / steps);
    pen = segment.to;
  }
}

function placeOn(a: Point, segment: Segment): (t: number) => Point {
  const { to: b } = segment;
  switch (segment.kind) {
    case 'line':
      return (t) => at(a.x + t * (b.x - a.x), a.y + t * (b.y - a.y));
    case 'quadratic': {
      const { c } = segment;
      return (t) => blend([(1 - t) ** 2, 2 * t * (1 - t), t ** 2], [a, c, b]);
    }
    case 'cubic': {
      const { c1, c2 } = segment;
      return (t) => blend([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t ** 2 * (1 - t), t ** 3], [a, c1, c2, b]);
    }
    case 'arc': {
      const { centre, start, sweep } = roundPart(a, segment);
      const { radius } = segment;
      return (t) =>
        t === 1
          ? b
          : at(
              centre.x + radius * Math.cos(start + t * sweep),
              centre.y + radius * Math.sin(start + t * sweep),
            );
    }
  }
}

function blend(weights: readonly number[], points: readonly Point[]): Point {
  let [x, y] = [0, 0];
  points.forEach((p, i) => {
    x += weights[i] * p.x;
    y += weights[i] * p.y;
  });
  return at(x, y);
}

/** Centre, starting angle and signed sweep (radians) of a circular arc from `a`. */
function roundPart(a: Point, arc: Segment & { kind: 'arc' }) {
  const { to: b, radius, large, clockwise } = arc;
  const half = Math.hypot(b.x - a.x, b.y - a.y) / 2;
  const rise = Math.sqrt(Math.max(0, radius ** 2 - half ** 2)) * (large === clockwise ? -1 : 1);
  const [ux, uy] = [(b.x - a.x) / (2 * half), (b.y - a.y) / (2 * half)];
  const centre = at((a.x + b.x) / 2 - uy * rise, (a.y + b.y) / 2 + ux * rise);
  const start = Math.atan2(a.y - centre.y, a.x - centre.x);
  const turn = Math.atan2(b.y - centre.y, b.x - centre.x) - start;
  const full = 2 * Math.PI;
  const forwards = ((turn % full) + full) % full;
  return { centre, start, sweep: clockwise ? forwards : forwards - full };
}
