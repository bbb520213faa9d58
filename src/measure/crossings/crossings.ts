/**
 * Where passes of the line properly cross.
 *
 * Candidates are the pairs of monotone chains whose boxes meet, found in the segment index. Both are halved until
 * pairs of segments are left, since the box round a stretch of a chain is that of its ends: O((n + k) log n) for
 * drawings, whose boxes meet little more often than their lines do (as in the monotone-chain noders of the JTS
 * topology suite). All decisions use exact orientation tests (J. R.
 * Shewchuk, Adaptive precision floating-point arithmetic and fast robust geometric predicates, 1997; package
 * robust-predicates); only places and angles are rounded.
 *
 * Two segments that cross inside both are a crossing. Where a point of one pass lies on the other, or they lie on
 * each other for a stretch, `contact.ts` tells whether the passes change sides there: through a shared point or
 * along a shared stretch counts once, touching does not. Passes that run together to within what flattening may
 * have moved them weave through each other without meaning to: `weaving.ts` reduces that to one crossing or none.
 *
 * Limits: long segments by the ten thousand that slant three ways or more have boxes that all meet.
 */
import { orient2d } from 'robust-predicates';
import type { Crossings } from '../../../shared/study.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { contactsBetween } from './contact.js';
import { Meetings } from './meetings.js';
import { placesOf } from './places.js';
import { withoutWeaving } from './weaving.js';

/**
 * The crossings of all strokes with themselves and each other. `flattenMm` is how far the polylines may lie off the
 * true curves. After `limit` meetings of two passes the search ends and `more` is true.
 */
export function crossingsOf(index: SegmentIndex, flattenMm: number, limit: number): Crossings {
  const meetings = new Meetings();
  const more = !collectMeetings(index, meetings, limit);
  return { places: placesOf(withoutWeaving(meetings, index, flattenMm), index), more };
}

/** Adds every meeting of two passes; false where there are more than `limit`. */
function collectMeetings(index: SegmentIndex, meetings: Meetings, limit: number): boolean {
  const { chainStarts: starts, chainEnds: ends } = index;
  for (let c = 0; c < starts.length && meetings.count <= limit; c++) {
    index.visitChainsNear(c, 0, (d) => {
      if (d > c && meetings.count <= limit)
        meetStretches(index, starts[c], ends[c], starts[d], ends[d], meetings);
    });
  }
  if (meetings.count <= limit) return true;
  meetings.cutTo(limit);
  return false;
}

/** Two stretches of chains, each from one point to another, are halved where their boxes meet, down to segments. */
function meetStretches(
  index: SegmentIndex,
  a: number,
  b: number,
  c: number,
  d: number,
  meetings: Meetings,
): void {
  if (b - a < d - c) {
    meetStretches(index, c, d, a, b, meetings);
    return;
  }
  if (b - a === 1) {
    meetSegments(index, Math.min(a, c), Math.max(a, c), meetings);
    return;
  }
  const { points } = index;
  const middle = (a + b) >> 1;
  if (boxesMeet(points, a, middle, c, d)) meetStretches(index, a, middle, c, d, meetings);
  if (boxesMeet(points, middle, b, c, d)) meetStretches(index, middle, b, c, d, meetings);
}

/** The box round points a and b and that round c and d. */
function boxesMeet(points: Float64Array, a: number, b: number, c: number, d: number): boolean {
  const ax = points[2 * a];
  const bx = points[2 * b];
  const cx = points[2 * c];
  const dx = points[2 * d];
  if (Math.max(ax, bx) < Math.min(cx, dx) || Math.max(cx, dx) < Math.min(ax, bx)) return false;
  const ay = points[2 * a + 1];
  const by = points[2 * b + 1];
  const cy = points[2 * c + 1];
  const dy = points[2 * d + 1];
  return Math.max(ay, by) >= Math.min(cy, dy) && Math.max(cy, dy) >= Math.min(ay, by);
}

function meetSegments(index: SegmentIndex, s: number, t: number, meetings: Meetings): void {
  const { points } = index;
  const ax = points[2 * s];
  const ay = points[2 * s + 1];
  const bx = points[2 * s + 2];
  const by = points[2 * s + 3];
  const cx = points[2 * t];
  const cy = points[2 * t + 1];
  const dx = points[2 * t + 2];
  const dy = points[2 * t + 3];
  const c = orient2d(ax, ay, bx, by, cx, cy);
  const d = orient2d(ax, ay, bx, by, dx, dy);
  if ((c > 0 && d > 0) || (c < 0 && d < 0)) return;
  const a = orient2d(cx, cy, dx, dy, ax, ay);
  const b = orient2d(cx, cy, dx, dy, bx, by);
  if ((a > 0 && b > 0) || (a < 0 && b < 0)) return;
  if (a === 0 || b === 0 || c === 0 || d === 0) {
    contactsBetween(index, s, t, meetings);
    return;
  }
  // The line c-d parts the segment a-b in the ratio of the two distances, and the other way round.
  const share = a / (a - b);
  const otherShare = c / (c - d);
  const ux = bx - ax;
  const uy = by - ay;
  const vx = dx - cx;
  const vy = dy - cy;
  const angle = Math.atan2(Math.abs(ux * vy - uy * vx), Math.abs(ux * vx + uy * vy));
  meetings.add(s, share, t, otherShare, ax + share * ux, ay + share * uy, (angle * 180) / Math.PI);
}
