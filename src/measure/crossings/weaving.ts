/**
 * Passes that run together. Where two passes share a point or a stretch, or run along the same curve to all but the
 * last digit, they meet once or dozens of times without meaning to. What happens on the whole counts: if they come
 * together on one side and part on the other, they meet an odd number of times, and that is one crossing, halfway
 * along the stretch; else none. A stretch that ends at a loose end or a reversal has no other side: none.
 *
 * Two closenesses count as together. Within a millionth of a millimetre it is rounding: a point meant to lie on a
 * line pokes through it. Within what flattening may have moved the lines, it takes a millimetre of that and three
 * meetings, so that two lines that cross at a shallow angle, once or twice, stay crossings.
 *
 * Limits: where a line turns back over the same stretch again and again, two of its hairpins may be told as one pass
 * crossing the other at their tips.
 */

import { acuteDeg } from '../../geometry/point.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { Meetings } from '../../network/meetings.js';
import { type Reach, together, Walker } from './walker.js';

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

/** Passes that share more than this have no angle, mm; and where they share a point, it is taken over so much. */
const pointMm = 0.05;

/** Passes that run together are as long as each other, but for this share. */
const samePlaceShare = 0.01;

/** A stretch of two passes round one of their meetings. */
interface Stretch {
  readonly onward: Reach;
  readonly back: Reach;
  /** 1 where the second pass goes the same way, else -1. */
  readonly way: 1 | -1;
}

/** Do the passes part at both ends, and does neither end there at a loose end or a reversal? */
function parts({ onward, back }: Stretch): boolean {
  return onward.parts() && back.parts();
}

function lengthOf({ onward, back }: Stretch): number {
  return back.mm + onward.mm;
}

/** The meetings without those that only come from weaving. */
export function withoutWeaving(meetings: Meetings, index: SegmentIndex, flattenMm: number): Meetings {
  const firm = unwoven(meetings, index, rounded);
  return unwoven(firm, index, flattened(flattenMm));
}

function unwoven(meetings: Meetings, index: SegmentIndex, close: Closeness): Meetings {
  const isWoven = new Uint8Array(meetings.count);
  const midway = new Meetings(index);
  let visits: Visits | undefined;
  for (let k = 0; k < meetings.count; k++) {
    if (isWoven[k] || partsAtOnce(meetings, k, close)) continue;
    const stretch = stretchAt(meetings, index, k, close.apartMm);
    if (lengthOf(stretch) < close.leastStretchMm) continue;
    visits ??= new Visits(meetings, index);
    if (visits.apartMm(k) <= close.apartMm) {
      // A step of no length, but for rounding, that curls up.
      isWoven[k] = 1;
      continue;
    }
    const group = visits.within(k, stretch, close.apartMm);
    if (group.size < close.leastMeetings) continue;
    for (const member of group) isWoven[member] = 1;
    if (group.size % 2 === 1 && parts(stretch)) addMidway(meetings, k, stretch, index, midway);
  }
  if (!visits) return meetings;
  const kept = meetings.without(isWoven);
  kept.addAll(midway);
  return kept;
}

/** The crossing is said to lie halfway along the stretch. */
function addMidway(
  meetings: Meetings,
  k: number,
  stretch: Stretch,
  index: SegmentIndex,
  midway: Meetings,
): void {
  const { onward, back, way } = stretch;
  const at = (which: number, onMm: number) =>
    index.segmentAt(index.strokeOf[meetings.segment(k, which)], meetings.alongMm(k, which) + onMm);
  const s = at(0, (onward.mm - back.mm) / 2);
  const t = at(1, (way * (onward.otherMm - back.otherMm)) / 2);
  const { x, y } = index.placeOn(s);
  const [u, v] = [index.wayAt(s, pointMm), index.wayAt(t, pointMm)];
  const angleDeg = lengthOf(stretch) <= pointMm ? acuteDeg(u.x, u.y, v.x, v.y) : 0;
  midway.add(s.segment, index.shareAt(s), t.segment, index.shareAt(t), x, y, angleDeg, 0);
}

/** The common case, without walking: both segments lead out of each other's reach before they end. */
function partsAtOnce(meetings: Meetings, k: number, close: Closeness): boolean {
  const angleDeg = meetings.angleDeg(k);
  if (angleDeg > close.shallowDeg) return true;
  if (meetings.clearMm(k) <= close.apartMm) return false;
  if (close.leastStretchMm === 0) return true;
  return 4 * close.apartMm < close.leastStretchMm * Math.sin((angleDeg * Math.PI) / 180);
}

/** The longer of the stretches that the passes run together, the same way or against each other. */
function stretchAt(meetings: Meetings, index: SegmentIndex, k: number, apartMm: number): Stretch {
  const along = stretchAlong(meetings, index, k, apartMm, 1);
  const against = stretchAlong(meetings, index, k, apartMm, -1);
  return lengthOf(along) >= lengthOf(against) ? along : against;
}

function stretchAlong(
  meetings: Meetings,
  index: SegmentIndex,
  k: number,
  apartMm: number,
  way: 1 | -1,
): Stretch {
  const p = spotOf(meetings, index, k, 0);
  const q = spotOf(meetings, index, k, 1);
  const onward = together(new Walker(p, 1), new Walker(q, way), apartMm);
  const back = together(new Walker(p, -1), new Walker(q, way > 0 ? -1 : 1), apartMm);
  return { onward, back, way };
}

