/**
 * The rows of a motif that closes no pocket: the spacing at which the largest open circle is as wide as wanted.
 *
 * At the motif's height and the gap on top of it a band as wide as the gap runs free between the rows, so the spacing
 * wanted lies between the closest and that. It is found by false position in its Illinois form (M. Dowell and P. Jarratt,
 * BIT 11, 1971), in half a dozen looks at the rows.
 */
import type { Layout } from '../../shared/layout.js';
import type { RowsAtSpacing } from '../../shared/rows.js';
import type { Row } from './row.js';
import { rowsAt } from './rows-at.js';

/** Circles are right to 0.1 mm: nearer to the gap than half of that is no better, mm. */
const preciseMm = 0.05;

/** The rows at that spacing; at the closest one where the circle is as wide as the gap by then. */
export function gapRows(row: Row, layout: Layout, closestMm: number, gapMm: number): RowsAtSpacing {
  const over = (rows: RowsAtSpacing) => rows.largestOpenMm - gapMm;
  let low = rowsAt(row, layout, closestMm);
  let below = over(low);
  if (below >= 0) return low;
  let highMm = row.heightMm + gapMm;
  let above = over(rowsAt(row, layout, highMm));
  while (highMm - low.spacingMm > preciseMm) {
    const share = below / (below - above);
    const rows = rowsAt(row, layout, low.spacingMm + share * (highMm - low.spacingMm));
    const off = over(rows);
    if (Math.abs(off) <= preciseMm) return rows;
    // An end that stays where it is weighs half, or it would stay for ever.
    if (off < 0) [low, below, above] = [rows, off, above / 2];
    else [highMm, above, below] = [rows.spacingMm, off, below / 2];
  }
  // The circle grows by a leap there.
  return low;
}
