/**
 * Polylines: their points, lengths, stretches and boxes, and what moves or turns them.
 */
import type { Box, Point, Polyline } from '../../shared/plane.js';
import { emptyBox, extend } from './box.js';
import { distanceBetween } from './point.js';
import { nearestShare, squaredToSegment } from './segment.js';

export function pointCount(line: Polyline): number {
  return line.length >> 1;
}

export function pointAt(line: Polyline, index: number): Point {
  return { x: line[2 * index], y: line[2 * index + 1] };
}

export function firstPoint(line: Polyline): Point {
  return pointAt(line, 0);
}

export function lastPoint(line: Polyline): Point {
  return pointAt(line, pointCount(line) - 1);
}

/** Does the line come back to where it starts, to within `withinMm`, by three steps at least? */
export function isClosed(line: Polyline, withinMm = 0): boolean {
  const n = line.length;
  return n >= 8 && distanceBetween(line[n - 2], line[n - 1], line[0], line[1]) <= withinMm;
}

/** Does the line come within `withinMm` of the place? */
export function passesBy(line: Polyline, x: number, y: number, withinMm: number): boolean {
  const squared = withinMm * withinMm;
  for (let i = 2; i < line.length; i += 2)
    if (squaredToSegment(x, y, line[i - 2], line[i - 1], line[i], line[i + 1]) <= squared) return true;
  return false;
}

export function polylineOf(points: Iterable<Point>): Polyline {
  const flat: number[] = [];
  for (const { x, y } of points) flat.push(x, y);
  return Float64Array.from(flat);
}

export function* pointsOf(line: Polyline): Generator<Point> {
  for (let i = 0; i < line.length; i += 2) yield { x: line[i], y: line[i + 1] };
}

export function lengthOf(line: Polyline): number {
  let sum = 0;
  for (let i = 2; i < line.length; i += 2) sum += stepTo(line, i);
  return sum;
}

/** Of several lines together. */
export function totalLength(lines: Iterable<Polyline>): number {
  let sum = 0;
  for (const line of lines) sum += lengthOf(line);
  return sum;
}

/** For each point the length walked from the first point to it; as many numbers as points. */
export function runningLengths(line: Polyline): Float64Array {
  const run = new Float64Array(pointCount(line));
  for (let i = 1; i < run.length; i++) run[i] = run[i - 1] + stepTo(line, 2 * i);
  return run;
}

/** Length of the step from the point before to the one at `line[i]`. */
export function stepTo(line: Polyline, i: number): number {
  const dx = line[i] - line[i - 2];
  const dy = line[i + 1] - line[i - 1];
  return Math.sqrt(dx * dx + dy * dy);
}

/** The place `alongMm` from the first point, clamped to the line's ends. `run` is its `runningLengths`. */
export function placeAlong(line: Polyline, run: Float64Array, alongMm: number): Point {
  let low = 0;
  let high = run.length - 1;
  if (!(alongMm > 0)) return firstPoint(line);
  if (alongMm >= run[high]) return lastPoint(line);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (run[middle] <= alongMm) low = middle;
    else high = middle;
  }
  const share = (alongMm - run[low]) / (run[high] - run[low]);
  const a = pointAt(line, low);
  const b = pointAt(line, high);
  return { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) };
}

/** How far along the line the place nearest to `at` lies; the first of several. `run` is its `runningLengths`. */
export function nearestAlong(line: Polyline, run: Float64Array, at: Point): number {
  let [nearest, least] = [0, Infinity];
  for (let i = 0; i + 1 < run.length; i++) {
    const [ax, ay, bx, by] = [line[2 * i], line[2 * i + 1], line[2 * i + 2], line[2 * i + 3]];
    const share = nearestShare(at.x, at.y, ax, ay, bx, by);
    const apart = Math.hypot(at.x - ax - share * (bx - ax), at.y - ay - share * (by - ay));
    if (apart < least) [nearest, least] = [run[i] + share * (run[i + 1] - run[i]), apart];
  }
  return nearest;
}

/** The stretch from `fromMm` to `toMm` along the line, clamped to its ends. `run` is its `runningLengths`. */
export function stretchOf(line: Polyline, run: Float64Array, fromMm: number, toMm: number): Polyline {
  const first = placeAlong(line, run, fromMm);
  const last = placeAlong(line, run, toMm);
  const flat = [first.x, first.y];
  for (let i = firstBeyond(run, fromMm); i < run.length && run[i] < toMm; i++)
    flat.push(line[2 * i], line[2 * i + 1]);
  flat.push(last.x, last.y);
  return Float64Array.from(flat);
}

/** The first point that lies farther along than `alongMm`; as many as there are where none does. */
function firstBeyond(run: Float64Array, alongMm: number): number {
  let low = 0;
  let high = run.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (run[middle] > alongMm) high = middle;
    else low = middle + 1;
  }
  return low;
}

export function boundsOf(lines: Iterable<Polyline>): Box {
  const box = emptyBox();
  for (const line of lines) for (let i = 0; i < line.length; i += 2) extend(box, line[i], line[i + 1]);
  return box;
}

/** The area a closed line runs round; negative where it runs from y towards x. */
export function signedArea(line: Polyline): number {
  let twice = 0;
  for (let i = 2; i < line.length; i += 2) twice += line[i - 2] * line[i + 1] - line[i] * line[i - 1];
  return twice / 2;
}

export function reversed(line: Polyline): Polyline {
  const out = new Float64Array(line.length);
  for (let i = 0, j = line.length - 2; j >= 0; i += 2, j -= 2) {
    out[i] = line[j];
    out[i + 1] = line[j + 1];
  }
  return out;
}

export function moved(line: Polyline, dx: number, dy: number): Polyline {
  const out = new Float64Array(line.length);
  for (let i = 0; i < line.length; i += 2) {
    out[i] = line[i] + dx;
    out[i + 1] = line[i + 1] + dy;
  }
  return out;
}

/** All lines moved, as parts of one array: a million short arrays would be a heap that takes seconds to keep clean. */
export function movedTogether(lines: readonly Polyline[], dx: number, dy: number): Polyline[] {
  const all = new Float64Array(lines.reduce((sum, line) => sum + line.length, 0));
  let n = 0;
  return lines.map((line) => {
    const from = n;
    for (let i = 0; i < line.length; i += 2) {
      all[n++] = line[i] + dx;
      all[n++] = line[i + 1] + dy;
    }
    return all.subarray(from, n);
  });
}

export function scaled(line: Polyline, factor: number): Polyline {
  return line.map((value) => value * factor);
}

/** One line after the other; a point that repeats the one before it to within `sameMm` is left out at the seams. */
export function chained(lines: readonly Polyline[], sameMm = 0): Polyline {
  const out = new Float64Array(lines.reduce((sum, line) => sum + line.length, 0));
  let n = 0;
  for (const line of lines) {
    const repeats =
      n > 0 && line.length > 0 && distanceBetween(line[0], line[1], out[n - 2], out[n - 1]) <= sameMm;
    const part = repeats ? line.subarray(2) : line;
    out.set(part, n);
    n += part.length;
  }
  return out.slice(0, n);
}