/** Meeting k as a place on one of its passes. */
function spotOf(meetings: Meetings, index: SegmentIndex, k: number, which: number) {
  const [segment, alongMm] = [meetings.segment(k, which), meetings.alongMm(k, which)];
  return { index, segment, alongMm, x: meetings.x(k), y: meetings.y(k) };
}

/**
 * Visits in the order of the line, to find the meetings on a stretch: a meeting is visited by either of its passes, and
 * which of them is the earlier one may change where a closed stroke begins. Visit v is that of pass v % 2 of meeting
 * v >> 1.
 */
class Visits {
  private readonly order: Uint32Array;
  private readonly rank: Uint32Array;
  /** Where the visits of each stroke begin in the order. */
  private readonly starts: Uint32Array;

  constructor(
    private readonly meetings: Meetings,
    private readonly index: SegmentIndex,
  ) {
    const count = 2 * meetings.count;
    // Segment by segment, and only those of one segment are compared: there are few.
    const begins = new Uint32Array(index.strokeOf.length + 1);
    for (let v = 0; v < count; v++) begins[this.segmentOf(v) + 1]++;
    for (let s = 1; s < begins.length; s++) begins[s] += begins[s - 1];
    this.order = new Uint32Array(count);
    const filled = begins.slice();
    for (let v = 0; v < count; v++) this.order[filled[this.segmentOf(v)]++] = v;
    for (let s = 0; s + 1 < begins.length; s++)
      if (begins[s + 1] - begins[s] > 1)
        this.order.subarray(begins[s], begins[s + 1]).sort((u, v) => this.alongMm(u) - this.alongMm(v));
    this.rank = new Uint32Array(count);
    this.order.forEach((v, place) => {
      this.rank[v] = place;
    });
    this.starts = index.firstPoints.map((point) => begins[point]);
  }

  /** The meetings of the same two passes on the stretch round meeting k, itself among them. */
  within(k: number, { onward, back, way }: Stretch, slackMm: number): Set<number> {
    const found = new Set([k]);
    this.addAlong(found, k, 1, way, onward, slackMm);
    this.addAlong(found, k, -1, way > 0 ? -1 : 1, back, slackMm);
    return found;
  }

  /** Those one way from meeting k, at the same place of both passes: the ways to it are in proportion. */
  private addAlong(
    found: Set<number>,
    k: number,
    way: 1 | -1,
    otherWay: 1 | -1,
    { mm, otherMm }: Reach,
    slackMm: number,
  ): void {
    for (const v of this.along(2 * k, way, mm + slackMm)) {
      if (this.strokeOf(v ^ 1) !== this.strokeOf(2 * k + 1)) continue;
      const onMm = this.wayMm(2 * k, v, way);
      const wantedMm = mm > 0 ? (onMm * otherMm) / mm : 0;
      const offMm = Math.abs(this.wayMm(2 * k + 1, v ^ 1, otherWay) - wantedMm);
      if (offMm <= slackMm + samePlaceShare * onMm || this.isSame(v ^ 1, 2 * k + 1, slackMm))
        found.add(v >> 1);
    }
  }

  /** Do two visits of a stroke lie in one place, but for rounding? */
  private isSame(u: number, v: number, slackMm: number): boolean {
    return Math.min(this.wayMm(u, v, 1), this.wayMm(u, v, -1)) <= slackMm;
  }

  /** How far the two visits of meeting k lie apart along the line; Infinity where they are on two strokes. */
  apartMm(k: number): number {
    if (this.strokeOf(2 * k) !== this.strokeOf(2 * k + 1)) return Infinity;
    return Math.min(this.wayMm(2 * k, 2 * k + 1, 1), this.wayMm(2 * k, 2 * k + 1, -1));
  }

  /** The visits that follow one along its pass, one way, round a closed stroke, as far as `withinMm` from it. */
  private *along(from: number, way: 1 | -1, withinMm: number): Generator<number> {
    const stroke = this.strokeOf(from);
    const [first, beyond] = [this.starts[stroke], this.starts[stroke + 1]];
    for (let n = 1; n < beyond - first; n++) {
      let place = this.rank[from] + way * n;
      if (place < first || place >= beyond) {
        if (!this.index.closed[stroke]) return;
        place -= way * (beyond - first);
      }
      if (this.wayMm(from, this.order[place], way) > withinMm) return;
      yield this.order[place];
    }
  }

  /** How far it is along a stroke from one visit to another, one way; Infinity where it is the other way. */
  private wayMm(from: number, to: number, way: 1 | -1): number {
    const onMm = way * (this.alongMm(to) - this.alongMm(from));
    if (onMm >= 0) return onMm;
    const stroke = this.strokeOf(from);
    return this.index.closed[stroke] ? onMm + this.index.strokeLengthMm(stroke) : Infinity;
  }

  private alongMm(v: number): number {
    return this.meetings.alongMm(v >> 1, v & 1);
  }

  private segmentOf(v: number): number {
    return this.meetings.segment(v >> 1, v & 1);
  }

  private strokeOf(v: number): number {
    return this.index.strokeOf[this.segmentOf(v)];
  }
}
