/**
 * How a repeat meets those that follow it in the row: the motif moved once by the repeat vector, and as many times
 * more as it overhangs.
 *
 * Where one repeat joins the next, the two lines are near each other of course. What belongs to the join is found
 * on the map of pairs of places (both lengths walked), one of either repeat, it is the island of pairs
 * nearer than `withinMm` that holds the join. One leaves it, walking away from the join on both lines, as soon as
 * they are farther apart than that. Whatever comes near again after that is a meeting; so is what goes away from the
 * join on one another, since lines that only meet there part.
 */

import type { Point } from '../../../shared/plane.js';
import { coincideMm, type RepeatMeeting } from '../../../shared/study.js';
import { distanceBetween } from '../../geometry/point.js';
import { boundsOf } from '../../geometry/polyline.js';
import { nearestShare, nearestToSegment, segmentToSegment, sharesWithin } from '../../geometry/segment.js';
import { PointGrid } from '../../near/point-grid.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { crossesAtJoin, type RowJoin } from './join-crossing.js';
import { type Moved, PairsNear } from './pairs-near.js';
import { retraceMm } from './retraces.js';
import { merged } from './stretches.js';

/** Meetings at one place, as of the points where segments join, are one, mm. */
const sameMm = 0.05;
/** A stretch of one repeat lies on another from this length on, mm; no crossing of ordinary shapes is as long. */
const leastLyingMm = 5;
/** Lines that meet at the join are no longer within the retrace distance of each other this far from it, mm. */
const joinReachMm = 5;
/** Segments at a larger angle cross, and do not lie on each other: 30 degrees, and what is left by rounding. */
const lyingSine = 0.5;
const sameDirectionSine = 0.02;
/** Places told; there is no more to learn from further ones. */
const mostPlaces = 1000;

/** `mostRepeats` bounds how many repeats that overhang each other are looked at. */
export function repeatMeetingOf(
  index: SegmentIndex,
  { repeat, join }: RowJoin,
  withinMm: number,
  mostRepeats: number,
): RepeatMeeting {
  const meeting = new Meeting();
  const box = boundsOf(index.strokes);
  const overhanging = Math.floor((box.maxX - box.minX + withinMm) / repeat.dx);
  for (let k = 1; k <= Math.min(overhanging, mostRepeats); k++) {
    const next = { index, dx: k * repeat.dx, dy: k * repeat.dy };
    const pairs = new PairsNear(next, withinMm);
    meeting.more ||= pairs.more;
    const ofJoin = k === 1 ? pairs.islandAt(join, retraceMm) : null;
    for (let n = 0; n < pairs.count; n++) {
      const i = pairs.first[n];
      const j = pairs.second[n];
      const isJoin = ofJoin?.[n] === 1;
      meeting.noteLying(next, i, j, isJoin ? join : null);
      if (!isJoin) meeting.add(next, i, j);
    }
  }
  if (index.strokes.length === 1 && crossesAtJoin(index, { repeat, join })) meeting.addAtJoin(join);
  return meeting.found();
}

const shares = new Float64Array(2);

/** What is left of a stretch of segment a-b, in shares of it, where what is near the join is taken out. */
function awayFrom(
  join: Point,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  [from, to]: Float64Array,
): [number, number][] {
  const share = nearestShare(join.x, join.y, ax, ay, bx, by);
  const offMm = distanceBetween(ax + share * (bx - ax), ay + share * (by - ay), join.x, join.y);
  const halfMm = Math.sqrt(Math.max(0, joinReachMm ** 2 - offMm ** 2));
  const half = halfMm / distanceBetween(bx, by, ax, ay);
  const left: [number, number][] = [
    [from, Math.min(to, share - half)],
    [Math.max(from, share + half), to],
  ];
  return offMm > joinReachMm ? [[from, to]] : left.filter(([start, end]) => end > start);
}

/** The ends of segment i of this repeat and of j of the later one. */
function places({ index: { points }, dx, dy }: Moved, i: number, j: number) {
  const ax = points[2 * i];
  const ay = points[2 * i + 1];
  const bx = points[2 * i + 2];
  const by = points[2 * i + 3];
  const cx = points[2 * j];
  const cy = points[2 * j + 1];
  const ex = points[2 * j + 2];
  const ey = points[2 * j + 3];
  return [ax, ay, bx, by, cx + dx, cy + dy, ex + dx, ey + dy] as const;
}

