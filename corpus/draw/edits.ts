/** What goes wrong with a drawing, done on purpose: pieces, gaps, stretches walked twice, ends that are off. */
import type { Point } from '../../shared/plane.js';
import { sampled } from './drawing.js';
import { at, endOf, joined, reversed, type Segment, type Stroke } from './stroke.js';

/** The segments from `first` up to, not including, `last`. */
export function part({ from, segments }: Stroke, first: number, last = segments.length): Stroke {
  return { from: first === 0 ? from : segments[first - 1].to, segments: segments.slice(first, last) };
}

/** The pieces between the given segments. */
export function cut(stroke: Stroke, ...places: readonly number[]): Stroke[] {
  const bounds = [0, ...places, stroke.segments.length];
  return places.concat(0).map((_, i) => part(stroke, bounds[i], bounds[i + 1]));
}

/** The piece with its start moved `mm` onwards along the line, so that it no longer touches the piece before it. */
export function startingLater(stroke: Stroke, mm: number): Stroke {
  const [first] = stroke.segments;
  const towards = first.kind === 'cubic' ? first.c1 : first.to;
  const reach = Math.hypot(towards.x - stroke.from.x, towards.y - stroke.from.y);
  const share = mm / reach;
  const move = (p: Point) =>
    at(p.x + share * (towards.x - stroke.from.x), p.y + share * (towards.y - stroke.from.y));
  return { ...stroke, from: move(stroke.from) };
}

/** The line, with one segment walked forwards, backwards and forwards again. */
export function walkedAgain(stroke: Stroke, segment: number): Stroke {
  const stretch = part(stroke, segment, segment + 1);
  return joined(part(stroke, 0, segment + 1), reversed(stretch), stretch, part(stroke, segment + 1));
}

/** The whole line moved. */
export function shifted({ from, segments }: Stroke, dx: number, dy: number): Stroke {
  const map = (p: Point) => at(p.x + dx, p.y + dy);
  return {
    from: map(from),
    segments: segments.map(
      (segment): Segment =>
        segment.kind === 'cubic'
          ? { ...segment, c1: map(segment.c1), c2: map(segment.c2), to: map(segment.to) }
          : { ...segment, to: map(segment.to) },
    ),
  };
}

/** The line with its end, and the direction it arrives in, moved. */
export function endMoved(stroke: Stroke, dx: number, dy: number): Stroke {
  const last = stroke.segments[stroke.segments.length - 1];
  const to = at(last.to.x + dx, last.to.y + dy);
  const moved: Segment =
    last.kind === 'cubic' ? { ...last, c2: at(last.c2.x + dx, last.c2.y + dy), to } : { ...last, to };
  return { ...stroke, segments: [...stroke.segments.slice(0, -1), moved] };
}

/** Sheared so that the end lies `mm` lower than it did; for lines and curves without arcs. */
export function sunk(stroke: Stroke, mm: number): Stroke {
  const [left, right] = [stroke.from.x, endOf(stroke).x];
  const map = (p: Point) => at(p.x, p.y + (mm * (p.x - left)) / (right - left));
  const segments = stroke.segments.map((segment): Segment => {
    if (segment.kind === 'cubic')
      return { ...segment, c1: map(segment.c1), c2: map(segment.c2), to: map(segment.to) };
    return { ...segment, to: map(segment.to) };
  });
  return { from: map(stroke.from), segments };
}

export function lengthOf(stroke: Stroke): number {
  let sum = 0;
  let last = stroke.from;
  for (const p of sampled(stroke, 256)) {
    sum += Math.hypot(p.x - last.x, p.y - last.y);
    last = p;
  }
  return sum;
}

/** The place halfway along it. */
export function halfwayOn(stroke: Stroke): Point {
  const half = lengthOf(stroke) / 2;
  let sum = 0;
  let last = stroke.from;
  for (const p of sampled(stroke, 256)) {
    const step = Math.hypot(p.x - last.x, p.y - last.y);
    if (sum + step > half) {
      const share = (half - sum) / step;
      return at(last.x + share * (p.x - last.x), last.y + share * (p.y - last.y));
    }
    sum += step;
    last = p;
  }
  return last;
}

/** The closed outline that a round pen `penMm` wide leaves, for a line that keeps off itself; a polygon. */
export function penOutline(stroke: Stroke, penMm: number): Stroke {
  const line = [...sampled(stroke, 24)];
  const side = (sign: 1 | -1) =>
    line.map((p, i) => {
      const [a, b] = [line[Math.max(0, i - 1)], line[Math.min(line.length - 1, i + 1)]];
      const length = Math.hypot(b.x - a.x, b.y - a.y);
      const [nx, ny] = [(-(b.y - a.y) / length) * sign, ((b.x - a.x) / length) * sign];
      return at(p.x + (nx * penMm) / 2, p.y + (ny * penMm) / 2);
    });
  const [near, far] = [side(-1), side(1).reverse()];
  const cap = (to: Point): Segment => ({ kind: 'arc', radius: penMm / 2, large: false, clockwise: true, to });
  const lines = (points: readonly Point[]) => points.slice(1).map((to): Segment => ({ kind: 'line', to }));
  return { from: near[0], segments: [...lines(near), cap(far[0]), ...lines(far), cap(near[0])] };
}
