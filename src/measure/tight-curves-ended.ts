/**
 * What ends tight curves: how many times as large the motif, or how short a stitch, keeps all of them within the
 * limit. No formula has it: at another size other bends lie under one stitch, and legs grow long enough to make a
 * corner. So the curves are looked for again at the size tried, over the whole line, with its flattened curves rounded
 * out first: enlarged as they are, their points would be corners.
 */
import type { Polyline } from '../../shared/polyline.js';
import type { TightCurvesEnd } from '../../shared/study.js';
import { once } from './once.js';
import { hasTightCurve } from './tight-curves.js';
import { walkedLines } from './walked-line.js';

/** Sizes are tried in these steps, as a share of the motif's own, and up to so many times it. */
const sizeStep = 0.05;
const mostTimes = 20;
/** Between two sizes tried while looking for one that is large enough. */
const stride = 1.1;
/** A motif read anew at the larger size is flattened anew: its cuts may differ by as much at each end and between, mm. */
const anewMm = 0.02;
/** The size may be rounded when it is typed, so it must do a little smaller and larger as well. */
const roundedShares = [0.97, 1, 1.03];
/** Longarms do not stitch finer. */
const finestPerInch = 20;

export function tightCurvesEndOf(
  strokes: readonly Polyline[],
  flattenMm: number,
  stitchesPerInch: number,
  cutMm: number,
): TightCurvesEnd {
  const round = once(() => strokes.map((line) => roundedOut(roundedOut(line, flattenMm), flattenMm / 4)));
  const isOver = (times: number, perInch: number, limitMm: number) => {
    const lines = times === 1 ? strokes : round().map((line) => line.map((value) => times * value));
    const stitchMm = 25.4 / perInch;
    return !hasTightCurve(walkedLines(lines, stitchMm), stitchMm, limitMm);
  };
  const limitMm = Math.max(cutMm - anewMm, cutMm / 2);
  const isLargeEnough = (step: number) =>
    roundedShares.every((share) => isOver(share * sizeOf(step), stitchesPerInch, limitMm));
  const isFineEnough = (perInch: number) => isOver(1, perInch, cutMm);
  return {
    timesAsLarge: largeEnough(isLargeEnough),
    stitchesPerInch: firstOf(Math.floor(stitchesPerInch), finestPerInch, isFineEnough),
  };
}

function sizeOf(step: number): number {
  return Math.round(100 * (1 + step * sizeStep)) / 100;
}

function largeEnough(isLargeEnough: (step: number) => boolean): number | null {
  let tooSmall = 0;
  for (let times = stride; tooSmall < (mostTimes - 1) / sizeStep; times *= stride) {
    const step = Math.round((Math.min(times, mostTimes) - 1) / sizeStep);
    const first = firstOf(tooSmall, step, isLargeEnough);
    if (first !== null) return sizeOf(first);
    tooSmall = step;
  }
  return null;
}

/** A number above `low`, up to `high`, that holds while the one before it does not; null where `high` does not. */
function firstOf(low: number, high: number, holds: (n: number) => boolean): number | null {
  if (high <= low || !holds(high)) return null;
  let not = low;
  let does = high;
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
  const out: number[] = [line[0], line[1]];
  let before = 0;
  for (let i = 0; i + 3 < n; i += 2) {
    const [ax, ay, bx, by] = line.subarray(i, i + 4);
    const [ux, uy] = [bx - ax, by - ay];
    const [vx, vy] = i + 5 < n ? [line[i + 4] - bx, line[i + 5] - by] : [0, 0];
    const after = Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
    const from = isOfCurve(before) ? before : after;
    const to = isOfCurve(after) ? after : before;
    // Half the chord's length times this is the arc's height: its tangents turn by half of each end's turn.
    const bulge = Math.tan((from + to) / 8);
    const isArc = from * to > 0 && isOfCurve(from) && isOfCurve(to);
    if (isArc && (Math.hypot(ux, uy) / 2) * Math.abs(bulge) <= 1.5 * flattenMm)
      out.push((ax + bx + bulge * uy) / 2, (ay + by - bulge * ux) / 2);
    out.push(bx, by);
    before = after;
  }
  return Float64Array.from(out);
}

function isOfCurve(turnRad: number): boolean {
  return turnRad !== 0 && Math.abs(turnRad) <= mostTurnRad;
}
