/**
 * Where the pen stopped. A round end is the half circle round the last place of the pen; a flat one lies where the
 * line ends. They are told apart by how far the border falls back to both sides of the place that lies farthest on.
 */
import type { Polyline } from '../../shared/plane.js';
import { lengthOf, pointCount } from '../geometry/polyline.js';
import { type Heading, headingOf } from './arm.js';
import type { Border } from './border.js';
import { borderFrom } from './corner.js';

/** The last stretch that is laid anew, in radii. */
const refitRadii = 0.6;
/** Off the middle of the end, by so much of the radius, the border of a round end has fallen back by a quarter of it. */
const shoulder = [0.5, 0.85] as const;
/** Less than this, in radii, and the end is flat. */
const flatRadii = 0.1;
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
  let ahead = Number.NEGATIVE_INFINITY;
  const [middle, shoulders] = [new Mean(), new Mean()];
  for (const point of points) {
    const [x, y] = [border.points[2 * point] - at.x, border.points[2 * point + 1] - at.y];
    const along = x * dx + y * dy;
    const aside = Math.abs(y * dx - x * dy) / radius;
    if (aside <= aheadRadii) {
      ahead = Math.max(ahead, along);
      middle.add(along);
    } else if (aside >= shoulder[0] && aside <= shoulder[1]) shoulders.add(along);
  }
  const isFlat = middle.value - shoulders.value < flatRadii * radius;
  const reach = isFlat ? ahead : ahead - radius;
  if (!(reach > 0) || reach > 4 * radius) return line;
  return Float64Array.from([...cut, ...onward({ at, dx, dy, bend }, reach, radius)]);
}

class Mean {
  private sum = 0;
  private count = 0;

  add(value: number): void {
    this.sum += value;
    this.count++;
  }

  /** NaN of nothing. */
  get value(): number {
    return this.sum / this.count;
  }
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
