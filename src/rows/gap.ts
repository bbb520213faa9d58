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
  if (over(low) >= 0) return low;
  let high = rowsAt(row, layout, Math.max(closestMm, row.heightMm + gapMm));
  let [below, above] = [over(low), over(high)];
  while (high.spacingMm - low.spacingMm > preciseMm && below < -preciseMm && above > preciseMm) {
    const share = below / (below - above);
    const middle = rowsAt(row, layout, low.spacingMm + share * (high.spacingMm - low.spacingMm));
    // An end that stays where it is weighs half, or it would stay for ever.
    if (over(middle) < 0) {
      [low, below, above] = [middle, over(middle), above / 2];
    } else {
      [high, above, below] = [middle, over(middle), below / 2];
    }
  }
  return over(high) <= preciseMm ? high : low;
}
