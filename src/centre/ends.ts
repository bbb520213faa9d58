/**
 * Where the pen stopped. A round end is the half circle round the last place of the pen; a flat one lies where the
 * line ends. Both are told apart by how far the border of the end lies from the last place of the axis: half a pen all
 * round, or more in two corners.
 */
import type { Polyline } from '../../shared/plane.js';
import { lengthOf, pointCount } from '../geometry/polyline.js';
import { type Heading, headingOf } from './arm.js';
import type { Border } from './border.js';
import { borderFrom } from './corner.js';

/** The last stretch that is laid anew, in radii. */
const refitRadii = 0.6;
/** How much farther the corners of a flat end lie; a square one has √2. */
const flatTimes = 1.2;
/** It bends on as the line does, up to this, in radii. */
const tightestRadii = 4;
const arcSteps = 4;
/** How wide what lies straight ahead is, in radii. */
const aheadRadii = 0.3;

/**
 * The line with its last stretch led on to where the pen stopped. `touches` are points of the border that the last
 * circle touches on either side.
 */
export function endedLine(
  line: Polyline,
  border: Border,
  touches: readonly [number, number],
  radius: number,
): Polyline {
  const points = borderFrom(border, ...touches);
  if (!points || points.length > 4000) return line;
  const cut = withoutEnd(line, refitRadii * radius);
  const { at, dx, dy, bend } = headingOf(cut, Math.min(3 * radius, lengthOf(cut)));
  let farthest = 0;
  let ahead = Number.NEGATIVE_INFINITY;
  const count = pointCount(line);
  const [lastX, lastY] = [line[2 * count - 2], line[2 * count - 1]];
  for (const point of points) {
    const x = border.points[2 * point];
    const y = border.points[2 * point + 1];
    farthest = Math.max(farthest, Math.hypot(x - lastX, y - lastY));
    const along = (x - at.x) * dx + (y - at.y) * dy;
    const aside = (y - at.y) * dx - (x - at.x) * dy;
    if (Math.abs(aside) <= aheadRadii * radius) ahead = Math.max(ahead, along);
  }
  const isFlat = farthest > flatTimes * radius;
  const reach = isFlat ? ahead : ahead - radius;
  if (!(reach > 0) || reach > 4 * radius) return line;
  return Float64Array.from([...cut, ...onward({ at, dx, dy, bend }, reach, radius)]);
}

/** Points of the arc that leads on from a heading, `reach` ahead. */
function onward({ at, dx, dy, bend }: Heading, reach: number, radius: number): number[] {
  const most = 1 / (tightestRadii * radius);
  const turn = Math.max(-most, Math.min(bend, most)) / 2;
  const points: number[] = [];
  for (let k = 1; k <= arcSteps; k++) {
    const s = (reach * k) / arcSteps;
    points.push(at.x + s * dx - turn * s * s * dy, at.y + s * dy + turn * s * s * dx);
  }
  return points;
}

function withoutEnd(line: Polyline, length: number): Polyline {
  let left = length;
  let count = pointCount(line);
  while (count > 3 && left > 0) {
    left -= Math.hypot(line[2 * count - 2] - line[2 * count - 4], line[2 * count - 1] - line[2 * count - 3]);
    count--;
  }
  return line.slice(0, 2 * count);
}
