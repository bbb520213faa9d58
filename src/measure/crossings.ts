/**
 * Where passes of the line properly cross.
 *
 * Candidates are the pairs of monotone chains whose boxes meet, found in the segment index, and of these the pairs
 * of segments whose boxes meet: O((n + k) log n) for drawings, whose boxes meet little more often than their lines
 * do (as in the monotone-chain noders of the JTS topology suite). All decisions use exact orientation tests (J. R.
 * Shewchuk, Adaptive precision floating-point arithmetic and fast robust geometric predicates, 1997; package
 * robust-predicates); only places and angles are rounded.
 *
 * Two segments that cross inside both are a crossing. Where a point of one pass lies on the other, or they lie on
 * each other for a stretch, `contact.ts` tells whether the passes change sides there: through a shared point or
 * along a shared stretch counts once, touching does not. Passes that run together to within what flattening may
 * have moved them weave through each other without meaning to: `weaving.ts` reduces that to one crossing or none.
 *
 * Limits: long, slanting, near parallel segments by the ten thousand have boxes that all meet.
 */
import { orient2d } from 'robust-predicates';
import type { Crossings } from '../../shared/study.js';
import { contactsBetween } from './contact.js';
import { Meetings } from './meetings.js';
import { placesOf } from './places.js';
import type { SegmentIndex } from './segment-index.js';
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
  for (let c = 0; c < index.chainStarts.length && meetings.count <= limit; c++) {
    index.visitChainsNear(c, 0, (d) => {
      if (d > c && meetings.count <= limit) meetChains(index, c, d, meetings);
    });
  }
  if (meetings.count <= limit) return true;
  meetings.cutTo(limit);
  return false;
}

function meetChains(index: SegmentIndex, c: number, d: number, meetings: Meetings): void {
  const { points, chainBoxes, chainStarts, chainEnds } = index;
  const minX = Math.max(chainBoxes[4 * c], chainBoxes[4 * d]);
  const minY = Math.max(chainBoxes[4 * c + 1], chainBoxes[4 * d + 1]);
  const maxX = Math.min(chainBoxes[4 * c + 2], chainBoxes[4 * d + 2]);
  const maxY = Math.min(chainBoxes[4 * c + 3], chainBoxes[4 * d + 3]);
  for (let s = chainStarts[c]; s < chainEnds[c]; s++) {
    const i = 2 * s;
    const ax = points[i];
    const ay = points[i + 1];
    const bx = points[i + 2];
    const by = points[i + 3];
    const left = Math.min(ax, bx);
    const right = Math.max(ax, bx);
    const top = Math.min(ay, by);
    const bottom = Math.max(ay, by);
    if (right < minX || left > maxX || bottom < minY || top > maxY) continue;
    for (let t = chainStarts[d]; t < chainEnds[d]; t++) {
      const j = 2 * t;
      const cx = points[j];
      const dx = points[j + 2];
      if ((cx < left && dx < left) || (cx > right && dx > right)) continue;
      const cy = points[j + 1];
      const dy = points[j + 3];
      if ((cy < top && dy < top) || (cy > bottom && dy > bottom)) continue;
      meetSegments(index, s, t, ax, ay, bx, by, cx, cy, dx, dy, meetings);
    }
  }
}

function meetSegments(
  index: SegmentIndex,
  s: number,
  t: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
  meetings: Meetings,
): void {
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
