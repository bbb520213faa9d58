/**
 * Passes that run together. A line stitched there and back along the same curve is the same to the eye, but not to
 * the last digit: flattened at other points, or rounded, the two passes weave through each other and meet dozens of
 * times. Where two passes stay nearer to each other than flattening may have moved them, for a millimetre or more,
 * only what happens on the whole counts: if they come together on one side and part on the other, that is one
 * crossing, else none. A stretch that ends at a loose end or a reversal has no other side: none.
 *
 * On a stretch that both passes enter and leave, an odd number of meetings changes sides.
 */
import { nearestShare } from '../../shared/segment.js';
import type { Meetings } from './meetings.js';
import type { SegmentIndex } from './segment-index.js';

/** Shorter stretches are plain crossings at a shallow angle, mm. */
const leastStretchMm = 1;
/** The precision with which files carry coordinates, mm. */
const roundingMm = 0.001;

/** A stretch of two passes round one of their meetings, mm before and after it along each. */
interface Stretch {
  readonly before: number;
  readonly after: number;
  readonly otherBefore: number;
  readonly otherAfter: number;
  /** True where the passes part at both ends; false where one ends at a loose end or a reversal. */
  readonly parts: boolean;
}

/** The meetings without those that only come from weaving. */
export function withoutWeaving(meetings: Meetings, index: SegmentIndex, flattenMm: number): Meetings {
  const apartMm = 2 * (flattenMm + roundingMm);
  const settled = new Uint8Array(meetings.count);
  const dropped = new Uint8Array(meetings.count);
  let droppedAny = false;
  let neighbours: Along | undefined;
  for (let k = 0; k < meetings.count; k++) {
    if (settled[k] || partsAtOnce(meetings, index, k, apartMm)) continue;
    const stretch = stretchAt(meetings, index, k, apartMm);
    if (!stretch) continue;
    neighbours ??= new Along(meetings, index);
    const group = neighbours.within(k, stretch);
    const keeps = stretch.parts && group.length % 2 === 1 ? group[group.length >> 1] : -1;
    for (const member of group) {
      settled[member] = 1;
      dropped[member] = Number(member !== keeps);
      droppedAny ||= member !== keeps;
    }
  }
  if (!droppedAny) return meetings;
  return meetings.only(Array.from(dropped.keys()).filter((k) => !dropped[k]));
}

/** The common case, without walking: both segments lead out of each other's reach before they end. */
function partsAtOnce(meetings: Meetings, index: SegmentIndex, k: number, apartMm: number): boolean {
  const sine = Math.sin((meetings.angleDeg[k] * Math.PI) / 180);
  const room = (segment: number, share: number) =>
    Math.min(share, 1 - share) * (index.runMm[segment + 1] - index.runMm[segment]);
  const least = Math.min(
    room(meetings.segment[k], meetings.share[k]),
    room(meetings.otherSegment[k], meetings.otherShare[k]),
  );
  return least * sine > apartMm && apartMm < (leastStretchMm / 4) * sine;
}

function stretchAt(meetings: Meetings, index: SegmentIndex, k: number, apartMm: number): Stretch | null {
  for (const way of [1, -1] as const) {
    const p = { index, segment: meetings.segment[k], share: meetings.share[k] };
    const q = { index, segment: meetings.otherSegment[k], share: meetings.otherShare[k] };
    const onward = together(new Walker(p, 1), new Walker(q, way), apartMm);
    const back = together(new Walker(p, -1), new Walker(q, way > 0 ? -1 : 1), apartMm);
    if (onward.wentMm + back.wentMm < leastStretchMm) continue;
    const [otherBefore, otherAfter] = way > 0 ? [back, onward] : [onward, back];
    return {
      before: back.wentMm,
      after: onward.wentMm,
      otherBefore: otherBefore.otherWentMm,
      otherAfter: otherAfter.otherWentMm,
      parts: onward.parts && back.parts,
    };
  }
  return null;
}

/** Lets two walkers go side by side as far as they stay within `apartMm` of each other. */
function together(p: Walker, q: Walker, apartMm: number) {
  const between = p.wayTo(q);
  for (;;) {
    if (p.atEnd || q.atEnd || p.wentMm + q.wentMm >= between) {
      return { wentMm: p.wentMm, otherWentMm: q.wentMm, parts: false };
    }
    const [leader, follower] = p.stepMm <= q.stepMm ? [p, q] : [q, p];
    if (follower.distanceTo(leader.nextX, leader.nextY) > apartMm) {
      return { wentMm: p.wentMm, otherWentMm: q.wentMm, parts: true };
    }
    follower.goBeside(leader.nextX, leader.nextY);
    leader.goToNext();
  }
}

interface Spot {
  readonly index: SegmentIndex;
  readonly segment: number;
  readonly share: number;
}

