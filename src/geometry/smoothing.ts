/**
 * A shaky line made smooth.
 *
 * The line is taken in equal steps and each place is replaced by the mean of its neighbours, weighted as a normal
 * distribution (Gaussian smoothing of a planar curve: Mokhtarian and Mackworth, IEEE Transactions on Pattern Analysis
 * and Machine Intelligence 14, 1992). Ends and corners stay where they are: each stretch between them is smoothed for
 * itself, continued beyond its ends by its own image turned half round, which holds the ends fast.
 *
 * How wide the mean reaches is not set but found: of all that are tried the narrowest of which wider ones take next to no
 * more turning out of the line, so that the shake has gone and the shape has not. Where a wider mean would move a place farther than
 * is allowed, the narrower one stays, and the two run into one another. A line that turns little more than its mean is not shaky and is left alone, so that smoothing twice
 * does nothing. What cannot be done: a shake wider than the tolerance looks like shape, and stays.
 *
 * Time grows with the length of the line over the tolerance, and with the width of the mean.
 */
import type { Polyline } from '../../shared/plane.js';
import { turnDeg } from './point.js';
import { placeAlong, pointCount, polylineOf, runningLengths } from './polyline.js';
import { squaredToSegment } from './segment.js';

/** Steps to a tolerance. */
const stepsToTolerance = 4;
/** More steps than this make the steps longer. */
const mostSteps = 400_000;
/** Widths of the mean that are tried, in steps: each so many times the one before. */
const firstWidth = 1.5;
const widening = Math.SQRT2;
/** A mean reaches so many widths: what lies beyond weighs under a hundredth. */
const reachInWidths = 3;
/** A mean that leaves no more than this share beyond the least turning has taken out the shake. */
const settledShare = 0.1;
/**
 * A line is shaky where it turns this many times as much as its mean over so many tolerances does. Measured: sound
 * motifs 1.0 to 1.1 times, shaky ones 5 and more, those smoothed as far as the tolerance allows up to 1.8.
 */
const calmTolerances = 1.5;
const shakyTimes = 2;
/** A corner turns by this much, degrees, over legs of so many tolerances, and by little more over legs twice as long. */
const cornerDeg = 50;
const legTolerances = 6;
const cornerGrowth = 1.3;
/** A mean so many tolerances wide takes shape for shake. */
const widestTolerances = 10;
/** Files carry coordinates to this, mm: where nothing moves as far, the rounding of a straight line was smoothed. */
const leastMm = 0.001;
/** Smoothing takes length out of a shaky line: points may slide along it by so many tolerances. */
const slackTolerances = 4;

export interface Smoothed {
  readonly line: Polyline;
  /** How far the farthest place moved, mm. */
  readonly movedMm: number;
}

/** The line smoothed, no place of it farther than `withinMm` from where it was; null where it is not shaky. */
export function smoothed(line: Polyline, withinMm: number): Smoothed | null {
  const steps = inSteps(line, withinMm / stepsToTolerance);
  if (steps === null) return null;
  const { points, stepMm } = steps;
  // A shake must not look like a corner: corners are looked for where the worst of it is gone.
  const last = pointCount(points) - 1;
  const calmed = meanOf(points, [0, last], (calmTolerances * withinMm) / stepMm);
  if (turning(points) < shakyTimes * turning(calmed)) return null;
  const stays = cornersOf(calmed, Math.max(2, Math.round((legTolerances * withinMm) / stepMm)));
  const tries = [meanOf(points, stays, firstWidth)];
  const widest = (widestTolerances * withinMm) / stepMm;
  for (let width = firstWidth * widening; width <= widest; width *= widening) {
    const narrower = tries[tries.length - 1];
    const wider = meanOf(points, stays, width);
    // Where the wider mean goes too far the narrower one stays, and the two run into one another.
    const share = softened(farAlong(points, wider, withinMm, stepMm), Math.ceil(reachInWidths * width));
    const mixed = narrower.map((value, i) => value + share[i >> 1] * (wider[i] - value));
    if (apart(points, mixed, withinMm, stepMm) > withinMm) break;
    tries.push(mixed);
  }
  const least = Math.min(...tries.map(turning));
  const made = tries.find((each) => turning(each) <= (1 + settledShare) * least)!;
  const movedMm = apart(points, made, withinMm, stepMm);
  return movedMm > withinMm || movedMm < leastMm ? null : { line: made, movedMm };
}

/** The line at equal steps of about `wantedMm`; null where it is shorter than a few of them. */
function inSteps(line: Polyline, wantedMm: number): { points: Polyline; stepMm: number } | null {
  const run = runningLengths(line);
  const lengthMm = run[run.length - 1];
  const count = Math.min(mostSteps, Math.ceil(lengthMm / wantedMm));
  if (count < 2 * stepsToTolerance) return null;
  const stepMm = lengthMm / count;
  return {
    points: polylineOf(Array.from({ length: count + 1 }, (_, i) => placeAlong(line, run, i * stepMm))),
    stepMm,
  };
}

/** Numbers of the points that stay: both ends, and the sharpest place of each corner. */
function cornersOf(points: Polyline, leg: number): number[] {
  const last = pointCount(points) - 1;
  const stays = [0];
  let best = -1;
  let bestDeg = 0;
  for (let i = leg; i + leg <= last; i++) {
    const deg = turnOver(points, i, leg);
    const isCorner =
      deg >= cornerDeg &&
      (i < 2 * leg || i + 2 * leg > last || turnOver(points, i, 2 * leg) <= cornerGrowth * deg);
    if (isCorner && (best < 0 || deg > bestDeg)) [best, bestDeg] = [i, deg];
    if (best >= 0 && i - best >= leg) {
      stays.push(best);
      [best, bestDeg] = [-1, 0];
    }
  }
  if (best >= 0) stays.push(best);
  stays.push(last);
  return stays;
}

