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

import type { Beside } from './beside.js';
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

/** What of the stretch lies at a distance above `aboveMm` and up to `withinMm`. */
export function companyOf(beside: Beside, aboveMm: number, withinMm: number): Company {
  const at = (mm: number) => stretchesWithin(beside, mm);
  // Passes that come near without meeting part as those that do, only farther off.
  const meet = at(aboveMm + (withinMm - aboveMm) / bands).length > 0;
  const fromMm = meet ? aboveMm : Math.max(aboveMm, leastDistance(beside));
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

/** Least distance between the two passes, mm. */
export function leastDistance({ offMm }: Beside): number {
  return offMm.reduce((least, mm) => Math.min(least, mm), Infinity);
}

/** What of the stretch lies within `withinMm` of the other pass; between places noted, distances change evenly. */
export function stretchesWithin({ alongMm, offMm }: Beside, withinMm: number): Stretches {
  const found: number[] = [];
  let isIn = false;
  for (let k = 0; k < alongMm.length; k++) {
    if (offMm[k] <= withinMm === isIn) continue;
    const share = k === 0 ? 0 : (withinMm - offMm[k - 1]) / (offMm[k] - offMm[k - 1]);
    found.push(k === 0 ? alongMm[0] : alongMm[k - 1] + share * (alongMm[k] - alongMm[k - 1]));
    isIn = !isIn;
  }
  if (isIn) found.push(alongMm[alongMm.length - 1]);
  return found;
}

/** The least distance from `low` to `high`, to 0.001 mm, within which so much length lies; `lengthAt` never falls. */
export function distanceHolding(
  lengthMm: number,
  lengthAt: (distanceMm: number) => number,
  low: number,
  high: number,
): number {
  let [under, over] = [low, high];
  while (over - under > 0.001) {
    const middle = (under + over) / 2;
    if (lengthAt(middle) < lengthMm) under = middle;
    else over = middle;
  }
  return over;
}
