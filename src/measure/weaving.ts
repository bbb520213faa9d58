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
import type { Meetings } from './meetings.js';
import type { SegmentIndex } from './segment-index.js';
import { together, Walker } from './walker.js';

/** What it takes to be taken for one line. */
interface Closeness {
  readonly apartMm: number;
  readonly leastStretchMm: number;
  readonly leastMeetings: number;
}

const rounded: Closeness = { apartMm: 1e-6, leastStretchMm: 0, leastMeetings: 1 };

/** Both lines may be off by this much, and by the precision of files. */
function flattened(flattenMm: number): Closeness {
  return { apartMm: 2 * (flattenMm + 0.001), leastStretchMm: 1, leastMeetings: 3 };
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
  const [along, against] = ([1, -1] as const).map((way) => {
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
  });
  return along.before + along.after >= against.before + against.after ? along : against;
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
