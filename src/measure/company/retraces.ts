/**
 * Retraces: stretches of at least 1 mm that lie within 0.1 mm of an earlier stretch of the line and nearly parallel
 * to it, in the same direction or back. Crossings and touches, however shallow, are no retraces: `company.ts` tells
 * them apart by how the distance between the passes goes.
 *
 * A place that is passed n times counts n - 1 times: of every pair of passes the later is the one over again, and
 * the union of all those is what is stitched beyond the first pass.
 */

import type { Retrace, Retraces } from '../../../shared/study.js';
import { placeAlong } from '../../geometry/polyline.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { thinnedIndex } from '../../near/thinned-index.js';
import { type Beside, visitBeside } from './beside.js';
import { companyOf, distanceHolding, stretchesWithin } from './company.js';
import { merged, totalMm } from './stretches.js';

/** Passes this near count as one over the other, mm. */
export const retraceMm = 0.1;
/** Far below that; lines drawn with too many points are looked at with fewer. */
export const thinMm = 0.005;
const leastMm = 1;
/** Places nearer to each other along the line are merely neighbours, mm. */
const apartMm = 3 * retraceMm;
/** A pass this near need not be nearer, mm. */
const enoughMm = thinMm;
const turnDeg = 30;
/** Stretches parted by less than this are one, mm. */
const gapMm = 0.5;
/** No crossing or touch of ordinary shapes is this long, mm: at 0.5 degrees passes no longer meet but coincide. */
const beyondMeetingMm = 25;
/** Where one narrow band of distances explains this share of a run, what lies farther off are its ends parting. */
const steadyShare = 0.8;
/** Passes that part at both ends lie this much together, of all that lies within reach. */
const nearlyAll = 0.99;
/** Passes that come near each other so often weave about each other, and do not merely meet. */
const weavingTimes = 3;

export function retracesOf(full: SegmentIndex): Retraces {
  const index = thinnedIndex(full, thinMm);
  const again = index.strokes.map((): number[] => []);
  const all = visitBeside(index, { withinMm: retraceMm, enoughMm, apartMm, turnDeg, leastMm }, (beside) => {
    const found = stitchedAgain(beside);
    for (const mm of found) again[beside.stroke].push(mm);
    return found;
  });
  const stretches = again.flatMap((found, stroke) => retracesAlong(index, stroke, merged(found, gapMm)));
  return { stretches, totalMm: stretches.reduce((sum, { extraMm }) => sum + extraMm, 0), more: !all };
}

/** What of the stretch goes over the earlier pass. */
function stitchedAgain(beside: Beside): number[] {
  const { lengthMm, toMm, allMm, times } = companyOf(beside, 0, retraceMm);
  const coincides = allMm > beyondMeetingMm || (times >= weavingTimes && allMm > weavingTimes * leastMm);
  if (lengthMm < leastMm && !coincides) return [];
  const isSteady = lengthMm >= steadyShare * allMm;
  const withinMm = coincides && !isSteady ? retraceMm : toMm;
  const later = merged(stretchesWithin(beside, distanceKept(beside, withinMm)), gapMm);
  // Where the line folds back, the later pass begins at the fold, not where the two are `apartMm` apart: the gap is less.
  const { foldMm } = beside;
  return foldMm === null ? later : [foldMm, foldMm, ...later];
}

/**
 * The distance that the two passes keep: up to it lies nearly all that lies within `withinMm`. What lies farther off is
 * the way on which they part, and would make the retrace longer than it is. To 0.001 mm.
 */
function distanceKept(beside: Beside, withinMm: number): number {
  const lengthAt = (mm: number) => totalMm(merged(stretchesWithin(beside, mm), gapMm));
  return distanceHolding(nearlyAll * lengthAt(withinMm), lengthAt, 0, withinMm);
}

function retracesAlong(index: SegmentIndex, stroke: number, stretches: readonly number[]): Retrace[] {
  const line = index.strokes[stroke];
  const run = index.runMm.subarray(index.firstPoints[stroke], index.firstPoints[stroke + 1]);
  const found: Retrace[] = [];
  for (let k = 0; k < stretches.length; k += 2) {
    const [fromMm, toMm] = [stretches[k], stretches[k + 1]];
    if (toMm - fromMm < leastMm) continue;
    found.push({
      from: placeAlong(line, run, fromMm),
      at: placeAlong(line, run, (fromMm + toMm) / 2),
      to: placeAlong(line, run, toMm),
      stroke,
      fromMm,
      toMm,
      extraMm: toMm - fromMm,
    });
  }
  return found;
}
