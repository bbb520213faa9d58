/**
 * Passes of the line through a disc. A pass is a stretch that goes into the disc and out again; if between two such
 * stretches the line does not get farther than twice the radius, they are one pass. A pass that stays and wiggles counts
 * for as many as a needle would make of it: one for each stitch length within the disc (straight through the middle is
 * just one).
 */
import { distanceBetween } from '../../geometry/point.js';
import { sharesWithin, squaredToSegment } from '../../geometry/segment.js';
import type { SegmentIndex } from '../../near/segment-index.js';

/**
 * A quick no: how many passes the stretches of neighbouring segments make at most. A stretch whose directions lie
 * within 45 degrees of the first makes one: it runs ahead, and cannot come back from twice the radius, nor
 * stay long. To go off and come back with all its segments near, a stretch needs a bend and a segment longer than
 * `longMm`: the radius where they are those near one segment, 0 where they are those near several.
 */
export function mostPasses(
  { points, runMm }: SegmentIndex,
  near: readonly number[],
  radiusMm: number,
  longMm: number,
): number {
  let most = 0;
  let bends = 0;
  let long = 0;
  let lengthMm = 0;
  let ux = 0;
  let uy = 0;
  for (let n = 0; n <= near.length; n++) {
    if (n === near.length || n === 0 || near[n] !== near[n - 1] + 1) {
      if (n > 0)
        most += bends === 0 ? 1 : Math.max(1 + Math.min(bends, long), Math.floor(lengthMm / (2 * radiusMm)));
      if (n === near.length) break;
      bends = 0;
      long = 0;
      lengthMm = 0;
      ux = 0;
      uy = 0;
    }
    const i = 2 * near[n];
    const vx = points[i + 2] - points[i];
    const vy = points[i + 3] - points[i + 1];
    const dot = ux * vx + uy * vy;
    const turns = dot < 0 || 2 * dot * dot < (ux * ux + uy * uy) * (vx * vx + vy * vy);
    if (turns) bends++;
    if (turns || (ux === 0 && uy === 0)) {
      ux = vx;
      uy = vy;
    }
    const stepMm = runMm[near[n] + 1] - runMm[near[n]];
    if (stepMm > longMm) long++;
    lengthMm += Math.min(stepMm, 2 * radiusMm);
  }
  return most;
}

const shares = new Float64Array(2);

/**
 * How many passes run within `radiusMm` of (x, y), and how far off the farthest of them passes; `near` are the
 * segments in question, in order.
 */
export function passesAt(
  index: SegmentIndex,
  near: readonly number[],
  x: number,
  y: number,
  radiusMm: number,
): { passes: number; spreadMm: number } {
  const { points, runMm, strokeOf } = index;
  let passes = 0;
  let spreadSquared = 0;
  let insideMm = 0;
  let nearestSquared = 0;
  let last = -1;
  let lastMm = 0;
  for (const s of near) {
    const ax = points[2 * s];
    const ay = points[2 * s + 1];
    const bx = points[2 * s + 2];
    const by = points[2 * s + 3];
    if (!sharesWithin(ax, ay, bx, by, x, y, x, y, radiusMm, shares)) continue;
    const lengthMm = runMm[s + 1] - runMm[s];
    const gapMm = runMm[s] + shares[0] * lengthMm - lastMm;
    const goesOn =
      last >= 0 && strokeOf[s] === strokeOf[last] && staysNear(index, last, s, gapMm, x, y, 2 * radiusMm);
    if (!goesOn) {
      passes += 1 + wiggles(insideMm, radiusMm);
      spreadSquared = Math.max(spreadSquared, nearestSquared);
      insideMm = 0;
      nearestSquared = Infinity;
    }
    insideMm += (shares[1] - shares[0]) * lengthMm;
    nearestSquared = Math.min(nearestSquared, squaredToSegment(x, y, ax, ay, bx, by));
    last = s;
    lastMm = runMm[s] + shares[1] * lengthMm;
  }
  passes += wiggles(insideMm, radiusMm);
  return { passes, spreadMm: Math.sqrt(Math.max(spreadSquared, nearestSquared)) };
}

/** How many passes more than one a needle would make of so much line within the disc. */
function wiggles(insideMm: number, radiusMm: number): number {
  return Math.max(0, Math.floor(insideMm / (2 * radiusMm) + 1e-6) - 1);
}

/** Does the line stay within `withinMm` of (x, y) from one segment on to another, `gapMm` along the line? */
function staysNear(
  { points }: SegmentIndex,
  from: number,
  to: number,
  gapMm: number,
  x: number,
  y: number,
  withinMm: number,
): boolean {
  // Out to that distance and back is at least as long as this; and what wanders longer than this is another pass.
  if (gapMm <= withinMm) return true;
  if (gapMm > 4 * withinMm) return false;
  for (let p = from + 1; p <= to; p++)
    if (distanceBetween(points[2 * p], points[2 * p + 1], x, y) > withinMm) return false;
  return true;
}
