/** Two places on the last row of a pass that can still be reached in the next one, as far apart across as can be. */
import type { Pair } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';
import { shareInside } from './trim.js';

/** Nearer together than this they say nothing about the turn of the quilt, mm. */
const leastApartMm = 25.4;

/** On `pieces`, no higher than `highestMm`; null where no two such places lie well apart. */
export function checkPoints(pieces: readonly Polyline[], highestMm: number): readonly [Pair, Pair] | null {
  const below = { minX: -Infinity, maxX: Infinity, minY: highestMm, maxY: Infinity };
  let left: Pair = [Infinity, 0];
  let right: Pair = [-Infinity, 0];
  for (const line of pieces) {
    for (let i = 2; i < line.length; i += 2) {
      const inside = shareInside(below, line[i - 2], line[i - 1], line[i], line[i + 1]);
      if (inside === null) continue;
      const { x0, y0, x1, y1 } = inside;
      if (Math.min(x0, x1) < left[0]) left = x0 < x1 ? [x0, y0] : [x1, y1];
      if (Math.max(x0, x1) > right[0]) right = x0 > x1 ? [x0, y0] : [x1, y1];
    }
  }
  return right[0] - left[0] >= leastApartMm ? [left, right] : null;
}
