/** A row of so many repeats, for pictures and patterns: a row itself has no ends. */
import type { Layout } from '../../shared/layout.js';
import { type Placement, placementOf } from './layout.js';
import type { Row } from './row.js';

/**
 * Where each repeat of row `index` lies, from left to right in the motif's own coordinates. The first repeat of row 0 is
 * the motif itself; a turned row covers the same stretch, a shifted one begins half a repeat to the right.
 */
export function repeatsOf(
  row: Row,
  layout: Layout,
  spacingMm: number,
  index: number,
  count: number,
): Placement[] {
  const { signX, signY, dx, dy } = placementOf(row, layout, spacingMm, index);
  // A turned row runs to the left: its repeats are counted from the right.
  const first = signX === 1 ? 0 : 1 - count + turnedOver(row);
  return Array.from({ length: count }, (_, k) => ({
    signX,
    signY,
    dx: dx + signX * (first + k) * row.repeatMm,
    dy,
  }));
}

/** By how many repeats a turned row has slid to the side of the others. */
function turnedOver({ middleXMm, box, repeatMm }: Row): number {
  const slid = 2 * middleXMm - 2 * box.minX - repeatMm;
  return Math.round(slid / repeatMm);
}
