/**
 * A flattened line given back its arcs: with a point more in the middle of each segment that may stand for an arc: the arc that turns as the
 * segment's ends do leaves it by no more than flattening may. Where an arc meets a corner or a straight line, its
 * other end tells how it turns.
 */
import type { Polyline } from '../../../shared/plane.js';

/** Turns up to this may be those of a flattened curve, radians. */
const mostTurnRad = Math.PI / 3;

/** The line with those points. `flattenMm` is how far it may lie off the true curve. */
export function roundedOut(line: Polyline, flattenMm: number): Polyline {
  const n = line.length;
  const out = new Float64Array(2 * n);
  out[0] = line[0];
  out[1] = line[1];
  let filled = 2;
  let before = 0;
  for (let i = 0; i + 3 < n; i += 2) {
    const ax = line[i];
    const ay = line[i + 1];
    const bx = line[i + 2];
    const by = line[i + 3];
    const ux = bx - ax;
    const uy = by - ay;
    const vx = i + 5 < n ? line[i + 4] - bx : 0;
    const vy = i + 5 < n ? line[i + 5] - by : 0;
    const after = Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
    const from = isOfCurve(before) ? before : after;
    const to = isOfCurve(after) ? after : before;
    // Half the chord's length times this is the arc's height: its tangents turn by half of each end's turn.
    const bulge = Math.tan((from + to) / 8);
    const isArc = from * to > 0 && isOfCurve(from) && isOfCurve(to);
    if (isArc && (Math.sqrt(ux * ux + uy * uy) / 2) * Math.abs(bulge) <= 1.5 * flattenMm) {
      out[filled++] = (ax + bx + bulge * uy) / 2;
      out[filled++] = (ay + by - bulge * ux) / 2;
    }
    out[filled++] = bx;
    out[filled++] = by;
    before = after;
  }
  return out.subarray(0, filled);
}

function isOfCurve(turnRad: number): boolean {
  return turnRad !== 0 && Math.abs(turnRad) <= mostTurnRad;
}
