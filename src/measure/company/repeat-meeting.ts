/**
 * How a repeat meets those that follow it in the row: the motif moved once by the repeat vector, and as many times
 * more as it overhangs.
 *
 * Where one repeat joins the next, the two lines are near each other of course. What belongs to the join is found
 * as runs are (`side-by-side.ts`): on the map of pairs of places, one of either repeat, it is the island of pairs
 * nearer than `withinMm` that holds the join. One leaves it, walking away from the join on both lines, as soon as
 * they are farther apart than that. Whatever comes near again after that is a meeting.
 */
import type { Point } from '../../../shared/plane.js';
import { coincideMm, type Repeat, type RepeatMeeting } from '../../../shared/study.js';
import { boundsOf } from '../../geometry/polyline.js';
import {
  nearestShare,
  pointToSegment,
  segmentCrossing,
  segmentToSegment,
  sharesWithin,
} from '../../geometry/segment.js';
import { PointGrid } from '../../near/point-grid.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { type Run, RunLinker } from './run-linker.js';

/** Meetings at one place, as of the points where segments join, are one, mm. */
const sameMm = 0.05;
/** Places told; there is no more to learn from further ones. */
const mostPlaces = 1000;

/** `mostRepeats` bounds how many repeats that overhang each other are looked at. */
export function repeatMeetingOf(
  index: SegmentIndex,
  repeat: Repeat,
  withinMm: number,
  mostRepeats: number,
): RepeatMeeting {
  const meeting = new Meeting();
  const box = boundsOf(index.strokes);
  const overhanging = Math.floor((box.maxX - box.minX + withinMm) / repeat.dx);
  for (let k = 1; k <= Math.min(overhanging, mostRepeats); k++) {
    const next = { index, dx: k * repeat.dx, dy: k * repeat.dy };
    for (const run of runsBetween(next, withinMm)) {
      if (k === 1 && holdsJoin(next, run)) continue;
      for (let n = 0; n < run.first.length; n++) meeting.add(next, run.first[n], run.second[n]);
    }
  }
  return { crossings: meeting.crossings, leastMm: meeting.leastMm, at: meeting.at };
}

/** A later repeat: the same line, moved. */
interface Moved {
  readonly index: SegmentIndex;
  readonly dx: number;
  readonly dy: number;
}

/** Pairs of segments, the first of this repeat, the second of the later one, in islands. */
function runsBetween(next: Moved, withinMm: number): Run[] {
  const { index, dx, dy } = next;
  const { chainStarts, chainEnds } = index;
  const linker = new RunLinker(coincideMm);
  const parts = new Float64Array(4);
  const later: number[] = [];
  for (let c = 0; c < chainStarts.length && !linker.isFull; c++) {
    later.length = 0;
    index.visitChainsNear(c, withinMm, (d) => later.push(d), -dx, -dy);
    if (later.length === 0) continue;
    later.sort((a, d) => a - d);
    for (let i = chainStarts[c]; i < chainEnds[c]; i++) {
      for (const d of later) {
        for (let j = chainStarts[d]; j < chainEnds[d]; j++)
          if (nearParts(next, i, j, withinMm, parts)) linker.add(i, j, index, parts);
      }
    }
  }
  return linker.runs(0);
}

const shares = new Float64Array(2);