/** Walks along a stroke from a spot, one way. */
class Walker {
  wentMm = 0;
  nextX = 0;
  nextY = 0;
  /** From here to the next point, mm. */
  stepMm = 0;
  atEnd = false;
  private readonly index: SegmentIndex;
  private readonly stroke: number;
  private readonly alongMm: number;
  private next: number;
  private x: number;
  private y: number;

  constructor(
    { index, segment, share }: Spot,
    private readonly way: 1 | -1,
  ) {
    const { points, runMm, strokeOf } = index;
    const i = 2 * segment;
    this.index = index;
    this.stroke = strokeOf[segment];
    this.alongMm = runMm[segment] + share * (runMm[segment + 1] - runMm[segment]);
    this.x = points[i] + share * (points[i + 2] - points[i]);
    this.y = points[i + 1] + share * (points[i + 3] - points[i + 1]);
    this.next = way > 0 ? segment + 1 : segment;
    this.lookAhead();
  }

  /** The way, added up, that two walkers can go before they meet or one comes round again; or Infinity. */
  wayTo(other: Walker): number {
    const whole = this.index.strokeLengthMm(this.stroke);
    const round = this.index.closed[this.stroke] ? whole : Infinity;
    if (other.stroke !== this.stroke || other.way === this.way) return 2 * round;
    const ahead = this.way * (other.alongMm - this.alongMm);
    return ahead >= 0 ? ahead : ahead + round;
  }

  distanceTo(x: number, y: number): number {
    const share = nearestShare(x, y, this.x, this.y, this.nextX, this.nextY);
    return Math.hypot(x - this.x - share * (this.nextX - this.x), y - this.y - share * (this.nextY - this.y));
  }

  /** Goes to the place before the next point that is nearest to (x, y). */
  goBeside(x: number, y: number): void {
    const share = nearestShare(x, y, this.x, this.y, this.nextX, this.nextY);
    this.wentMm += share * this.stepMm;
    this.stepMm -= share * this.stepMm;
    this.x += share * (this.nextX - this.x);
    this.y += share * (this.nextY - this.y);
  }

  goToNext(): void {
    this.wentMm += this.stepMm;
    this.x = this.nextX;
    this.y = this.nextY;
    this.next += this.way;
    this.lookAhead();
  }

  private lookAhead(): void {
    const { points, firstPoints, closed } = this.index;
    const first = firstPoints[this.stroke];
    const last = firstPoints[this.stroke + 1] - 1;
    if (this.next < first || this.next > last) {
      this.atEnd = !closed[this.stroke];
      this.next = this.way > 0 ? first + 1 : last - 1;
    }
    this.nextX = points[2 * this.next];
    this.nextY = points[2 * this.next + 1];
    this.stepMm = Math.hypot(this.nextX - this.x, this.nextY - this.y);
  }
}

/** Meetings in the order of the line, to find those on a stretch. */
class Along {
  private readonly order: Uint32Array;
  private readonly rank: Uint32Array;
  private readonly alongMm: Float64Array;
  private readonly otherAlongMm: Float64Array;

  constructor(
    private readonly meetings: Meetings,
    private readonly index: SegmentIndex,
  ) {
    const { count, segment, share, otherSegment, otherShare } = meetings;
    const along = (s: number, part: number) => index.runMm[s] + part * (index.runMm[s + 1] - index.runMm[s]);
    this.alongMm = Float64Array.from({ length: count }, (_, k) => along(segment[k], share[k]));
    this.otherAlongMm = Float64Array.from({ length: count }, (_, k) => along(otherSegment[k], otherShare[k]));
    this.order = Uint32Array.from({ length: count }, (_, k) => k).sort(
      (a, b) => segment[a] - segment[b] || share[a] - share[b],
    );
    this.rank = new Uint32Array(count);
    this.order.forEach((k, place) => {
      this.rank[k] = place;
    });
  }

  /** The meetings of the same two passes on the stretch round meeting k, itself among them, in the line's order. */
  within(k: number, stretch: Stretch): number[] {
    const { meetings, index, order, alongMm, otherAlongMm } = this;
    const stroke = (s: number) => index.strokeOf[s];
    const isBeside = (m: number) =>
      stroke(meetings.segment[m]) === stroke(meetings.segment[k]) &&
      alongMm[m] >= alongMm[k] - stretch.before - roundingMm &&
      alongMm[m] <= alongMm[k] + stretch.after + roundingMm;
    const isOnOther = (m: number) =>
      stroke(meetings.otherSegment[m]) === stroke(meetings.otherSegment[k]) &&
      otherAlongMm[m] >= otherAlongMm[k] - stretch.otherBefore - roundingMm &&
      otherAlongMm[m] <= otherAlongMm[k] + stretch.otherAfter + roundingMm;
    let from = this.rank[k];
    while (from > 0 && isBeside(order[from - 1])) from--;
    const found: number[] = [];
    for (let i = from; i < order.length && isBeside(order[i]); i++) {
      if (isOnOther(order[i])) found.push(order[i]);
    }
    return found;
  }
}
