/**
 * How long two stretches keep company: what of a run is more than two passes meeting.
 *
 * Wherever two passes cross, touch or run into one point, they are near each other for a while, and the shallower
 * they meet, the longer. That is no retrace and no crowding. But such a meeting gives itself away by how its
 * distances are spread: with s the way walked from the meeting, the distance grows with s where they cross or meet
 * at an angle, and with s squared where they touch. So of all the length within a distance h, the share within any
 * band of distances h / 4 wide is a quarter for a crossing, and for a touch at most the root of a quarter, a half.
 * Passes that keep company have most of their length in one narrow band. With F the length in the fullest band and
 * A all the length, 2 F - A is the length that no meeting explains: it vanishes for a touch, is negative for a
 * crossing, and is the whole length for two passes a constant distance apart. Where a stretch of constant distance
 * ends in passes parting gently, it is exactly the constant part.
 *
 * Limits: distances that wander over the whole range look like a meeting by their spread. They are told apart by
 * coming near more than once, which a meeting does not.
 */

import { segmentToSegment } from '../../geometry/segment.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import type { Run } from './run-linker.js';
import { nearParts } from './side-by-side.js';
import { merged, type Stretches, totalMm } from './stretches.js';

const bands = 8;
/**
 * Passes that touch a little too deeply cross twice and lie between for a while. At worst, a quarter of the range too
 * deep, that looks like 2 sqrt(0.4) - 1 = 0.27 of company.
 */
const leastShare = 0.3;
/** A quarter of the range. */
const bandWidth = 2;
/** A band with this share of the length is taken, most of all that of exact copies; others need not be looked at. */
const fullEnough = 0.95;

export interface Company {
  /** Length that no meeting explains, mm; 0 or less where the run is a mere meeting. */
  readonly lengthMm: number;
  /** The fullest band of distances, mm. */
  readonly fromMm: number;
  readonly toMm: number;
  /** All length of the run within the range, mm. */
  readonly allMm: number;
  /** How often the passes come near each other: stretches within the nearest quarter of the range. */
  readonly times: number;
}

export type Side = 'first' | 'second';

/** What of the run, on one side of it, lies at a distance above `aboveMm` and up to `withinMm`. */
export function companyOf(
  index: SegmentIndex,
  run: Run,
  side: Side,
  apartMm: number,
  aboveMm: number,
  withinMm: number,
): Company {
  const at = (mm: number) => stretchesWithin(index, run, side, mm, apartMm);
  // Passes that come near without meeting part as those that do, only farther off.
  const meet = at(aboveMm + (withinMm - aboveMm) / bands).length > 0;
  const fromMm = meet ? aboveMm : Math.max(aboveMm, leastDistance(index, run));
  const level = (k: number) => fromMm + ((withinMm - fromMm) * k) / bands;
  const known: Stretches[] = [fromMm > aboveMm || aboveMm === 0 ? [] : at(aboveMm)];
  const upTo = (k: number) => {
    known[k] ??= at(level(k));
    return known[k];
  };
  const inBand = (from: number) => totalMm(upTo(from + bandWidth)) - totalMm(upTo(from));
  const allMm = totalMm(upTo(bands)) - totalMm(upTo(0));
  let fullest = 0;
  for (let k = 1; k + bandWidth <= bands && inBand(fullest) < fullEnough * allMm; k++)
    if (inBand(k) > inBand(fullest) + 1e-9) fullest = k;
  const lengthMm = 2 * inBand(fullest) - allMm;
  return {
    lengthMm: lengthMm < leastShare * allMm ? 0 : lengthMm,
    fromMm: level(fullest),
    toMm: level(fullest + bandWidth),
    allMm,
    times: merged(upTo(bandWidth), withinMm).length / 2,
  };
}

/** Least distance between the two sides of a run, mm. */
export function leastDistance({ points }: SegmentIndex, { first, second }: Run): number {
  let leastMm = Infinity;
  for (let k = 0; k < first.length; k++) {
    const [i, j] = [2 * first[k], 2 * second[k]];
    const mm = segmentToSegment(
      points[i],
      points[i + 1],
      points[i + 2],
      points[i + 3],
      points[j],
      points[j + 1],
      points[j + 2],
      points[j + 3],
    );
    if (mm < leastMm) leastMm = mm;
  }
  return leastMm;
}

const parts = new Float64Array(4);

/** The stretches of one side of a run that lie within `withinMm` of the other. */
export function stretchesWithin(
  index: SegmentIndex,
  run: Run,
  side: Side,
  withinMm: number,
  apartMm: number,
): Stretches {
  const found: number[] = [];
  const at = side === 'first' ? 0 : 2;
  for (let k = 0; k < run.first.length; k++) {
    if (nearParts(index, run.first[k], run.second[k], withinMm, apartMm, parts))
      found.push(parts[at], parts[at + 1]);
  }
  return merged(found, 1e-6);
}
