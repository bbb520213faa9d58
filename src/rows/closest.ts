/**
 * The closest spacing: the smallest one from which on every point of a row stays at least the clearance away from every
 * point of the next. Exact, in closed form.
 *
 * It is the most that any two places of the rows ask for (`asked.ts`), and only the lowest line at each x of the upper
 * row and the highest of the lower row can ask for most: two outlines, made of straight pieces, and of two pieces an
 * end of one against the other.
 *
 * All pairs within reach would be too many. But let p lie left of q, both of the same outline, and let a place of the
 * other row walk to the right: once q asks for more than p, it always will, since the two quarter circles of the
 * same radius cross only once. So the piece that asks for most moves only to the right as well, and halving the
 * walk finds it everywhere with O(n log n) looks (the monotone minima of A. Aggarwal, M. Klawe, S. Moran, P. Shor and
 * R. Wilber, Algorithmica 2, 1987, in their plain divide-and-conquer form).
 */
import type { Layout } from '../../shared/layout.js';
import { askedByPiece } from './asked.js';
import { emptyOutline, movedOutline, type Outline, outlineFromAbove, outlineFromBelow } from './outline.js';
import { perRowAnd, type Row } from './row.js';

/** The closest spacing in mm for this clearance, right to rounding; it serves every pair of rows in the stack. */
export function closestSpacing(row: Row, layout: Layout, clearanceMm: number): number {
  const neighbours = Math.max(...closestOfNeighbours(row, layout, clearanceMm));
  if (layout === 'straight') return neighbours;
  // Rows two apart are alike, and meet where a motif of several strokes lets the row between them through.
  return Math.max(neighbours, closestSpacing(row, 'straight', clearanceMm) / 2);
}

/** The same for each kind of neighbours alone: below a row as drawn, and, where that differs, below a changed one. */
export const closestOfNeighbours = perRowAnd((row, layout: Layout, clearanceMm: number): readonly number[] =>
  neighbours(row, layout).map(([above, below]) =>
    Math.max(
      mostAsked(above, below, row.repeatMm, clearanceMm),
      mostAsked(below, above, row.repeatMm, clearanceMm),
    ),
  ),
);

/** The kinds of neighbours: the outline of the upper row from below, and of the lower row from above. */
function neighbours(row: Row, layout: Layout): [Outline, Outline][] {
  const below = outlineFromBelow(row);
  const above = outlineFromAbove(row);
  if (layout === 'straight') return [[below, above]];
  const half = row.repeatMm / 2;
  if (layout === 'brick') return [[below, movedOutline(above, half, 0)]];
  // A row on its head shows from above what it showed from below.
  const flip = row.box.minY + row.box.maxY;
  const [dx, signX] = layout === 'mirrored' ? ([half, 1] as const) : ([2 * row.middleXMm, -1] as const);
  return [
    [below, movedOutline(below, dx, -flip, signX)],
    [movedOutline(above, dx, flip, signX), above],
  ];
}

/** The most that the ends of the pieces of `corners` ask for against `walls`. */
function mostAsked(corners: Outline, walls: Outline, repeatMm: number, clearanceMm: number): number {
  // Of the copies of a point, the one within half a repeat asks for most.
  const reach = Math.min(clearanceMm, repeatMm / 2);
  const { xs, hs } = ends(corners);
  const near = copies(walls, repeatMm, xs[0] - reach, xs[xs.length - 1] + reach);
  const { first, last } = withinReach(xs, near, reach);
  let most = Number.NEGATIVE_INFINITY;
  const look = (fromX: number, toX: number, fromPiece: number, toPiece: number): void => {
    if (fromX > toX) return;
    const middle = (fromX + toX) >> 1;
    let best = Number.NEGATIVE_INFINITY;
    let at = Math.max(fromPiece, Math.min(first[middle], toPiece));
    for (let k = Math.max(fromPiece, first[middle]); k <= Math.min(toPiece, last[middle]); k++) {
      const asked = askedByPiece(
        near.x0[k] - xs[middle],
        near.h0[k],
        near.x1[k] - xs[middle],
        near.h1[k],
        clearanceMm,
      );
      if (asked > best) {
        best = asked;
        at = k;
      }
    }
    most = Math.max(most, best + hs[middle]);
    look(fromX, middle - 1, fromPiece, at);
    look(middle + 1, toX, at, toPiece);
  };
  look(0, xs.length - 1, 0, near.count - 1);
  return most;
}

/** The ends of the pieces from left to right, those that two pieces share once. */
function ends({ count, x0, x1, h0, h1 }: Outline): { xs: Float64Array; hs: Float64Array } {
  const xs = new Float64Array(2 * count);
  const hs = new Float64Array(2 * count);
  let n = 0;
  const put = (x: number, h: number) => {
    if (n > 0 && xs[n - 1] === x && hs[n - 1] === h) return;
    xs[n] = x;
    hs[n++] = h;
  };
  for (let i = 0; i < count; i++) {
    put(x0[i], h0[i]);
    put(x1[i], h1[i]);
  }
  return { xs: xs.slice(0, n), hs: hs.slice(0, n) };
}

/** For each x the first and the last piece that comes within `reach` of it (an empty range where none does). */
function withinReach(xs: Float64Array, walls: Outline, reach: number) {
  const first = new Int32Array(xs.length);
  const last = new Int32Array(xs.length);
  let low = 0;
  let high = -1;
  for (let i = 0; i < xs.length; i++) {
    while (low < walls.count && walls.x1[low] < xs[i] - reach) low++;
    while (high + 1 < walls.count && walls.x0[high + 1] <= xs[i] + reach) high++;
    first[i] = low;
    last[i] = high;
  }
  return { first, last };
}

/** The pieces of all repeats that touch the stretch from `fromX` to `toX`, from left to right. */
function copies(outline: Outline, repeatMm: number, fromX: number, toX: number): Outline {
  const { count } = outline;
  const begin = outline.x0[0];
  const end = outline.x1[count - 1];
  const parts: { shift: number; from: number; to: number }[] = [];
  for (let k = Math.floor((fromX - end) / repeatMm); k <= Math.ceil((toX - begin) / repeatMm); k++) {
    const shift = k * repeatMm;
    let from = 0;
    let to = count;
    while (from < to && outline.x1[from] + shift < fromX) from++;
    while (to > from && outline.x0[to - 1] + shift > toX) to--;
    if (to > from) parts.push({ shift, from, to });
  }
  const total = parts.reduce((sum, { from, to }) => sum + to - from, 0);
  const all = emptyOutline(total);
  let n = 0;
  for (const { shift, from, to } of parts) {
    for (let i = from; i < to; i++, n++) {
      all.x0[n] = outline.x0[i] + shift;
      all.x1[n] = outline.x1[i] + shift;
      all.h0[n] = outline.h0[i];
      all.h1[n] = outline.h1[i];
    }
  }
  return all;
}
