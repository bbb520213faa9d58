/**
 * One cubic Bézier curve to a run of points, its ends and the directions there given: least squares over the lengths of
 * the two handles (`handles.ts`), the parameters of the points improved by Newton's method (Philip J. Schneider, "An
 * Algorithm for Automatically Fitting Digitized Curves", Graphics Gems, 1990). After the first round only misses across the
 * curve count, which turns his slow steps into those of Gauss and Newton. Held not to the points alone but to the line
 * through them, both ways. O(points) a round.
 */
import type { Polyline } from '../../shared/plane.js';
import { squaredToSegment } from '../geometry/segment.js';
import type { Cubic, Ends } from './cubic.js';
import { handlesOf, unknownsOf } from './handles.js';

/** A line with how far along it each of its points lies, mm. */
export interface Measured {
  readonly line: Polyline;
  readonly run: Float64Array;
}

/** The curve may leave the line by this, mm: 0.02 mm is promised. */
const lineMm = 0.018;
const rounds = 10;

/** The curve along the points `from` to `to`, none of them farther off than `pointMm`; null where none is near enough. */
export function fitCubic(
  { line, run }: Measured,
  from: number,
  to: number,
  ends: Ends,
  pointMm: number,
): Cubic | null {
  const share = sharesOf(run, from, to);
  const unknown = unknownsOf(ends);
  let curve: Cubic | null = null;
  let before = Infinity;
  for (let left = rounds; left > 0; left--) {
    curve = handlesOf(line, from, to, share, unknown, curve);
    const off = improve(curve, line, from, share);
    if (off <= pointMm && keepsToLine(curve, line, from, to, share)) return curve;
    // Each round gains less than the one before: what is too far off for as many more like this will not get there.
    if (left <= rounds - 3 && off > pointMm && off - (left - 1) * (before - off) > pointMm) return null;
    before = off;
  }
  return null;
}

/** How far along each point lies, from 0 to 1, by the length of the legs. */
function sharesOf(run: Float64Array, from: number, to: number): Float64Array {
  const share = new Float64Array(to - from + 1);
  const all = run[to] - run[from];
  for (let i = 1; i < share.length; i++) share[i] = (run[from + i] - run[from]) / all;
  return share;
}

/**
 * How far the farthest point lies from its place on the curve, mm; then the places take Newton's step towards the feet of
 * the points. The order of the points is kept.
 */
function improve(curve: Cubic, line: Polyline, from: number, share: Float64Array): number {
  const [ax, ay, bx, by, cx, cy, dx, dy] = curve;
  let most = 0;
  for (let i = 1; i + 1 < share.length; i++) {
    const t = share[i];
    const s = 1 - t;
    const a = s * s * s;
    const b = 3 * s * s * t;
    const c = 3 * s * t * t;
    const d = t * t * t;
    const ox = a * ax + b * bx + c * cx + d * dx - line[2 * (from + i)];
    const oy = a * ay + b * by + c * cy + d * dy - line[2 * (from + i) + 1];
    const off = ox * ox + oy * oy;
    if (off > most) most = off;
    const x1 = 3 * (s * s * (bx - ax) + 2 * s * t * (cx - bx) + t * t * (dx - cx));
    const y1 = 3 * (s * s * (by - ay) + 2 * s * t * (cy - by) + t * t * (dy - cy));
    const x2 = 6 * (s * (cx - 2 * bx + ax) + t * (dx - 2 * cx + bx));
    const y2 = 6 * (s * (cy - 2 * by + ay) + t * (dy - 2 * cy + by));
    const slope = x1 * x1 + y1 * y1 + ox * x2 + oy * y2;
    if (slope > 0) {
      const better = t - (ox * x1 + oy * y1) / slope;
      share[i] = Math.min(Math.max(better, share[i - 1]), share[i + 1]);
    }
  }
  return Math.sqrt(most);
}

/** Places between those of the points, each against the legs around it. */
function keepsToLine(curve: Cubic, line: Polyline, from: number, to: number, share: Float64Array): boolean {
  const [ax, ay, bx, by, cx, cy, dx, dy] = curve;
  for (let i = 0; i + 1 < share.length; i++) {
    for (let part = 0.25; part < 1; part += 0.25) {
      const t = share[i] + part * (share[i + 1] - share[i]);
      const s = 1 - t;
      const a = s * s * s;
      const b = 3 * s * s * t;
      const c = 3 * s * t * t;
      const d = t * t * t;
      const x = a * ax + b * bx + c * cx + d * dx;
      const y = a * ay + b * by + c * cy + d * dy;
      let least = Infinity;
      for (let j = Math.max(from, from + i - 1); j <= Math.min(to - 1, from + i + 1); j++)
        least = Math.min(
          least,
          squaredToSegment(x, y, line[2 * j], line[2 * j + 1], line[2 * j + 2], line[2 * j + 3]),
        );
      if (least > lineMm * lineMm) return false;
    }
  }
  return true;
}
