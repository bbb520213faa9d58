/**
 * Join: ends that were meant to meet.
 *
 * Nearest ends first, each drawn halfway over the gap. Points nearer to the moved end than the gap is wide are left
 * out where the line stays within half the gap without them, so that ends that overshot each other make no hook. No
 * end is joined to a copy drawn beside its stroke.
 */
import { joinShareOfStroke, type Mend } from '../../shared/mend.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { sayIn } from '../../shared/say.js';
import { coincideMm } from '../../shared/study.js';
import { distance } from '../geometry/point.js';
import {
  firstPoint,
  lastPoint,
  lengthOf,
  pointAt,
  pointCount,
  polylineOf,
  reversed,
} from '../geometry/polyline.js';
import { pointToSegment } from '../geometry/segment.js';
import { type Chain, chainOf } from '../measure/ends/breaks.js';
import { type Joined, joinedStrokes } from '../measure/ends/strokes.js';
import { outcome } from './outcome.js';
import { copiesIn } from './untrace.js';

export const join: Mend = {
  name: 'join',
  safe: true,
  what: 'Joins ends that look joined but are a hair apart.',
  apply(motif, setup) {
    const { strokes: all, dots, duplicates } = joinedStrokes(motif.strokes);
    if (all.length === 0) return null;
    // Joined to its copy a line would turn back and be stitched twice: copies are left as they are, to be left out.
    const copies = new Set(copiesIn(motif, setup).map(({ stroke }) => stroke));
    const isCopy = ({ parts }: Joined) => parts.some((part) => copies.has(part));
    const strokes = all.filter((each) => !isCopy(each));
    if (strokes.length === 0) return null;
    const lines = strokes.map(({ line }) => line);
    const chain = chainOf(lines);
    const gaps = chain.breaks.filter((gap) => isJoinable(gap, setup.joinToleranceMm));
    const besides = all.filter(isCopy).flatMap(({ parts }) => parts);
    const aside = [
      ...besides,
      ...dots.flatMap(({ parts }) => parts),
      ...duplicates.map(({ stroke }) => stroke),
    ];
    const joined = [
      ...joinedAlong(lines, chain, setup.joinToleranceMm),
      ...aside.sort((a, b) => a - b).map((i) => motif.strokes[i]),
    ];
    if (joined.length === motif.strokes.length) return null;
    const say = sayIn(setup.unit);
    const open = gaps.filter(({ gapMm }) => gapMm > coincideMm);
    const met = motif.strokes.length - joined.length - open.length;
    const widest = gaps.reduce((most, { gapMm }) => Math.max(most, gapMm), 0);
    const parts = [
      ...(open.length > 0 ? [`closed ${say.count(open.length, 'gap')} of up to ${say.length(widest)}`] : []),
      ...(met > 0 ? [`joined ends that met already at ${say.count(met, 'place')}`] : []),
    ].join(' and ');
    return outcome(motif, joined, {
      mend: 'join',
      places: [...gaps.map(({ at }) => at), ...strokes.flatMap((each) => meetings(each, motif.strokes))],
      addedMm: total(joined) - total(motif.strokes),
      movedMm: widest / 2,
      message: `${parts[0].toUpperCase()}${parts.slice(1)}.`,
      added: gaps.map(({ from, to }) => polylineOf([from, to])),
    });
  },
};

/** Where the pieces of a joined stroke met already. */
function meetings({ parts }: Joined, drawn: readonly Polyline[]): Point[] {
  return parts.slice(1).map((part, i) => {
    const before = [firstPoint(drawn[parts[i]]), lastPoint(drawn[parts[i]])];
    const far = (at: Point) => Math.min(...before.map((end) => distance(end, at)));
    const [first, last] = [firstPoint(drawn[part]), lastPoint(drawn[part])];
    return far(first) <= far(last) ? first : last;
  });
}

function total(lines: readonly Polyline[]): number {
  return lines.reduce((sum, line) => sum + lengthOf(line), 0);
}

function isJoinable({ gapMm, shorterMm }: Chain['breaks'][number], toleranceMm: number): boolean {
  return gapMm <= toleranceMm && gapMm <= joinShareOfStroke * shorterMm;
}

/** The strokes in the chain's order, those on both sides of a joinable break as one. */
function joinedAlong(
  lines: readonly Polyline[],
  { entries, breaks }: Chain,
  toleranceMm: number,
): Polyline[] {
  const out: Polyline[] = [];
  entries.forEach((end, i) => {
    const line = end & 1 ? reversed(lines[end >> 1]) : lines[end >> 1];
    if (i > 0 && isJoinable(breaks[i - 1], toleranceMm)) out.push(across(out.pop()!, line, breaks[i - 1].at));
    else out.push(line);
  });
  return out;
}

/** One line through both, by way of `at`. */
function across(first: Polyline, second: Polyline, at: Point): Polyline {
  const before = withEndAt(first, at);
  const after = reversed(withEndAt(reversed(second), at));
  const out = new Float64Array(before.length + after.length - 2);
  out.set(before);
  out.set(after, before.length - 2);
  return out;
}

/** The line with its last point moved to `at`. */
function withEndAt(line: Polyline, at: Point): Polyline {
  const end = lastPoint(line);
  const movedMm = distance(end, at);
  let keep = pointCount(line) - 1;
  while (
    keep > 1 &&
    distance(pointAt(line, keep - 1), end) < 2 * movedMm &&
    staysNear(line, keep - 1, at, movedMm)
  )
    keep--;
  const out = new Float64Array(2 * keep + 2);
  out.set(line.subarray(0, 2 * keep));
  out[2 * keep] = at.x;
  out[2 * keep + 1] = at.y;
  return out;
}

/** True where all points from number `from` on lie within `nearMm` of a straight line from the one before to `at`. */
function staysNear(line: Polyline, from: number, at: Point, nearMm: number): boolean {
  const anchor = pointAt(line, from - 1);
  for (let i = from; i < pointCount(line); i++) {
    const { x, y } = pointAt(line, i);
    if (pointToSegment(x, y, anchor.x, anchor.y, at.x, at.y) > nearMm) return false;
  }
  return true;
}