/** The sine of the angle between two segments, whichever way they run; NaN where one is no longer than a point. */
function sineOf({ points }: SegmentIndex, i: number, j: number): number {
  const ux = points[2 * i + 2] - points[2 * i];
  const uy = points[2 * i + 3] - points[2 * i + 1];
  const vx = points[2 * j + 2] - points[2 * j];
  const vy = points[2 * j + 3] - points[2 * j + 1];
  return Math.abs(ux * vy - uy * vx) / (Math.sqrt(ux * ux + uy * uy) * Math.sqrt(vx * vx + vy * vy));
}

/** Gathers the places where repeats meet. */
class Meeting {
  /** Whether there is more than was looked at. */
  more = false;
  readonly #crossings: Point[] = [];
  #leastMm = Infinity;
  #at: Point = { x: 0, y: 0 };
  readonly #taken = new PointGrid(sameMm);
  readonly #takenLying = new PointGrid(leastLyingMm);
  /** Stretches of each stroke that lie on a later repeat, from and to, mm along it. */
  readonly #lying = new Map<number, number[]>();

  found(): RepeatMeeting {
    let lyingMm = 0;
    for (const [, stretches] of this.#lying) {
      const whole = merged(stretches, coincideMm);
      for (let k = 0; k < whole.length; k += 2)
        if (whole[k + 1] - whole[k] >= leastLyingMm) lyingMm += whole[k + 1] - whole[k];
    }
    return { crossings: this.#crossings, leastMm: this.#leastMm, at: this.#at, lyingMm, more: this.more };
  }

  /** Notes where segment i lies on j of the later repeat; of a run that holds the join what is well away from it. */
  noteLying(next: Moved, i: number, j: number, join: Point | null): void {
    const { runMm, strokeOf } = next.index;
    const [ax, ay, bx, by, cx, cy, ex, ey] = places(next, i, j);
    if (!(sineOf(next.index, i, j) <= lyingSine)) return;
    if (!sharesWithin(ax, ay, bx, by, cx, cy, ex, ey, retraceMm, shares)) return;
    const alongMm = runMm[i + 1] - runMm[i];
    const stretches = this.#lying.get(strokeOf[i]) ?? [];
    this.#lying.set(strokeOf[i], stretches);
    for (const [from, to] of join === null ? [shares] : awayFrom(join, ax, ay, bx, by, shares)) {
      stretches.push(runMm[i] + from * alongMm, runMm[i] + to * alongMm);
      if (join === null) continue;
      const middle = { x: ax + ((from + to) / 2) * (bx - ax), y: ay + ((from + to) / 2) * (by - ay) };
      this.#near(0, middle);
      this.#addCrossing(middle, this.#takenLying);
    }
  }

  add(next: Moved, i: number, j: number): void {
    const [ax, ay, bx, by, cx, cy, ex, ey] = places(next, i, j);
    const apart = segmentToSegment(ax, ay, bx, by, cx, cy, ex, ey);
    if (apart > 0 && apart >= this.#leastMm) return;
    const at = nearestToSegment(ax, ay, bx, by, cx, cy, ex, ey);
    this.#near(apart, at);
    const lies = sineOf(next.index, i, j) <= sameDirectionSine;
    if (apart === 0) this.#addCrossing(at, lies ? this.#takenLying : this.#taken);
  }

  addAtJoin(at: Point): void {
    this.#near(0, at);
    this.#addCrossing(at, this.#taken);
  }

  #near(apart: number, at: Point): void {
    if (apart >= this.#leastMm) return;
    this.#leastMm = apart;
    this.#at = at;
  }

  #addCrossing(at: Point, taken: PointGrid): void {
    let isNew = true;
    taken.visitNear(at.x, at.y, () => {
      isNew = false;
    });
    if (!isNew) return;
    if (this.#crossings.length === mostPlaces) {
      this.more = true;
      return;
    }
    taken.add(at.x, at.y);
    this.#crossings.push(at);
  }
}
