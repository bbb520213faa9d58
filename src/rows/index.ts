/** How rows nest: closest and even spacing, open circles, interlocks, and which layout to choose. */
import type { Layout } from '../../shared/layout.js';
import type { Nesting } from '../../shared/rows.js';
import { closestSpacing } from './closest.js';
import { evenRows } from './even.js';
import { interlocks } from './interlocks.js';
import type { Row } from './row.js';
import { rowsAt } from './rows-at.js';

export { adviceOn, howItLies } from './advice.js';
export { rowDistance } from './between-rows.js';
export { placementOf } from './layout.js';
export { recommend } from './recommend.js';
export { type Row, rowOf, rowOfMotif } from './row.js';
export { rowsAt } from './rows-at.js';

/** How the rows of this layout nest when the lines of neighbouring rows keep `clearanceMm` apart. */
export function nest(row: Row, layout: Layout, clearanceMm: number): Nesting {
  const closestSpacingMm = closestSpacing(row, layout, clearanceMm);
  const evened = evenRows(row, layout, closestSpacingMm);
  const even = evened ?? rowsAt(row, layout, closestSpacingMm);
  return {
    layout,
    clearanceMm,
    closestSpacingMm,
    evenSpacingMm: even.spacingMm,
    nestingOffsetMm: row.heightMm - even.spacingMm,
    even,
    interlocksMm: interlocks(row, layout, clearanceMm),
    evened: evened !== null,
  };
}
