/**
 * Where a point of one pass lies exactly on another pass: do they change sides?
 *
 * Call the passes P and Q and the place X. P comes in from a point `back` and goes on to a point `ahead`; these two
 * rays part the plane round X in two. If Q's rays lie strictly on either side, the passes cross; on the same side,
 * they touch.
 *
 * Where a ray of Q lies on a ray of P, they share a stretch. It is followed from the place where it begins along P
 * to the place where it ends, and the side from which Q comes to it is compared with the side to which Q leaves.
 *
 * Each contact is looked at once: a point belongs to the segment that starts at it, and a shared stretch to its
 * beginning along the pass of lower number. The open end of a stroke has no further ray, and at a reversal both
 * rays are one: there is no other side there, so such a contact is a touch.
 */
import { orient2d } from 'robust-predicates';
import { placeAlong, pointAt, polylineOf, runningLengths } from '../../geometry/polyline.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import type { Meetings } from './meetings.js';

/** A pass at a place: the segment it lies on and the point numbers before and after; -1 beyond an open end. */
interface Pass {
  readonly segment: number;
  readonly back: number;
  readonly ahead: number;
}

/** Adds the crossings, none to two, that segments s < t make in contacts that belong to them. */
export function contactsBetween(index: SegmentIndex, s: number, t: number, meetings: Meetings): void {
  const { points } = index;
  if (isPoint(points, s) || isPoint(points, t)) return;
  if (liesOn(points, s, t)) contactAt(index, s, s, t, meetings);
  if (!isSame(points, s, t) && liesOn(points, t, s)) contactAt(index, t, s, t, meetings);
}

function isPoint(points: Float64Array, s: number): boolean {
  return isSame(points, s, s + 1);
}

function isSame(points: Float64Array, p: number, q: number): boolean {
  return points[2 * p] === points[2 * q] && points[2 * p + 1] === points[2 * q + 1];
}

/** Is point p on segment t, its end excepted? */
function liesOn(points: Float64Array, p: number, t: number): boolean {
  if (isSame(points, p, t)) return true;
  if (isSame(points, p, t + 1)) return false;
  return turn(points, t, t + 1, p) === 0 && between(points, t, p, t + 1);
}

/** Positive where the way a-b-c turns one way, negative the other, 0 where the three are in line; exact. */
function turn(points: Float64Array, a: number, b: number, c: number): number {
  return orient2d(
    points[2 * a],
    points[2 * a + 1],
    points[2 * b],
    points[2 * b + 1],
    points[2 * c],
    points[2 * c + 1],
  );
}

/** Of three points in line: is the middle one strictly between the others? */
function between(points: Float64Array, a: number, middle: number, c: number): boolean {
  const axis = points[2 * a] === points[2 * c] ? 1 : 0;
  const m = points[2 * middle + axis];
  const [p, q] = [points[2 * a + axis], points[2 * c + axis]];
  return (p < m && m < q) || (q < m && m < p);
}

/** Do the rays from x towards p and q fall on each other? */
function isOneRay(points: Float64Array, x: number, p: number, q: number): boolean {
  if (turn(points, x, p, q) !== 0) return false;
  const axis = points[2 * x] === points[2 * p] ? 1 : 0;
  const from = points[2 * x + axis];
  return points[2 * p + axis] > from === points[2 * q + axis] > from;
}

/** Is the ray from x to q on the positive side of the way back-x-ahead? The four rays differ. */
function isAside(points: Float64Array, back: number, x: number, ahead: number, q: number): boolean {
  const afterBack = turn(points, back, x, q) > 0;
  const beforeAhead = turn(points, x, ahead, q) > 0;
  const bend = turn(points, back, x, ahead);
  return bend > 0 ? afterBack && beforeAhead : bend < 0 ? afterBack || beforeAhead : afterBack;
}

function contactAt(index: SegmentIndex, x: number, s: number, t: number, meetings: Meetings): void {
  const { points } = index;
  const p = passAt(index, s, x);
  const q = passAt(index, t, x);
  if (p.back < 0 || p.ahead < 0 || q.back < 0 || q.ahead < 0) return;
  if (isOneRay(points, x, p.back, p.ahead) || isOneRay(points, x, q.back, q.ahead)) return;
  if (isOneRay(points, x, p.back, q.back) || isOneRay(points, x, p.back, q.ahead)) return;
  const along = isOneRay(points, x, p.ahead, q.ahead);
  const against = isOneRay(points, x, p.ahead, q.back);
  if (along || against) {
    followStretch(index, x, p, q, along ? 1 : -1, meetings);
  } else if (isAside(points, p.back, x, p.ahead, q.back) !== isAside(points, p.back, x, p.ahead, q.ahead)) {
    const angle = angleBetween(points, p, q);
    meetings.add(s, shareOf(points, s, x), t, shareOf(points, t, x), points[2 * x], points[2 * x + 1], angle);
  }
}

