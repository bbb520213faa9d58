/**
 * What ends tight curves: how many times as large the motif, or how short a stitch, keeps all of them within the
 * limit. No formula has it: at another size other bends lie under one stitch, and legs grow long enough to make a
 * corner. So the curves are looked for again at the size tried, wherever the line bends enough (`suspects.ts`), with its
 * flattened curves rounded out first: enlarged as they are, their points would be corners.
 */
import type { Polyline } from '../../../shared/plane.js';
import type { TightCurve, TightCurvesEnd } from '../../../shared/study.js';
import { pointCount } from '../../geometry/polyline.js';
import { once } from '../../once.js';
import { suspectStretches } from './suspects.js';
import { tightCurveFinder } from './tight-curves.js';
import { walkedLines } from './walked-line.js';

/**
 * Sizes are tried in these steps, as a share of the motif's own, and up to so many times it: no one stitches a motif
 * larger than that for the sake of a curve, and a line of points says little about how it would look then.
 */
const sizeStep = 0.05;
const mostTimes = 6;
/** The line is gone through dozens of times: one of more points is answered without. */
const mostPoints = 100_000;
/** Steps that say nothing about a line at its own size do at a larger one, mm. */
const finestStepMm = 0.002;
/** A motif read anew at the larger size is flattened anew: its cuts may differ by as much at each end and between, mm. */
const anewMm = 0.02;
/** The size may be rounded when it is typed, so it must do a little smaller and larger as well. */
const roundedDown = 0.97;
const roundedUp = [1, 1.03];

/** What ends these curves; stitches up to `finestPerInch` to the inch are tried. */
export function tightCurvesEndOf(
  strokes: readonly Polyline[],
  flattenMm: number,
  stitchesPerInch: number,
  cutMm: number,
  finestPerInch: number,
  tight: readonly TightCurve[],
): TightCurvesEnd {
  const points = strokes.reduce((sum, line) => sum + pointCount(line), 0);
  if (points > mostPoints) return { timesAsLarge: null, stitchesPerInch: null };
  const stitchMm = 25.4 / stitchesPerInch;
  const limitMm = Math.max(cutMm - anewMm, cutMm / 2);
  const larger = once(() => {
    const suspect = walkedLines(strokes, stitchMm, finestStepMm).flatMap((line) =>
      suspectStretches(line, stitchMm, limitMm),
    );
    const round = suspect.map(({ line }) => roundedOut(roundedOut(line.points, flattenMm), flattenMm / 4));
    return tightCurveFinder(walkedLines(round, stitchMm, finestStepMm), stitchMm, limitMm);
  });
  // A motif so many times as large is to its stitch as the motif itself is to one so many times as short.
  const isOver = (times: number) => !larger()(stitchMm / times, limitMm / times);
  const finer = once(() => tightCurveFinder(walkedLines(strokes, stitchMm), stitchMm, cutMm));
  const isFineEnough = (perInch: number) => !finer()(25.4 / perInch, cutMm);
  // Were the tightest curve a circle, it would be round enough at this radius, or for stitches as short as this chord.
  const radiusMm = tight.reduce((least, curve) => Math.min(least, curve.radiusMm), Infinity);
  const wideMm = (limitMm ** 2 + (stitchMm / 2) ** 2) / (2 * limitMm);
  const chordMm = 2 * Math.sqrt(Math.max(0, 2 * radiusMm * cutMm - cutMm ** 2));
  const guess = wideMm / (roundedDown * radiusMm);
  const steps = (mostTimes - 1) / sizeStep;
  const doesSmaller = (n: number) => isOver(roundedDown * sizeOf(n));
  const near = (n: number) => firstNear(n, 0, steps, doesSmaller);
  // Where the guess is too large, what does not do there may do before.
  let step = near((guess - 1) / sizeStep) ?? near(0);
  // What does a little smaller nearly always does.
  while (step !== null && !roundedUp.every((share) => isOver(share * sizeOf(step!))))
    step = firstNear(step, step, steps, doesSmaller);
  return {
    timesAsLarge: step && sizeOf(step),
    stitchesPerInch: firstNear(
      25.4 / chordMm,
      Math.floor(stitchesPerInch),
      Math.floor(finestPerInch),
      isFineEnough,
    ),
  };
}

function sizeOf(step: number): number {
  return Math.round(100 * (1 + step * sizeStep)) / 100;
}

/**
 * A whole number above `low`, up to `high`, that holds while the one before it does not (`low` is taken not to), looked
 * for from a guess in strides that double; null where these come to `high` in vain.
 */
function firstNear(guess: number, low: number, high: number, holds: (n: number) => boolean): number | null {
  if (high <= low) return null;
  let not = low;
  let does = Math.max(low + 1, Math.min(Math.ceil(guess), high));
  if (holds(does)) {
    for (let stride = 1; not === low && does - stride > low; stride *= 2) {
      if (holds(does - stride)) does -= stride;
      else not = does - stride;
    }
  } else {
    let stride = 1;
    do {
      if (does === high) return null;
      not = does;
      does = Math.min(does + stride, high);
      stride *= 2;
    } while (!holds(does));
  }
  while (does - not > 1) {
    const middle = (not + does) >> 1;
    if (holds(middle)) does = middle;
    else not = middle;
  }
  return does;
}

/** Turns up to this may be those of a flattened curve, radians. */
const mostTurnRad = Math.PI / 3;

/**
 * The line with a point more in the middle of each segment that may stand for an arc: the arc that turns as the
 * segment's ends do leaves it by no more than flattening may. Where an arc meets a corner or a straight line, its
 * other end tells how it turns.
 */
function roundedOut(line: Polyline, flattenMm: number): Polyline {
  const n = line.length;
  const out = new Float64Array(2 * n);
  out[0] = line[0];
  out[1] = line[1];
  let filled = 2;
  let before = 0;
  for (let i = 0; i + 3 < n; i += 2) {
    const ax = line[i];
    const ay = line[i + 1];
    const bx = line[i + 2];
    const by = line[i + 3];
    const ux = bx - ax;
    const uy = by - ay;
    const vx = i + 5 < n ? line[i + 4] - bx : 0;
    const vy = i + 5 < n ? line[i + 5] - by : 0;
    const after = Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
    const from = isOfCurve(before) ? before : after;
    const to = isOfCurve(after) ? after : before;
    // Half the chord's length times this is the arc's height: its tangents turn by half of each end's turn.
    const bulge = Math.tan((from + to) / 8);
    const isArc = from * to > 0 && isOfCurve(from) && isOfCurve(to);
    if (isArc && (Math.sqrt(ux * ux + uy * uy) / 2) * Math.abs(bulge) <= 1.5 * flattenMm) {
      out[filled++] = (ax + bx + bulge * uy) / 2;
      out[filled++] = (ay + by - bulge * ux) / 2;
    }
    out[filled++] = bx;
    out[filled++] = by;
    before = after;
  }
  return out.subarray(0, filled);
}

function isOfCurve(turnRad: number): boolean {
  return turnRad !== 0 && Math.abs(turnRad) <= mostTurnRad;
}
