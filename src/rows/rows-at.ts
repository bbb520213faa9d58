/** Stacked rows at one spacing: their open circles and how even the quilting is. */
import type { Layout } from '../../shared/motif.js';
import type { OpenCircle, RowsAtSpacing } from '../../shared/rows.js';
import type { EmptyCircle } from './grow.js';
import { innerCircle, seamCircle } from './open-circles.js';
import { perRowAnd } from './row.js';
import { stackOf } from './stack.js';

/** Rows nearer than this are taken to lie so far apart: a thread is thicker, mm. */
const leastSpacingMm = 0.1;

/** The rows of a layout at this spacing; circles are right to 0.1 mm. Worked out once for each. */
export const rowsAt = perRowAnd((row, layout: Layout, spacingMm: number): RowsAtSpacing => {
  const apartMm = Math.max(spacingMm, leastSpacingMm);
  const stack = stackOf(row, layout, apartMm);
  const inner = openCircle(innerCircle(stack));
  const seam = openCircle(seamCircle(stack, inner?.diameterMm));
  const largestOpenMm = Math.max(inner?.diameterMm ?? 0, seam?.diameterMm ?? 0);
  const meanLineSpacingMm = (row.repeatMm * apartMm) / row.lengthMm;
  return { spacingMm, inner, seam, largestOpenMm, evenness: largestOpenMm / meanLineSpacingMm };
});

function openCircle(circle: EmptyCircle | null): OpenCircle | null {
  return circle && { centre: { x: circle.x, y: circle.y }, diameterMm: 2 * circle.radiusMm };
}
