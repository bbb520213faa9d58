/**
 * Strokes drawn twice: the same points to 0.001 mm, in either direction. A stroke is filed under two numbers that
 * do not depend on its direction and that equal strokes share to about the tolerance, so that only strokes filed
 * together are compared point by point.
 */

import type { Polyline } from '../../../shared/plane.js';
import type { Duplicate } from '../../../shared/study.js';
import { distanceBetween } from '../../geometry/point.js';
import { placeAlong, pointCount, runningLengths } from '../../geometry/polyline.js';
import { PointGrid } from '../../near/point-grid.js';

/** The precision with which files carry coordinates, mm. */
const sameMm = 0.001;

/** Every stroke that repeats an earlier one, with the place halfway along it. */
export function duplicatesOf(strokes: readonly Polyline[]): Duplicate[] {
  const found: Duplicate[] = [];
  // Each of the two numbers below moves by at most twice the tolerance.
  const files = new Map<number, { grid: PointGrid; strokes: number[] }>();
  strokes.forEach((line, stroke) => {
    let file = files.get(line.length);
    if (!file) {
      file = { grid: new PointGrid(6 * sameMm), strokes: [] };
      files.set(line.length, file);
    }
    const [u, v] = signature(line);
    let repeats = false;
    const { strokes: earlier } = file;
    file.grid.visitNear(u, v, (id) => {
      repeats ||= isSame(strokes[earlier[id]], line);
    });
    if (repeats) {
      const run = runningLengths(line);
      const lengthMm = run[run.length - 1];
      found.push({ at: placeAlong(line, run, lengthMm / 2), lengthMm, stroke });
    } else {
      file.grid.add(u, v);
      earlier.push(stroke);
    }
  });
  return found;
}

/** The mean point, moved by the mean distance from it, so that concentric rings differ. */
function signature(line: Polyline): [number, number] {
  const n = pointCount(line);
  let x = 0;
  let y = 0;
  for (let i = 0; i < line.length; i += 2) {
    x += line[i];
    y += line[i + 1];
  }
  x /= n;
  y /= n;
  let spread = 0;
  for (let i = 0; i < line.length; i += 2) spread += distanceBetween(line[i], line[i + 1], x, y);
  return [x + spread / n, y];
}

function isSame(a: Polyline, b: Polyline): boolean {
  const last = a.length - 2;
  return everyPoint(a, (i) => near(a, i, b, i)) || everyPoint(a, (i) => near(a, i, b, last - i));
}

function everyPoint(line: Polyline, test: (i: number) => boolean): boolean {
  for (let i = 0; i < line.length; i += 2) if (!test(i)) return false;
  return true;
}

function near(a: Polyline, i: number, b: Polyline, j: number): boolean {
  return Math.abs(a[i] - b[j]) <= sameMm && Math.abs(a[i + 1] - b[j + 1]) <= sameMm;
}