/** Where segment i of this repeat and j of the later one lie near each other: lengths walked along their strokes. */
function nearParts(
  { index: { points, runMm }, dx, dy }: Moved,
  i: number,
  j: number,
  withinMm: number,
  out: Float64Array,
): boolean {
  const [ax, ay, bx, by] = [points[2 * i], points[2 * i + 1], points[2 * i + 2], points[2 * i + 3]];
  const cx = points[2 * j] + dx;
  const ex = points[2 * j + 2] + dx;
  if (Math.min(cx, ex) > Math.max(ax, bx) + withinMm || Math.max(cx, ex) < Math.min(ax, bx) - withinMm)
    return false;
  const cy = points[2 * j + 1] + dy;
  const ey = points[2 * j + 3] + dy;
  if (Math.min(cy, ey) > Math.max(ay, by) + withinMm || Math.max(cy, ey) < Math.min(ay, by) - withinMm)
    return false;
  if (!sharesWithin(ax, ay, bx, by, cx, cy, ex, ey, withinMm, shares)) return false;
  out[0] = runMm[i] + shares[0] * (runMm[i + 1] - runMm[i]);
  out[1] = runMm[i] + shares[1] * (runMm[i + 1] - runMm[i]);
  if (!sharesWithin(cx, cy, ex, ey, ax, ay, bx, by, withinMm, shares)) return false;
  out[2] = runMm[j] + shares[0] * (runMm[j + 1] - runMm[j]);
  out[3] = runMm[j] + shares[1] * (runMm[j + 1] - runMm[j]);
  return true;
}

/** Does an end of this repeat meet an end of the later one in this run? */
function holdsJoin(next: Moved, { first, second }: Run): boolean {
  for (let n = 0; n < first.length; n++) {
    for (const p of endPoints(next.index, first[n]))
      for (const q of endPoints(next.index, second[n])) if (coincide(next, p, q)) return true;
  }
  return false;
}

/** Numbers of the points of a segment at which its stroke begins or ends. */
function endPoints({ firstPoints, strokeOf }: SegmentIndex, segment: number): number[] {
  const stroke = strokeOf[segment];
  const ends = [];
  if (segment === firstPoints[stroke]) ends.push(segment);
  if (segment + 1 === firstPoints[stroke + 1] - 1) ends.push(segment + 1);
  return ends;
}

function coincide({ index: { points }, dx, dy }: Moved, p: number, q: number): boolean {
  return (
    Math.hypot(points[2 * q] + dx - points[2 * p], points[2 * q + 1] + dy - points[2 * p + 1]) <= coincideMm
  );
}

/** The place on a-b nearest to c-e, for segments that do not cross. */
function nearestOn(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  ex: number,
  ey: number,
): Point {
  const shareC = nearestShare(cx, cy, ax, ay, bx, by);
  const shareE = nearestShare(ex, ey, ax, ay, bx, by);
  const places = [
    { x: ax, y: ay },
    { x: bx, y: by },
    { x: ax + shareC * (bx - ax), y: ay + shareC * (by - ay) },
    { x: ax + shareE * (bx - ax), y: ay + shareE * (by - ay) },
  ];
  const off = places.map(({ x, y }) => pointToSegment(x, y, cx, cy, ex, ey));
  return places[off.indexOf(Math.min(...off))];
}

/** Gathers the places where repeats meet. */
class Meeting {
  readonly crossings: Point[] = [];
  leastMm = Infinity;
  at: Point = { x: 0, y: 0 };
  private readonly taken = new PointGrid(sameMm);

  add({ index: { points }, dx, dy }: Moved, i: number, j: number): void {
    const [ax, ay, bx, by] = [points[2 * i], points[2 * i + 1], points[2 * i + 2], points[2 * i + 3]];
    const cx = points[2 * j] + dx;
    const cy = points[2 * j + 1] + dy;
    const ex = points[2 * j + 2] + dx;
    const ey = points[2 * j + 3] + dy;
    const apart = segmentToSegment(ax, ay, bx, by, cx, cy, ex, ey);
    if (apart > 0 && apart >= this.leastMm) return;
    const at = segmentCrossing(ax, ay, bx, by, cx, cy, ex, ey) ?? nearestOn(ax, ay, bx, by, cx, cy, ex, ey);
    if (apart < this.leastMm) {
      this.leastMm = apart;
      this.at = at;
    }
    if (apart === 0) this.addCrossing(at);
  }

  private addCrossing(at: Point): void {
    if (this.crossings.length === mostPlaces) return;
    let isNew = true;
    this.taken.visitNear(at.x, at.y, () => {
      isNew = false;
    });
    if (!isNew) return;
    this.taken.add(at.x, at.y);
    this.crossings.push(at);
  }
}
