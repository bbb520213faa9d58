/** Stacked rows at one spacing: their open circles and how even the quilting is. */
import type { Layout } from '../../shared/layout.js';
import type { OpenCircle, RowsAtSpacing } from '../../shared/rows.js';
import { onDemand } from '../once.js';
import type { EmptyCircle } from './grow.js';
import { kindsOfSeam } from './layout.js';
import { innerCircle, rowsTouched, seamCircle } from './open-circles.js';
import { perRowAnd, type Row } from './row.js';
import { type Stack, stackOf } from './stack.js';
import { unevennessOf } from './unevenness.js';

/**
 * Rows closer than this are looked at as if they lay so far apart: a thread is thicker, mm, and where dozens of rows
 * lie over one another nothing stays open.
 */
const leastSpacingMm = 0.1;
const mostRowsDeep = 400;

/** How far apart the rows are taken to lie at a spacing, mm. */
export function lookedAtMm(row: Row, spacingMm: number): number {
  return Math.max(spacingMm, leastSpacingMm, row.heightMm / mostRowsDeep);
}

/**
 * The rows of a layout at this spacing; circles are right to 0.1 mm. Each of its facts is worked out once, when it is
 * first asked for.
 */
export const rowsAt = perRowAnd((row, layout: Layout, spacingMm: number): RowsAtSpacing => {
  const apartMm = lookedAtMm(row, spacingMm);
  const stack = stackOf(row, layout, apartMm);
  const meanLineSpacingMm = (row.repeatMm * apartMm) / row.lengthMm;
  const rows: RowsAtSpacing = onDemand<RowsAtSpacing>({
    spacingMm: () => spacingMm,
    inner: () => openCircle(stack, innerCircle(stack)),
    seam: () => openCircle(stack, seamCircle(stack, rows.inner?.diameterMm)),
    largestOpenMm: () => Math.max(rows.inner?.diameterMm ?? 0, rows.seam?.diameterMm ?? 0),
    openness: () => rows.largestOpenMm / meanLineSpacingMm,
    unevenness: () => unevennessOf(stack),
  });
  return rows;
});

/** Told where it lies in the first repeat of the top row, or below that row. */
function openCircle(stack: Stack, circle: EmptyCircle | null): OpenCircle | null {
  if (circle === null) return null;
  const { row, layout, spacingMm } = stack;
  const kinds = kindsOfSeam(layout);
  const first = rowsTouched(stack, circle)[0] ?? 0;
  const rowsDown = Math.max(0, kinds * Math.ceil(-first / kinds));
  // One row down in a brick layout is half a repeat to the right as well.
  const right = layout === 'brick' ? (rowsDown * row.repeatMm) / 2 : 0;
  const fromLeft = circle.x + right - row.box.minX;
  const repeats = Math.floor(fromLeft / row.repeatMm);
  return {
    centre: {
      x: row.box.minX + fromLeft - repeats * row.repeatMm,
      y: circle.y + rowsDown * spacingMm,
    },
    diameterMm: 2 * circle.radiusMm,
  };
}
