/** Places along the line, for the handle that walks it. */
import type { Point, Polyline } from '../../shared/plane.js';
import { nearestAlong, placeAlong, runningLengths, stretchOf } from '../geometry/polyline.js';

let last: { line: Polyline; run: Float64Array } | null = null;

function runOf(line: Polyline): Float64Array {
  if (last?.line !== line) last = { line, run: runningLengths(line) };
  return last.run;
}

/** The place at `share` of the way along the line. */
export function chainedPlace(line: Polyline, share: number): Point {
  const run = runOf(line);
  return placeAlong(line, run, share * run[run.length - 1]);
}

/** The share of the way at which the line comes nearest to a place. */
export function shareNearest(line: Polyline, at: Point): number {
  const run = runOf(line);
  return nearestAlong(line, run, at) / run[run.length - 1];
}

/** The line from its start to that share of the way. */
export function walkedTo(line: Polyline, share: number): Polyline {
  const run = runOf(line);
  return stretchOf(line, run, 0, share * run[run.length - 1]);
}
