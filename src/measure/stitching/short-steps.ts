/**
 * Steps from point to point that are shorter than they need to be: one of the two points could be left out, and the
 * line would stay the same. A repeated point is a step of no length.
 */
import type { Point, Polyline } from '../../../shared/plane.js';
import type { ShortSteps } from '../../../shared/study.js';
import { neededOfWhole } from '../../geometry/thinning.js';

/** Places told; further ones are only counted. */
const mostPlaces = 1000;
/** A point is needed where the line without it would lie farther from it than this, mm: thinning leaves it. */
export const thinMm = 0.02;

export function shortStepsOf(strokes: readonly Polyline[], stepMm: number): ShortSteps {
  const places: Point[] = [];
  const squared = stepMm * stepMm;
  let count = 0;
  for (const line of strokes) {
    let needed: Uint8Array | null = null;
    for (let i = 2; i < line.length; i += 2) {
      const dx = line[i] - line[i - 2];
      const dy = line[i + 1] - line[i - 1];
      if (!(dx * dx + dy * dy < squared)) continue;
      needed ??= neededOfWhole(line, thinMm);
      if (needed[i / 2] && needed[i / 2 - 1]) continue;
      count++;
      if (places.length < mostPlaces) places.push({ x: line[i], y: line[i + 1] });
    }
  }
  return { count, places };
}
