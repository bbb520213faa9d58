/** The stacked rows of a layout at a spacing, without end in all directions, and what lies near a place in them. */
import type { Layout } from '../../shared/layout.js';
import { type Placement, placementOf } from './layout.js';
import type { Row } from './row.js';
import { nearestMm, segmentTreeOf, within } from './segment-tree.js';

/** A row this much farther than a circle's edge does not touch it, mm. */
export const touchMm = 0.01;

export interface Stack {
  readonly row: Row;
  readonly layout: Layout;
  readonly spacingMm: number;
  /** The rows there are: one alone, or all. */
  readonly only: number | null;
}

export function stackOf(row: Row, layout: Layout, spacingMm: number): Stack {
  return { row, layout, spacingMm, only: null };
}

/** The motif's row alone, as a stack of one. */
export function aloneOf(row: Row): Stack {
  return { row, layout: 'straight', spacingMm: Infinity, only: 0 };
}

/** The numbers, first and last, of the rows whose boxes touch the band from `topMm` to `bottomMm`. */
export function rowsIn({ row, spacingMm, only }: Stack, topMm: number, bottomMm: number): [number, number] {
  if (only !== null) return [only, only];
  return [Math.ceil((topMm - row.box.maxY) / spacingMm), Math.floor((bottomMm - row.box.minY) / spacingMm)];
}

/** The numbers, first and last, of the repeats of a row that touch the stretch from `leftMm` to `rightMm`. */
export function repeatsIn({ box, repeatMm }: Row, leftMm: number, rightMm: number): [number, number] {
  return [Math.ceil((leftMm - box.maxX) / repeatMm), Math.floor((rightMm - box.minX) / repeatMm)];
}

/** Row `index` as it lies in the stack. */
export function placed(stack: Stack, index: number): Placement {
  return stack.only === null
    ? placementOf(stack.row, stack.layout, stack.spacingMm, index)
    : { signX: 1, signY: 1, dx: 0, dy: 0 };
}

/** Distance from (x, y) to row `index`, or `limitMm` where that is less. */
export function distanceToRow(stack: Stack, index: number, x: number, y: number, limitMm: number): number {
  const { row } = stack;
  const { box, repeatMm } = row;
  const tree = segmentTreeOf(row);
  const { signX, signY, dx, dy } = placed(stack, index);
  const ownX = signX * (x - dx);
  const ownY = signY * (y - dy);
  // From the repeat over the place outwards, while they can still be nearer.
  const middle = Math.round((ownX - (box.minX + box.maxX) / 2) / repeatMm);
  let best = nearestMm(tree, ownX - middle * repeatMm, ownY, limitMm);
  for (let k = middle + 1; box.minX + k * repeatMm - ownX < best; k++)
    best = nearestMm(tree, ownX - k * repeatMm, ownY, best);
  for (let k = middle - 1; ownX - box.maxX - k * repeatMm < best; k--)
    best = nearestMm(tree, ownX - k * repeatMm, ownY, best);
  return best;
}

/** Distance from (x, y) to the nearest line of the stack, or `limitMm` where that is less. */
export function distanceToStack(stack: Stack, x: number, y: number, limitMm = Infinity): number {
  const { row, spacingMm, only } = stack;
  if (only !== null) return distanceToRow(stack, only, x, y, limitMm);
  const { minY, maxY } = row.box;
  const middle = Math.round((y - (minY + maxY) / 2) / spacingMm);
  let best = distanceToRow(stack, middle, x, y, limitMm);
  for (let index = middle + 1; minY + index * spacingMm - y < best; index++)
    best = distanceToRow(stack, index, x, y, best);
  for (let index = middle - 1; y - maxY - index * spacingMm < best; index--)
    best = distanceToRow(stack, index, x, y, best);
  return best;
}

/**
 * Calls `see` with the nearest place of every segment within `withinMm` of (x, y), but for those in boxes of which `isHidden`
 * says so: it is told where two opposite corners of a box lie, seen from the place, and how far off the box is.
 */
export function eachNear(
  stack: Stack,
  x: number,
  y: number,
  withinMm: number,
  see: (footX: number, footY: number, distanceMm: number) => void,
  isHidden: (x0: number, y0: number, x1: number, y1: number, distanceMm: number) => boolean,
): void {
  const { row } = stack;
  const tree = segmentTreeOf(row);
  const [firstRow, lastRow] = rowsIn(stack, y - withinMm, y + withinMm);
  for (let index = firstRow; index <= lastRow; index++) {
    const { signX, signY, dx, dy } = placed(stack, index);
    const ownX = signX * (x - dx);
    const ownY = signY * (y - dy);
    const [first, last] = repeatsIn(row, ownX - withinMm, ownX + withinMm);
    for (let k = first; k <= last; k++) {
      const shift = k * row.repeatMm;
      within(
        tree,
        ownX - shift,
        ownY,
        withinMm,
        (footX, footY, far) => see(signX * (footX + shift) + dx, signY * footY + dy, far),
        (left, top, right, bottom, far) =>
          isHidden(signX * left, signY * top, signX * right, signY * bottom, far),
      );
    }
  }
}
