/**
 * Whether the line about a place is shaky: smoothing (`geometry/smoothing.ts`) takes the shake out of the stretch around it.
 * In time linear in the points, and what smoothing so short a stretch takes.
 */
import type { Point, Polyline } from '../../../shared/plane.js';
import { distance } from '../../geometry/point.js';
import { nearestAlong, placeAlong, runningLengths, stretchOf } from '../../geometry/polyline.js';
import { smoothed } from '../../geometry/smoothing.js';

/** So many tolerances of the line on either side of the place tell a shake from a bend. */
const aroundTolerances = 40;

/** `withinMm`: no place of the line may move farther. The place lies on one of the strokes. */
export function isShakyAt(strokes: readonly Polyline[], at: Point, withinMm: number): boolean {
  let around: Polyline | null = null;
  let leastMm = Infinity;
  for (const line of strokes) {
    const run = runningLengths(line);
    const alongMm = nearestAlong(line, run, at);
    const mm = distance(placeAlong(line, run, alongMm), at);
    if (mm >= leastMm) continue;
    leastMm = mm;
    const reachMm = aroundTolerances * withinMm;
    around = stretchOf(line, run, Math.max(0, alongMm - reachMm), alongMm + reachMm);
  }
  return around !== null && smoothed(around, withinMm) !== null;
}
