/**
 * The direction of a line at its ends. The first segment alone will not do: it may be a hook of a thousandth of a
 * millimetre, and on a curve it lies off the tangent by half a facet's angle. So the direction is that of the
 * parabola through the end and two further points of the line; where the line has a corner there, or runs
 * straight for longer than a facet could, that of the stretch itself.
 */

import type { Polyline } from '../../../shared/plane.js';
import { distanceBetween, turnDeg } from '../../geometry/point.js';

/** Anything nearer to the end than this is taken for a slip of the pen, mm. */
const hookMm = 0.1;
/** A facet of a curve turns by less; what turns by more is a corner. At 0.01 mm a facet turns 20° on radius 0.7 mm. */
const facetDeg = 20;
/** Facets leave their curve by 0.01 mm; a stretch that would leave it by more than this is no facet but straight, mm. */
const facetSagMm = 0.02;

export interface Direction {
  readonly dx: number;
  readonly dy: number;
}

/** Unit vector along the line in its walking direction at its first point; (1, 0) where the line has no length. */
export function startDirection(line: Polyline): Direction {
  return direction(line, 0, 2) ?? rightwards;
}

/** Unit vector along the line in its walking direction at its last point; (1, 0) where the line has no length. */
export function endDirection(line: Polyline): Direction {
  const back = direction(line, line.length - 2, -2);
  return back ? { dx: -back.dx, dy: -back.dy } : rightwards;
}

const rightwards: Direction = { dx: 1, dy: 0 };

/** Seen from the point at `from`, walking by `step`; null where the line has no length. */
function direction(line: Polyline, from: number, step: number): Direction | null {
  const near = firstBeyond(line, from, from, step, hookMm);
  const ax = line[near] - line[from];
  const ay = line[near + 1] - line[from + 1];
  const a = Math.sqrt(ax * ax + ay * ay);
  if (a === 0) return null;
  const far = firstBeyond(line, near, near, step, hookMm);
  const bx = line[far] - line[near];
  const by = line[far + 1] - line[near + 1];
  const b = Math.sqrt(bx * bx + by * by);
  const turn = turnDeg(ax, ay, bx, by);
  const curvature = ((turn / 180) * Math.PI) / ((a + b) / 2);
  if (b === 0 || turn > facetDeg || (a * a * curvature) / 8 > facetSagMm) return { dx: ax / a, dy: ay / a };
  // Newton's form of the parabola through the three points, by chord length, derived at the end.
  const bend = a / (a + b);
  const dx = ax / a - bend * (bx / b - ax / a);
  const dy = ay / a - bend * (by / b - ay / a);
  const length = Math.sqrt(dx * dx + dy * dy);
  return { dx: dx / length, dy: dy / length };
}

/** The first point at least `reach` from the point at `centre`, or the last one there is. */
function firstBeyond(line: Polyline, centre: number, from: number, step: number, reach: number): number {
  let i = from;
  while (i + step >= 0 && i + step < line.length) {
    i += step;
    if (distanceBetween(line[i], line[i + 1], line[centre], line[centre + 1]) >= reach) break;
  }
  return i;
}
