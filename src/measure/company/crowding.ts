/**
 * Crowding: stretches that go side by side with another stretch of the line, nearer than the eye can tell apart,
 * for longer than a crossing, a touch or a sharp point explains (`company.ts`). The two legs of a sharp point are
 * near each other as they run into it, and that is no crowding; the two sides of a thin finger are.
 *
 * What lies within 0.1 mm is a retrace and counts there, not here.
 */

import type { Point } from '../../../shared/plane.js';
import type { AtLeast, Crowding } from '../../../shared/study.js';
import { placeAlong } from '../../geometry/polyline.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { thinnedIndex } from '../../near/thinned-index.js';
import { companyOf, leastDistance, stretchesWithin } from './company.js';
import { retraceMm, thinMm } from './retraces.js';
import type { Run } from './run-linker.js';
import { foldOf, runsSideBySide } from './side-by-side.js';
import { totalMm } from './stretches.js';

/** Lines at a steeper angle do not go side by side. */
const turnDeg = 45;

/**
 * Stretches nearer to another part of the line than `withinMm` for more than `overMm`, longest first. Lengths are
 * those of the earlier of the two passes.
 */
export function crowdingOf(full: SegmentIndex, withinMm: number, overMm: number): AtLeast<Crowding> {
  if (!(withinMm > retraceMm)) return { places: [], more: false };
  const index = thinnedIndex(full, thinMm);
  const apartMm = 3 * withinMm;
  const { runs, more } = runsSideBySide(index, { withinMm, apartMm, turnDeg, leastMm: overMm });
  const places = runs
    .flatMap((run) => crowdingIn(index, run, withinMm, apartMm, overMm))
    .sort((a, b) => b.lengthMm - a.lengthMm);
  return { places, more };
}

function crowdingIn(
  index: SegmentIndex,
  run: Run,
  withinMm: number,
  apartMm: number,
  overMm: number,
): Crowding[] {
  const nearMm = totalMm(stretchesWithin(index, run, 'first', withinMm, apartMm));
  const touches = stretchesWithin(index, run, 'first', retraceMm, apartMm);
  if (!(nearMm - totalMm(touches) > overMm)) return [];
  const meetings =
    touches.length > 0 ? touches.length / 2 : Number(foldOf(index, run, withinMm, apartMm) !== null);
  if (meetings > 0) {
    const company = companyOf(index, run, 'first', apartMm, retraceMm, withinMm);
    if (company.times <= meetings) {
      const { lengthMm, fromMm, toMm } = company;
      if (!(lengthMm > overMm)) return [];
      const leastMm = firstFilled(index, run, apartMm, fromMm, toMm);
      return [{ at: middleOfLongest(index, run, toMm, apartMm), lengthMm, leastMm }];
    }
  }
  const lengthMm = nearMm - totalMm(touches);
  const leastMm =
    meetings > 0 ? firstFilled(index, run, apartMm, retraceMm, withinMm) : leastDistance(index, run);
  return [{ at: middleOfLongest(index, run, withinMm, apartMm), lengthMm, leastMm }];
}

/**
 * Where passes meet, the least distance is that of the meeting, and says nothing about the stretch that is crowded:
 * so this is the distance, of those from `fromMm` to `toMm`, up to which the nearest hundredth lies, to 0.001 mm.
 */
function firstFilled(index: SegmentIndex, run: Run, apartMm: number, fromMm: number, toMm: number): number {
  const lengthAt = (mm: number) => totalMm(stretchesWithin(index, run, 'first', mm, apartMm));
  const below = lengthAt(fromMm);
  const wanted = below + (lengthAt(toMm) - below) / 100;
  let [low, high] = [fromMm, toMm];
  while (high - low > 0.001) {
    const middle = (low + high) / 2;
    if (lengthAt(middle) < wanted) low = middle;
    else high = middle;
  }
  return high;
}

function middleOfLongest(index: SegmentIndex, run: Run, withinMm: number, apartMm: number): Point {
  const stretches = stretchesWithin(index, run, 'first', withinMm, apartMm);
  let longest = 0;
  for (let k = 2; k < stretches.length; k += 2)
    if (stretches[k + 1] - stretches[k] > stretches[longest + 1] - stretches[longest]) longest = k;
  const stroke = index.strokeOf[run.first[0]];
  const walked = index.runMm.subarray(index.firstPoints[stroke], index.firstPoints[stroke + 1]);
  return placeAlong(index.strokes[stroke], walked, (stretches[longest] + stretches[longest + 1]) / 2);
}
