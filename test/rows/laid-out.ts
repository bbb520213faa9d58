/** Stacked rows laid out from the words alone (shifted, flipped, turned), for references that look at every segment. */
import type { Layout } from '../../shared/layout.js';
import type { Point } from '../../shared/plane.js';
import type { Case } from './jts.js';

export type Segment = readonly [ax: number, ay: number, bx: number, by: number];

/** The segments of row `index`, of all its repeats that may reach within `withinMm` of the place sideways. */
export function segmentsOfRow(
  { strokes, repeatMm, middleXMm }: Case,
  layout: Layout,
  spacingMm: number,
  index: number,
  aroundX: number,
  withinMm: number,
): Segment[] {
  const xs = strokes.flatMap((line) => [...line].filter((_, i) => i % 2 === 0));
  const ys = strokes.flatMap((line) => [...line].filter((_, i) => i % 2 === 1));
  const flip = Math.min(...ys) + Math.max(...ys);
  const changed = index % 2 !== 0;
  const turned = changed && layout === 'turned';
  const flipped = turned || (changed && layout === 'mirrored');
  const shift = changed && (layout === 'brick' || layout === 'mirrored') ? repeatMm / 2 : 0;
  const x = (own: number) => (turned ? 2 * middleXMm - own : own + shift);
  const y = (own: number) => (flipped ? flip - own : own) + index * spacingMm;
  const middle = turned ? 2 * middleXMm - aroundX : aroundX - shift;
  const first = Math.floor((middle - withinMm - Math.max(...xs)) / repeatMm);
  const last = Math.ceil((middle + withinMm - Math.min(...xs)) / repeatMm);
  const segments: Segment[] = [];
  for (let k = first; k <= last; k++)
    for (const line of strokes)
      for (let i = 2; i < line.length; i += 2) {
        const [ax, bx] = [line[i - 2] + k * repeatMm, line[i] + k * repeatMm];
        segments.push([x(ax), y(line[i - 1]), x(bx), y(line[i + 1])]);
      }
  return segments;
}

/** The place of the segment that is nearest to this one, and how far it is. */
export function nearestOn([ax, ay, bx, by]: Segment, { x, y }: Point): Point & { mm: number } {
  const along = (x - ax) * (bx - ax) + (y - ay) * (by - ay);
  const share = along <= 0 ? 0 : Math.min(1, along / ((bx - ax) ** 2 + (by - ay) ** 2));
  const at = { x: ax + share * (bx - ax), y: ay + share * (by - ay) };
  return { ...at, mm: Math.hypot(x - at.x, y - at.y) };
}

/** Distance from a place to row `index`. */
export function distanceToRow(
  motif: Case,
  layout: Layout,
  spacingMm: number,
  index: number,
  at: Point,
): number {
  // Of the copies of a place, one lies within half a repeat sideways.
  const segments = segmentsOfRow(motif, layout, spacingMm, index, at.x, motif.repeatMm / 2);
  return segments.reduce((least, segment) => Math.min(least, nearestOn(segment, at).mm), Infinity);
}

/** The numbers of the rows that may reach within `withinMm` of this height. */
export function rowsAround({ strokes }: Case, spacingMm: number, y: number, withinMm: number): number[] {
  const ys = strokes.flatMap((line) => [...line].filter((_, i) => i % 2 === 1));
  const first = Math.floor((y - withinMm - Math.max(...ys)) / spacingMm);
  const last = Math.ceil((y + withinMm - Math.min(...ys)) / spacingMm);
  return Array.from({ length: last - first + 1 }, (_, i) => first + i);
}

/** Distance from a place to each of the rows that may reach within `withinMm` of it. */
export function distancesToRows(
  motif: Case,
  layout: Layout,
  spacingMm: number,
  at: Point,
  withinMm: number,
): number[] {
  return rowsAround(motif, spacingMm, at.y, withinMm).map((index) =>
    distanceToRow(motif, layout, spacingMm, index, at),
  );
}

/** The distance to the nearest line of places about this one, right up to `withinMm` from it. */
export function roomAbout(
  motif: Case,
  layout: Layout,
  spacingMm: number,
  { x, y }: Point,
  withinMm: number,
): (at: Point) => number {
  const segments = rowsAround(motif, spacingMm, y, withinMm)
    .flatMap((index) => segmentsOfRow(motif, layout, spacingMm, index, x, withinMm))
    .filter((segment) => nearestOn(segment, { x, y }).mm <= withinMm);
  return (at) => segments.reduce((least, segment) => Math.min(least, nearestOn(segment, at).mm), Infinity);
}
