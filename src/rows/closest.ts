/**
 * The closest spacing: the smallest one from which on every point of a row stays at least the clearance away from every
 * point of the next. Exact, in closed form: it is the most that any two places of the rows ask for (`asked.ts`), and only
 * what the upper row shows from below and the lower one from above (`outline.ts`) can ask for most.
 */
import type { Layout } from '../../shared/layout.js';
import { askedByPieces, reachMm } from './asked.js';
import { kindsOfSeam } from './layout.js';
import { perRowAnd, type Row } from './row.js';
import { RowPair } from './row-pair.js';

/** The closest spacing in mm for this clearance, right to rounding; it serves every pair of rows in the stack. */
export function closestSpacing(row: Row, layout: Layout, clearanceMm: number): number {
  const neighbours = Math.max(...closestOfNeighbours(row, layout, clearanceMm));
  if (layout === 'straight') return neighbours;
  // Rows two apart are alike, and meet where a motif of several strokes lets the row between them through.
  return Math.max(neighbours, closestSpacing(row, 'straight', clearanceMm) / 2);
}

/**
 * The same for each kind of neighbours alone: below a row as drawn, and, where that differs, below a changed one. -Infinity
 * for those that stay aside of each other.
 */
export const closestOfNeighbours = perRowAnd((row, layout: Layout, clearanceMm: number): readonly number[] =>
  Array.from(
    { length: kindsOfSeam(layout) },
    (_, index) =>
      RowPair.outlines(row, layout, index).ask({
        atMost: (gapMm, _fromMm, toMm) => toMm + reachMm(gapMm, clearanceMm),
        of: (upper, lower) => askedByPieces(upper, lower, clearanceMm),
      })?.most ?? Number.NEGATIVE_INFINITY,
  ),
);
