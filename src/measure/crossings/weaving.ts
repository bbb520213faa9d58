/**
 * Passes that run together. A line stitched there and back along the same curve is the same to the eye, but not to
 * the last digit: flattened at other points, or rounded, the two passes weave through each other and meet dozens of
 * times. What happens on the whole counts: if they come together on one side and part on the other, that is one
 * crossing, else none. A stretch that ends at a loose end or a reversal has no other side: none. On a stretch that
 * both passes enter and leave, an odd number of meetings changes sides.
 *
 * Two closenesses count as together. Within a millionth of a millimetre it is rounding: a point meant to lie on a
 * line pokes through it. Within what flattening may have moved the lines, it takes a millimetre of that and three
 * meetings, so that two lines that cross at a shallow angle, once or twice, stay crossings.
 */

import type { SegmentIndex } from '../../near/segment-index.js';
import type { Meetings } from './meetings.js';
import { together, Walker } from './walker.js';

/** What it takes to be taken for one line. */
interface Closeness {
  readonly apartMm: number;
  readonly leastStretchMm: number;
  readonly leastMeetings: number;
  /** Of the meetings of a stretch some are at least this shallow, degrees; only these are followed. */
  readonly shallowDeg: number;
}

const rounded: Closeness = { apartMm: 1e-6, leastStretchMm: 0, leastMeetings: 1, shallowDeg: 90 };

/** Both lines may be off by this much, and by the precision of files. */
function flattened(flattenMm: number): Closeness {
  return { apartMm: 2 * (flattenMm + 0.001), leastStretchMm: 1, leastMeetings: 3, shallowDeg: 15 };
}

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
  const firm = unwoven(meetings, index, rounded);
  return unwoven(firm, index, flattened(flattenMm));
}

function unwoven(meetings: Meetings, index: SegmentIndex, close: Closeness): Meetings {
  const settled = new Uint8Array(meetings.count);
  const dropped = new Uint8Array(meetings.count);
  let droppedAny = false;
  let neighbours: Along | undefined;
  for (let k = 0; k < meetings.count; k++) {
    if (settled[k] || partsAtOnce(meetings, index, k, close)) continue;
    const stretch = stretchAt(meetings, index, k, close.apartMm);
    if (stretch.before + stretch.after < close.leastStretchMm) continue;
    neighbours ??= new Along(meetings, index);
    const group = neighbours.within(k, stretch, close.apartMm);
    if (group.length < close.leastMeetings) continue;
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
function partsAtOnce(meetings: Meetings, index: SegmentIndex, k: number, close: Closeness): boolean {
  if (meetings.angleDeg[k] > close.shallowDeg) return true;
  const sine = Math.sin((meetings.angleDeg[k] * Math.PI) / 180);
  const room = (segment: number, share: number) =>
    Math.min(share, 1 - share) * (index.runMm[segment + 1] - index.runMm[segment]);
  const least = Math.min(
    room(meetings.segment[k], meetings.share[k]),
    room(meetings.otherSegment[k], meetings.otherShare[k]),
  );
  if (least * sine <= close.apartMm) return false;
  return close.leastStretchMm === 0 || 4 * close.apartMm < close.leastStretchMm * sine;
}

/** The longer of the stretches that the passes run together, the same way or against each other. */
function stretchAt(meetings: Meetings, index: SegmentIndex, k: number, apartMm: number): Stretch {
  const way = wayAt(meetings, index, k);
  const likely = stretchAlong(meetings, index, k, apartMm, way);
  if (meetings.angleDeg[k] < 45) return likely;
  // At a corner the passes may run together though the segments that meet there do not.
  const other = stretchAlong(meetings, index, k, apartMm, way > 0 ? -1 : 1);
  return likely.before + likely.after >= other.before + other.after ? likely : other;
}

/** 1 where the two segments lead the same way, else -1. */
function wayAt({ segment, otherSegment }: Meetings, { points }: SegmentIndex, k: number): 1 | -1 {
  const i = 2 * segment[k];
  const j = 2 * otherSegment[k];
  const across = (points[i + 2] - points[i]) * (points[j + 2] - points[j]);
  const down = (points[i + 3] - points[i + 1]) * (points[j + 3] - points[j + 1]);
  return across + down >= 0 ? 1 : -1;
}

function stretchAlong(
  meetings: Meetings,
  index: SegmentIndex,
  k: number,
  apartMm: number,
  way: 1 | -1,
): Stretch {
  const p = { index, segment: meetings.segment[k], share: meetings.share[k] };
  const q = { index, segment: meetings.otherSegment[k], share: meetings.otherShare[k] };
  const onward = together(new Walker(p, 1), new Walker(q, way), apartMm);
  const back = together(new Walker(p, -1), new Walker(q, way > 0 ? -1 : 1), apartMm);
  const [otherBefore, otherAfter] = way > 0 ? [back, onward] : [onward, back];
  return {
    before: back.wentMm,
    after: onward.wentMm,
    otherBefore: otherBefore.otherWentMm,
    otherAfter: otherAfter.otherWentMm,
    parts: onward.parts && back.parts,
  };
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
    this.alongMm = new Float64Array(count);
    this.otherAlongMm = new Float64Array(count);
    for (let k = 0; k < count; k++) {
      this.alongMm[k] = index.alongMm(segment[k], share[k]);
      this.otherAlongMm[k] = index.alongMm(otherSegment[k], otherShare[k]);
    }
    this.order = orderAlong(meetings, index.strokeOf.length);
    this.rank = new Uint32Array(count);
    this.order.forEach((k, place) => {
      this.rank[k] = place;
    });
  }

  /** The meetings of the same two passes on the stretch round meeting k, itself among them, in the line's order. */
  within(k: number, stretch: Stretch, slackMm: number): number[] {
    const { meetings, index, order, alongMm, otherAlongMm } = this;
    const stroke = (s: number) => index.strokeOf[s];
    const isBeside = (m: number) =>
      stroke(meetings.segment[m]) === stroke(meetings.segment[k]) &&
      alongMm[m] >= alongMm[k] - stretch.before - slackMm &&
      alongMm[m] <= alongMm[k] + stretch.after + slackMm;
    const isOnOther = (m: number) =>
      stroke(meetings.otherSegment[m]) === stroke(meetings.otherSegment[k]) &&
      otherAlongMm[m] >= otherAlongMm[k] - stretch.otherBefore - slackMm &&
      otherAlongMm[m] <= otherAlongMm[k] + stretch.otherAfter + slackMm;
    let from = this.rank[k];
    while (from > 0 && isBeside(order[from - 1])) from--;
    const found: number[] = [];
    for (let i = from; i < order.length && isBeside(order[i]); i++) {
      if (isOnOther(order[i])) found.push(order[i]);
    }
    return found;
  }
}

/** The numbers of the meetings sorted by segment and by place on it. Few lie on one segment. */
function orderAlong({ count, segment, share }: Meetings, segments: number): Uint32Array {
  const starts = new Uint32Array(segments + 1);
  for (let k = 0; k < count; k++) starts[segment[k] + 1]++;
  for (let s = 0; s < segments; s++) starts[s + 1] += starts[s];
  const filled = starts.slice(0, segments);
  const order = new Uint32Array(count);
  for (let k = 0; k < count; k++) order[filled[segment[k]]++] = k;
  for (let s = 0; s < segments; s++) {
    if (starts[s + 1] - starts[s] > 1)
      order.subarray(starts[s], starts[s + 1]).sort((a, b) => share[a] - share[b]);
  }
  return order;
}