/** Follows P and Q from x, where they begin to share a stretch; `way` is 1 where Q goes along with P, else -1. */
function followStretch(
  index: SegmentIndex,
  x: number,
  p: Pass,
  q: Pass,
  way: 1 | -1,
  meetings: Meetings,
): void {
  const { points } = index;
  const comesAside = isAside(points, p.back, x, p.ahead, way > 0 ? q.back : q.ahead);
  const shared = [x];
  let pAhead = p.ahead;
  let qAhead = way > 0 ? q.ahead : q.back;
  for (;;) {
    const last = shared[shared.length - 1];
    const pFirst = !isSame(points, pAhead, qAhead) && between(points, last, pAhead, qAhead);
    const qFirst = !isSame(points, pAhead, qAhead) && !pFirst;
    const here = qFirst ? qAhead : pAhead;
    shared.push(here);
    if (!qFirst) pAhead = neighbour(index, pAhead, 1);
    if (!pFirst) qAhead = neighbour(index, qAhead, way);
    if (pAhead < 0 || qAhead < 0) return;
    if (isOneRay(points, here, last, pAhead) || isOneRay(points, here, last, qAhead)) return;
    if (isOneRay(points, here, pAhead, qAhead)) continue;
    const leavesAside = isAside(points, last, here, pAhead, qAhead);
    if (leavesAside !== comesAside) addMidway(index, shared, p, q, meetings);
    return;
  }
}

/** The crossing is said to lie halfway along the shared stretch. */
function addMidway(
  index: SegmentIndex,
  shared: readonly number[],
  p: Pass,
  q: Pass,
  meetings: Meetings,
): void {
  const { points } = index;
  const stretch = polylineOf(shared.map((x) => pointAt(points, x)));
  const run = runningLengths(stretch);
  const { x, y } = placeAlong(stretch, run, run[run.length - 1] / 2);
  const place = (segment: number) => shareOf(points, segment, shared[0]);
  meetings.add(p.segment, place(p.segment), q.segment, place(q.segment), x, y, 0);
}

/** The pass along `segment` at point x, which is the segment's start or lies inside it. */
function passAt(index: SegmentIndex, segment: number, x: number): Pass {
  const atStart = isSame(index.points, segment, x);
  return {
    segment,
    back: atStart ? neighbour(index, segment, -1) : segment,
    ahead: segment + 1,
  };
}

/** The next point along the stroke that is elsewhere; round a closed one; -1 beyond an open end. */
function neighbour(
  { points, strokeOf, firstPoints, closed }: SegmentIndex,
  from: number,
  way: 1 | -1,
): number {
  const stroke = strokeOf[from];
  const first = firstPoints[stroke];
  const last = firstPoints[stroke + 1] - 1;
  let p = from;
  for (let n = first; n <= last; n++) {
    p += way;
    if (p < first || p > last) {
      if (!closed[stroke]) return -1;
      p = way > 0 ? first + 1 : last - 1;
    }
    if (!isSame(points, p, from)) return p;
  }
  return -1;
}

/** Where point x lies on segment s, which holds it. */
function shareOf(points: Float64Array, s: number, x: number): number {
  const axis =
    Math.abs(points[2 * s + 2] - points[2 * s]) >= Math.abs(points[2 * s + 3] - points[2 * s + 1]) ? 0 : 1;
  const from = points[2 * s + axis];
  return (points[2 * x + axis] - from) / (points[2 * s + 2 + axis] - from);
}

/** Acute angle, degrees, between the ways P and Q lead on the whole through a shared point. */
function angleBetween(points: Float64Array, p: Pass, q: Pass): number {
  const ways = [p, q].map(({ segment, back, ahead }) => {
    const isInside = back === segment;
    return isInside
      ? unit(points, segment, ahead)
      : sum(unit(points, back, segment), unit(points, segment, ahead));
  });
  const [[ux, uy], [vx, vy]] = ways;
  return (Math.atan2(Math.abs(ux * vy - uy * vx), Math.abs(ux * vx + uy * vy)) * 180) / Math.PI;
}

type Vector = readonly [number, number];

function unit(points: Float64Array, from: number, to: number): Vector {
  const dx = points[2 * to] - points[2 * from];
  const dy = points[2 * to + 1] - points[2 * from + 1];
  const length = Math.hypot(dx, dy);
  return [dx / length, dy / length];
}

function sum(a: Vector, b: Vector): Vector {
  return [a[0] + b[0], a[1] + b[1]];
}
