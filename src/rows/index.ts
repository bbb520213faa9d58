/** How rows nest: closest and even spacing, open circles, interlocks, and which layout to choose. */
import type { Layout } from '../../shared/layout.js';
import type { Nesting, RowsAtSpacing } from '../../shared/rows.js';
import { defaultSetup } from '../../shared/setup.js';
import { once } from '../once.js';
import { closestSpacing } from './closest.js';
import { evenRows, widestOpen } from './even.js';
import { interlocks } from './interlocks.js';
import { innerCircle } from './open-circles.js';
import type { Row } from './row.js';
import { rowsAt } from './rows-at.js';
import { aloneOf } from './stack.js';

export { adviceOn, battingWords, howItLies, throatWords } from './advice.js';
export { rowDistance } from './between-rows.js';
export { type JudgedRows, judgedRows, judgementWords } from './judged.js';
export { placementOf } from './layout.js';
export { recommend } from './recommend.js';
export { repeatsOf } from './repeats.js';
export { type Row, rowOf, rowOfMotif } from './row.js';
export { rowsAt } from './rows-at.js';

/**
 * How the rows of this layout nest when the lines of neighbouring rows keep `clearanceMm` apart. A motif that closes no
 * pocket looks the same at any spacing: its rows are set so that the open circle is `gapMm`.
 */
export function nest(row: Row, layout: Layout, clearanceMm: number, gapMm = defaultSetup.gapMm): Nesting {
  const closestSpacingMm = closestSpacing(row, layout, clearanceMm);
  const pocket = innerCircle(aloneOf(row));
  const evened = pocket
    ? evenRows(row, layout, closestSpacingMm, pocket)
    : widestOpen(row, layout, closestSpacingMm, gapMm);
  const even = evened ?? rowsAt(row, layout, closestSpacingMm);
  const kept = once(() => interlocks(row, layout, clearanceMm));
  return {
    layout,
    clearanceMm,
    closestSpacingMm,
    evenSpacingMm: even.spacingMm,
    nestingOffsetMm: row.heightMm - even.spacingMm,
    even,
    // Dear, and told only where rows are asked for.
    get interlocksMm() {
      return kept();
    },
    evened: evened !== null,
    gapMm: pocket ? null : gapMm,
  };
}

/**
 * The rows set as far apart as a batting allows whose label limits open circles to `openMm`, never nearer than the
 * clearance; null where no spacing is within it.
 */
export function battingRows(
  row: Row,
  layout: Layout,
  clearanceMm: number,
  openMm: number,
): RowsAtSpacing | null {
  return widestOpen(row, layout, closestSpacing(row, layout, clearanceMm), openMm);
}
