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
import { type Beside, visitBeside } from './beside.js';
import { companyOf, distanceHolding, leastDistance, stretchesWithin } from './company.js';
import { retraceMm, thinMm } from './retraces.js';
import { totalMm } from './stretches.js';

/** Lines at a steeper angle do not go side by side. */
const turnDeg = 45;

/** Stretches nearer to an earlier part of the line than `withinMm` for more than `overMm`, longest first. */
export function crowdingOf(full: SegmentIndex, withinMm: number, overMm: number): AtLeast<Crowding> {
  if (!(withinMm > retraceMm)) return { places: [], more: false };
  const index = thinnedIndex(full, thinMm);
  const places: Crowding[] = [];
  const apartMm = 3 * withinMm;
  const all = visitBeside(
    index,
    { withinMm, enoughMm: retraceMm, apartMm, turnDeg, leastMm: overMm },
    (beside) => {
      const found = crowdingIn(index, beside, withinMm, overMm);
      if (found) places.push(found);
      return [];
    },
  );
  return { places: places.sort((a, b) => b.lengthMm - a.lengthMm), more: !all };
}

function crowdingIn(index: SegmentIndex, beside: Beside, withinMm: number, overMm: number): Crowding | null {
  const nearMm = totalMm(stretchesWithin(beside, withinMm));
  const touches = stretchesWithin(beside, retraceMm);
  if (!(nearMm - totalMm(touches) > overMm)) return null;
  const meetings = touches.length > 0 ? touches.length / 2 : Number(beside.foldMm !== null);
  if (meetings > 0) {
    const company = companyOf(beside, retraceMm, withinMm);
    if (company.times <= meetings) {
      const { lengthMm, fromMm, toMm } = company;
      if (!(lengthMm > overMm)) return null;
      return {
        at: middleOfLongest(index, beside, toMm),
        lengthMm,
        leastMm: firstFilled(beside, fromMm, toMm),
      };
    }
  }
  return {
    at: middleOfLongest(index, beside, withinMm),
    lengthMm: nearMm - totalMm(touches),
    leastMm: meetings > 0 ? firstFilled(beside, retraceMm, withinMm) : leastDistance(beside),
  };
}

/**
 * Where passes meet, the least distance is that of the meeting, and says nothing about the stretch that is crowded:
 * so this is the distance, of those from `fromMm` to `toMm`, up to which the nearest hundredth lies, to 0.001 mm.
 */
function firstFilled(beside: Beside, fromMm: number, toMm: number): number {
  const lengthAt = (mm: number) => totalMm(stretchesWithin(beside, mm));
  const below = lengthAt(fromMm);
  const wanted = below + (lengthAt(toMm) - below) / 100;
  return distanceHolding(wanted, lengthAt, fromMm, toMm);
}

function middleOfLongest(index: SegmentIndex, beside: Beside, withinMm: number): Point {
  const stretches = stretchesWithin(beside, withinMm);
  let longest = 0;
  for (let k = 2; k < stretches.length; k += 2)
    if (stretches[k + 1] - stretches[k] > stretches[longest + 1] - stretches[longest]) longest = k;
  const walked = index.runMm.subarray(index.firstPoints[beside.stroke], index.firstPoints[beside.stroke + 1]);
  return placeAlong(index.strokes[beside.stroke], walked, (stretches[longest] + stretches[longest + 1]) / 2);
}