/** By how much the chord ahead of a point turns from the chord behind it, degrees. */
function turnOver(points: Polyline, i: number, leg: number): number {
  const [bx, by] = [points[2 * i] - points[2 * (i - leg)], points[2 * i + 1] - points[2 * (i - leg) + 1]];
  const [ax, ay] = [points[2 * (i + leg)] - points[2 * i], points[2 * (i + leg) + 1] - points[2 * i + 1]];
  return turnDeg(bx, by, ax, ay);
}

function meanOf(points: Polyline, stays: readonly number[], width: number): Polyline {
  const reach = Math.ceil(reachInWidths * width);
  const weights = Float64Array.from({ length: reach + 1 }, (_, k) =>
    Math.exp(-(k * k) / (2 * width * width)),
  );
  const out = points.slice();
  for (let s = 0; s + 1 < stays.length; s++) {
    const [first, last] = [stays[s], stays[s + 1]];
    for (let i = first + 1; i < last; i++) {
      let x = points[2 * i];
      let y = points[2 * i + 1];
      let all = 1;
      const isWithin = i - reach >= first && i + reach <= last;
      for (let k = 1; k <= reach; k++) {
        const weight = weights[k];
        all += 2 * weight;
        if (isWithin) {
          x += weight * (points[2 * (i - k)] + points[2 * (i + k)]);
          y += weight * (points[2 * (i - k) + 1] + points[2 * (i + k) + 1]);
        } else {
          x += weight * (beyond(points, i - k, first, last, 0) + beyond(points, i + k, first, last, 0));
          y += weight * (beyond(points, i - k, first, last, 1) + beyond(points, i + k, first, last, 1));
        }
      }
      out[2 * i] = x / all;
      out[2 * i + 1] = y / all;
    }
  }
  return out;
}

/** A coordinate of point i of a stretch that goes on beyond its ends as its own image, turned half round about them. */
function beyond(points: Polyline, i: number, first: number, last: number, axis: 0 | 1): number {
  const span = last - first;
  let [at, shift] = [i, 0];
  while (at < first || at > last) {
    const end = at < first ? first : last;
    // 2 p(end) - p(mirrored): each turn takes the sign along, so two of them are a move by twice the span.
    if (at < first - span || at > last + span) {
      const turns = at < first ? 1 : -1;
      shift -= turns * 2 * (points[2 * last + axis] - points[2 * first + axis]);
      at += turns * 2 * span;
      continue;
    }
    return shift + 2 * points[2 * end + axis] - points[2 * (2 * end - at) + axis];
  }
  return shift + points[2 * at + axis];
}

/** All the turning of a line, either way, radians. */
function turning(points: Polyline): number {
  let sum = 0;
  for (let i = 2; i + 3 < points.length; i += 2) {
    const bx = points[i] - points[i - 2];
    const by = points[i + 1] - points[i - 1];
    const ax = points[i + 2] - points[i];
    const ay = points[i + 3] - points[i + 1];
    sum += Math.abs(Math.atan2(bx * ay - by * ax, bx * ax + by * ay));
  }
  return sum;
}

/**
 * How far the two lines, of as many points, lie apart at most, either way, mm: each point against the points of the
 * other that can be within the tolerance of it along the line.
 */
function apart(points: Polyline, made: Polyline, withinMm: number, stepMm: number): number {
  const window = Math.ceil((slackTolerances * withinMm) / stepMm);
  return Math.max(oneWay(points, made, window), oneWay(made, points, window));
}

/** 1 for each point that lies farther than is allowed from the other line, either way, else 0. */
function farAlong(points: Polyline, made: Polyline, withinMm: number, stepMm: number): Uint8Array {
  const window = Math.ceil((slackTolerances * withinMm) / stepMm);
  const far = new Uint8Array(points.length / 2);
  for (let i = 0; i < far.length; i++)
    far[i] = Number(
      squaredTo(made, i, points, window) > withinMm * withinMm ||
        squaredTo(points, i, made, window) > withinMm * withinMm,
    );
  return far;
}

/** From 0 where something is far to 1 a reach away from it, rising smoothly. */
function softened(far: Uint8Array, reach: number): Float64Array {
  const share = new Float64Array(far.length);
  let since = Infinity;
  for (let i = 0; i < far.length; i++) share[i] = since = far[i] ? 0 : since + 1;
  since = Infinity;
  for (let i = far.length - 1; i >= 0; i--) {
    since = far[i] ? 0 : since + 1;
    const t = Math.min(1, Math.max(0, Math.min(share[i], since) / reach - 0.5) * 2);
    share[i] = t * t * (3 - 2 * t);
  }
  return share;
}

function oneWay(from: Polyline, to: Polyline, window: number): number {
  let most = 0;
  for (let i = 0; i < from.length / 2; i++) most = Math.max(most, squaredTo(from, i, to, window));
  return Math.sqrt(most);
}

/** The squared distance of point i of a line from the stretch of the other about its own point i. */
function squaredTo(from: Polyline, i: number, to: Polyline, window: number): number {
  const [x, y] = [from[2 * i], from[2 * i + 1]];
  let least = Infinity;
  for (let j = Math.max(0, i - window); j < Math.min(to.length / 2 - 1, i + window); j++)
    least = Math.min(least, squaredToSegment(x, y, to[2 * j], to[2 * j + 1], to[2 * j + 2], to[2 * j + 3]));
  return least;
}
