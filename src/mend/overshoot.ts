/**
 * Ends that overshoot: a stroke drawn a little past the one that it ends on. Stitched there and back that is a spur
 * shorter than a stitch, which no machine sews as it is drawn, so it is cut off where the strokes cross.
 *
 * An end is cut where its stroke last crosses, less than a stitch before, and nothing meets it from there on. It stays
 * where the stroke is no longer than that to the other side either: then it is a thorn, drawn for its own sake; and where
 * the row may begin or end.
 *
 * Ends that overlap: two strokes that run on beside each other, each past the place where the other begins, as near as
 * ends are joined. Both are cut back, so that the line goes over from one to the other within a stitch.
 */
import { joinShareOfStroke } from '../../shared/mend.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { type Setup, stitchLengthMm } from '../../shared/setup.js';
import { distance } from '../geometry/point.js';
import {
  boundsOf,
  firstPoint,
  lastPoint,
  nearestAlong,
  passesBy,
  placeAlong,
  runningLengths,
  stretchOf,
} from '../geometry/polyline.js';
import { SegmentIndex } from '../near/segment-index.js';
import { contactsOf } from '../network/contacts.js';
import { touchMm } from '../network/network.js';

export interface Cut {
  readonly strokes: readonly Polyline[];
  /** Where ends were cut off. */
  readonly places: readonly Point[];
  /** Where two ends that overlapped were cut back. */
  readonly laps: readonly Point[];
}

export function withoutOvershoots(drawn: readonly Polyline[], setup: Setup): Cut {
  const leastMm = stitchLengthMm(setup);
  const { minX, maxX } = boundsOf(drawn);
  const runs = drawn.map(runningLengths);
  const lengths = runs.map((run) => run[run.length - 1]);
  const index = new SegmentIndex(drawn);
  const contacts = contactsOf(index, touchMm, setup.limits.crossings);
  // How far before its ends each stroke last crosses, and last meets an end, its own or another's.
  const crossed = drawn.map(() => [Infinity, Infinity]);
  const ended = drawn.map(() => [Infinity, Infinity]);
  for (const { a, b, kind } of contacts) {
    if (kind === 'touch') continue;
    for (const { line, alongMm } of [a, b]) {
      const last = (kind === 'crossing' ? crossed : ended)[line];
      last[0] = Math.min(last[0], alongMm);
      last[1] = Math.min(last[1], lengths[line] - alongMm);
    }
  }
  const laps = lapsOf(index, runs, setup);
  const places: Point[] = [];
  const strokes = drawn.map((stroke, line) => {
    const length = lengths[line];
    const [fromMm, toMm] = [0, 1].map((end) => {
      const overMm = crossed[line][end];
      const { x } = end === 0 ? firstPoint(stroke) : lastPoint(stroke);
      const isOver =
        overMm > touchMm &&
        overMm < leastMm &&
        length - overMm > leastMm &&
        ended[line][end] > overMm - touchMm &&
        x - minX > leastMm &&
        maxX - x > leastMm;
      const atMm = isOver ? overMm : laps.cutMm[line][end];
      const alongMm = end === 0 ? atMm : length - atMm;
      if (isOver) places.push(placeAlong(stroke, runs[line], alongMm));
      return alongMm;
    });
    return fromMm === 0 && toMm === length ? stroke : stretchOf(stroke, runs[line], fromMm, toMm);
  });
  return { strokes, places, laps: laps.places };
}

/** How much of each stroke's two ends overlaps others and is to be cut off, mm. */
function lapsOf(index: SegmentIndex, runs: readonly Float64Array[], setup: Setup) {
  const { strokes, strokeOf } = index;
  const withinMm = setup.joinToleranceMm;
  const cutMm = strokes.map(() => [0, 0]);
  const places: Point[] = [];
  const lengths = runs.map((run) => run[run.length - 1]);
  const endOf = (line: number, end: number) => (end === 0 ? firstPoint : lastPoint)(strokes[line]);
  const fromEnd = (line: number, end: number, at: Point) => {
    const alongMm = nearestAlong(strokes[line], runs[line], at);
    return end === 0 ? alongMm : lengths[line] - alongMm;
  };
  const placeFrom = (line: number, end: number, mm: number) =>
    placeAlong(strokes[line], runs[line], end === 0 ? mm : lengths[line] - mm);
  const look = (a: number, atA: number, b: number, atB: number) => {
    if (cutMm[a][atA] > 0 || cutMm[b][atB] > 0) return;
    const [endA, endB] = [endOf(a, atA), endOf(b, atB)];
    const mostMm = joinShareOfStroke * Math.min(lengths[a], lengths[b]);
    if (distance(endA, endB) > mostMm + withinMm) return;
    if (!passesBy(strokes[a], endB.x, endB.y, withinMm)) return;
    // What lies on one another is one line in the drawing's graph anyhow.
    const isBy = ({ x, y }: Point, line: number) => passesBy(strokes[line], x, y, touchMm);
    if (isBy(endA, b) && isBy(endB, a)) return;
    const [overA, overB] = [fromEnd(a, atA, endB), fromEnd(b, atB, endA)];
    if (Math.min(overA, overB) <= touchMm || Math.max(overA, overB) > mostMm) return;
    for (let mm = 0; mm < overA; mm += withinMm) {
      const { x, y } = placeFrom(a, atA, mm);
      if (!passesBy(strokes[b], x, y, withinMm) || fromEnd(b, atB, { x, y }) > overB + withinMm) return;
    }
    const stitchMm = stitchLengthMm(setup);
    cutMm[a][atA] = (overA + Math.min(overA, stitchMm)) / 2;
    cutMm[b][atB] = (overB + Math.min(overB, stitchMm)) / 2;
    places.push(placeFrom(a, atA, overA / 2));
  };
  strokes.forEach((_, a) => {
    for (const atA of [0, 1]) {
      const { x, y } = endOf(a, atA);
      const beside = new Set<number>();
      index.visitNearPoint(x, y, withinMm, (segment) => beside.add(strokeOf[segment]));
      for (const b of beside) if (b > a) for (const atB of [0, 1]) look(a, atA, b, atB);
    }
  });
  return { cutMm, places };
}
