/**
 * The even spacing: the largest one, from the closest up to the motif's height, at which the seam between two rows
 * shows no larger open circle than the motif has within itself. In the same way the largest one that a batting allows,
 * and that leaves the gap wanted where a motif closes no pocket to measure by.
 *
 * The seam circle need not grow with the spacing, so halving an interval could miss the largest. The search comes down
 * from above in steps that skip nothing: a circle that is empty at a spacing loses, when the rows above it come down
 * and those below come up, at most half of what the spacing loses of its radius. As long as it is larger than the
 * largest pocket of the motif, all the spacings down to where it may be no larger are passed over. It is then
 * grown again in its new place, and only where it is small enough are all seam circles looked at. Where a row reaches into
 * that pocket the seam must be as small as the largest one left, which may be larger again farther down: so these steps are
 * short, and a good spacing may lie within one.
 */
import type { Layout } from '../../shared/layout.js';
import type { OpenCircle, RowsAtSpacing } from '../../shared/rows.js';
import { type EmptyCircle, grownCircle } from './grow.js';
import { rowsTouched } from './open-circles.js';
import type { Row } from './row.js';
import { lookedAtMm, rowsAt } from './rows-at.js';
import { distanceToRow, rowsIn, type Stack, stackOf, touchMm } from './stack.js';

/** The even spacing is found to this, mm. */
const precisionMm = 0.01;
/** Where a row reaches into the largest pocket, no step is longer than this share of the spacings there are. */
const blindSteps = 64;

/** The rows at the even spacing, or null where no spacing from `closestMm` up evens the seam with this pocket. */
export function evenRows(row: Row, layout: Layout, closestMm: number, pocket: EmptyCircle) {
  return widestRows(row, layout, {
    highest: Math.max(row.heightMm, closestMm),
    closestMm,
    radiusMm: pocket.radiusMm,
    isGood: ({ inner, largestOpenMm }) => inner?.diameterMm === largestOpenMm,
  });
}

/** The rows set as far apart as open circles of `openMm` allow; null where no spacing does. */
export function widestOpen(
  row: Row,
  layout: Layout,
  closestMm: number,
  openMm: number,
): RowsAtSpacing | null {
  // A pocket of the motif's own stays open at any spacing, unless the next row reaches into it.
  return widestRows(row, layout, {
    highest: Math.max(row.heightMm, closestMm) + openMm,
    closestMm,
    radiusMm: openMm / 2,
    isGood: ({ largestOpenMm }) => largestOpenMm <= openMm,
  });
}

interface Search {
  readonly highest: number;
  readonly closestMm: number;
  /** Seam circles of a larger radius rule a spacing out. */
  readonly radiusMm: number;
  isGood(rows: RowsAtSpacing): boolean;
}

/** The rows at the largest spacing that is good, coming down from the highest. */
function widestRows(
  row: Row,
  layout: Layout,
  { highest, closestMm, radiusMm, isGood }: Search,
): RowsAtSpacing | null {
  const blindMm = (highest - closestMm) / blindSteps;
  let spacingMm = highest;
  for (;;) {
    const rows = rowsAt(row, layout, spacingMm);
    if (isGood(rows)) return rows;
    if (spacingMm <= closestMm) return null;
    const comeDown = (toRadiusMm: number, lowestMm: number) =>
      passOver(row, layout, spacingMm, rows.seam, toRadiusMm, lowestMm);
    let next = comeDown(radiusMm, closestMm);
    if (next === spacingMm) {
      // The pocket itself is reached into: the seam may have to be as small as what is left open within the motif.
      const lowestMm = Math.max(closestMm, spacingMm - Math.max(blindMm, precisionMm));
      next = comeDown((rows.inner?.diameterMm ?? 0) / 2, lowestMm);
      if (next === spacingMm) next = lowestMm;
    }
    const looksAlike = lookedAtMm(row, next) === lookedAtMm(row, spacingMm);
    spacingMm = looksAlike ? closestMm : next;
  }
}

/** Comes down from `fromMm`, at most to `lowestMm`, while the circle, grown anew at each spacing, is larger than wanted. */
function passOver(
  row: Row,
  layout: Layout,
  fromMm: number,
  circle: OpenCircle | null,
  wantedMm: number,
  lowestMm: number,
): number {
  if (circle === null) return fromMm;
  let spacingMm = fromMm;
  let { x, y } = circle.centre;
  let radiusMm = circle.diameterMm / 2;
  while (radiusMm > wantedMm && spacingMm > lowestMm) {
    const stack = stackOf(row, layout, spacingMm);
    const middle = middleRow(stack, { x, y, radiusMm });
    const step = Math.max(precisionMm, safeStep(stack, { x, y, radiusMm }, middle, wantedMm));
    const next = Math.max(lowestMm, spacingMm - step);
    y -= middle * (spacingMm - next);
    spacingMm = next;
    ({ x, y, radiusMm } = grownCircle(stackOf(row, layout, spacingMm), x, y, step));
  }
  return spacingMm;
}

/** The number, whole or half, in the middle of the rows that the circle touches: it stays put as they close up. */
function middleRow(stack: Stack, circle: EmptyCircle): number {
  const touched = rowsTouched(stack, circle);
  return (touched[0] + touched[touched.length - 1]) / 2;
}

/** By how much the spacing may shrink before the circle's place can have less room than the pocket. */
function safeStep(stack: Stack, { x, y, radiusMm }: EmptyCircle, middle: number, pocketMm: number): number {
  const reach = 3 * radiusMm + touchMm;
  const [first, last] = rowsIn(stack, y - reach, y + reach);
  // Rows farther off than `reach` cannot come in within a step that the touching rows allow, unless many lie between.
  let step = Infinity;
  for (let index = first; index <= last; index++) {
    const moves = Math.abs(index - middle);
    if (moves === 0) continue;
    step = Math.min(step, (distanceToRow(stack, index, x, y, reach) - pocketMm) / moves);
  }
  return step;
}
