/**
 * Strokes drawn twice: the same line to 0.001 mm, in either direction, closed ones begun anywhere, whatever points on
 * straight stretches are drawn besides. A stroke is filed under two numbers that depend on none of this and that equal
 * strokes share to about the tolerance, so that only strokes filed together are compared, by the points they need.
 */

import type { Polyline } from '../../../shared/plane.js';
import type { Duplicate } from '../../../shared/study.js';
import { chained, isClosed, placeAlong, runningLengths, stepTo } from '../../geometry/polyline.js';
import { neededOfWhole } from '../../geometry/thinning.js';
import { PointGrid } from '../../near/point-grid.js';

/** The precision with which files carry coordinates, mm. */
const sameMm = 0.001;

/** Every stroke that repeats an earlier one, with the place halfway along it. */
export function duplicatesOf(strokes: readonly Polyline[]): Duplicate[] {
  const found: Duplicate[] = [];
  // Each of the two numbers below moves by at most three times the tolerance.
  const grid = new PointGrid(6 * sameMm);
  const earlier: Polyline[] = [];
  strokes.forEach((line, stroke) => {
    const [u, v] = signature(line);
    let repeats = false;
    grid.visitNear(u, v, (id) => {
      repeats ||= isSame(earlier[id], line);
    });
    if (repeats) {
      const run = runningLengths(line);
      const lengthMm = run[run.length - 1];
      found.push({ at: placeAlong(line, run, lengthMm / 2), lengthMm, stroke });
    } else {
      grid.add(u, v);
      earlier.push(line);
    }
  });
  return found;
}

/** The mean place of the line, moved by the size of its box, so that concentric rings differ. */
function signature(line: Polyline): [number, number] {
  let minX = line[0];
  let maxX = minX;
  let minY = line[1];
  let maxY = minY;
  let x = 0;
  let y = 0;
  let walked = 0;
  for (let i = 2; i < line.length; i += 2) {
    const step = stepTo(line, i);
    x += (step * (line[i - 2] + line[i])) / 2;
    y += (step * (line[i - 1] + line[i + 1])) / 2;
    walked += step;
    if (line[i] < minX) minX = line[i];
    if (line[i] > maxX) maxX = line[i];
    if (line[i + 1] < minY) minY = line[i + 1];
    if (line[i + 1] > maxY) maxY = line[i + 1];
  }
  return walked > 0 ? [x / walked + maxX - minX, y / walked + maxY - minY] : [minX, minY];
}

function isSame(a: Polyline, b: Polyline): boolean {
  return samePoints(a, b) || samePoints(corners(a), corners(b));
}

function samePoints(a: Polyline, b: Polyline): boolean {
  if (a.length !== b.length) return false;
  const last = a.length - 2;
  return everyPoint(a, (i) => near(a, i, b, i)) || everyPoint(a, (i) => near(a, i, b, last - i));
}

/** The points that the line needs; of a closed one from the outermost in a direction that is hardly that of a side. */
function corners(line: Polyline): Polyline {
  if (!isClosed(line)) return needed(line);
  let start = 0;
  const out = (i: number) => line[i] + Math.SQRT1_2 * line[i + 1];
  for (let i = 2; i < line.length; i += 2) if (out(i) > out(start)) start = i;
  return needed(chained([line.subarray(start), line.subarray(0, start + 2)]));
}

function needed(line: Polyline): Polyline {
  const keep = neededOfWhole(line, sameMm);
  return line.filter((_, i) => keep[i >> 1] === 1);
}

function everyPoint(line: Polyline, test: (i: number) => boolean): boolean {
  for (let i = 0; i < line.length; i += 2) if (!test(i)) return false;
  return true;
}

function near(a: Polyline, i: number, b: Polyline, j: number): boolean {
  return Math.abs(a[i] - b[j]) <= sameMm && Math.abs(a[i + 1] - b[j + 1]) <= sameMm;
}
