/** A line slanted: each place moved up or down in proportion to how far across it lies. */
import type { Point, Polyline } from '../../shared/plane.js';
import { firstPoint, lastPoint, pointsOf, polylineOf } from '../geometry/polyline.js';

/**
 * The line sheared along y, so that its two ends, which are not one above the other, come to one height half-way between them. A shear
 * keeps what is straight straight and what crosses crossing, so the line is as it was, only tilted.
 */
export function slanted(line: Polyline): Polyline {
  return polylineOf(Array.from(pointsOf(line), slantOf(line)));
}

/** What the slant of `line` does to a place. */
export function slantOf(line: Polyline): (at: Point) => Point {
  const [from, to] = [firstPoint(line), lastPoint(line)];
  const perMm = (to.y - from.y) / (to.x - from.x);
  const middleX = (from.x + to.x) / 2;
  return ({ x, y }) => ({ x, y: y - perMm * (x - middleX) });
}

/** The tilt of `slanted`, degrees. */
export function slantDeg(line: Polyline): number {
  const [from, to] = [firstPoint(line), lastPoint(line)];
  return (Math.atan2(Math.abs(to.y - from.y), Math.abs(to.x - from.x)) * 180) / Math.PI;
}
