/**
 * One cubic Bézier curve to a run of points, its ends and the directions there given: least squares over the lengths of
 * the two handles, the parameters of the points improved by Newton's method (Philip J. Schneider, "An Algorithm for
 * Automatically Fitting Digitized Curves", Graphics Gems, 1990). After the first round only misses across the curve count,
 * which turns his slow steps into those of Gauss and Newton. Held not to the points alone but to the line through
 * them, both ways. O(points) a round.
 */
import type { Polyline } from '../../shared/plane.js';
import { pointToSegment } from '../geometry/segment.js';

/** x and y of start, handle, handle, end. */
export type Cubic = readonly [number, number, number, number, number, number, number, number];
export type Direction = readonly [x: number, y: number];

/** The curve may leave the line by this, mm: 0.02 mm is promised. */
const lineMm = 0.018;
const rounds = 10;
/** What a miss along the curve weighs, beside one across it. */
const along = 0.002;

/** How a curve leaves its start and arrives at its end; what is null is free. */
export interface Ends {
  readonly leaving: Direction | null;
  readonly arriving: Direction | null;
}

/** The curve along the points `from` to `to`, none of them farther off than `pointMm`; null where none is near enough. */
export function fitCubic(
  line: Polyline,
  from: number,
  to: number,
  ends: Ends,
  pointMm: number,
): Cubic | null {
  const share = sharesOf(line, from, to);
  let curve: Cubic | null = null;
  for (let left = rounds; left > 0; left--) {
    curve = leastSquares(line, from, to, share, ends, curve);
    const off = farthestPoint(curve, line, from, share);
    if (off <= pointMm && keepsToLine(curve, line, from, to, share)) return curve;
    // The steps are quadratic near the end: what is far off after some will not get there.
    if (left === rounds - 4 && off > 20 * pointMm) return null;
    if (left === rounds - 7 && off > 3 * pointMm) return null;
    improve(curve, line, from, share);
  }
  return null;
}

/** From where a curve starts towards its first handle; from its second handle towards its end. */
export function leavingOf([ax, ay, bx, by]: Cubic): Direction {
  const length = Math.hypot(bx - ax, by - ay);
  return [(bx - ax) / length, (by - ay) / length];
}

export function arrivingOf([, , , , cx, cy, dx, dy]: Cubic): Direction {
  const length = Math.hypot(dx - cx, dy - cy);
  return [(dx - cx) / length, (dy - cy) / length];
}

/** How far along each point lies, from 0 to 1, by the length of the legs. */
function sharesOf(line: Polyline, from: number, to: number): Float64Array {
  const share = new Float64Array(to - from + 1);
  for (let i = 1; i < share.length; i++) {
    const j = 2 * (from + i);
    share[i] = share[i - 1] + Math.hypot(line[j] - line[j - 2], line[j + 1] - line[j - 1]);
  }
  const all = share[share.length - 1];
  return share.map((length) => length / all);
}

/** Each handle is what is unknown times its directions: one where the direction is given, else both axes. */
function leastSquares(
  line: Polyline,
  from: number,
  to: number,
  share: Float64Array,
  { leaving, arriving }: Ends,
  before: Cubic | null,
): Cubic {
  const [ax, ay, dx, dy] = [line[2 * from], line[2 * from + 1], line[2 * to], line[2 * to + 1]];
  const axes = [...axesOf(leaving), ...axesOf(arriving && [-arriving[0], -arriving[1]])];
  const first = leaving ? 1 : 2;
  const n = axes.length;
  const axisX = axes.map(([x]) => x);
  const axisY = axes.map(([, y]) => y);
  const system = Array.from({ length: n }, () => new Float64Array(n + 1));
  for (let i = 1; i + 1 < share.length; i++) {
    const t = share[i];
    const s = 1 - t;
    const [b1, b2] = [3 * s * s * t, 3 * s * t * t];
    const start = s * s * s + b1;
    const end = b2 + t * t * t;
    const px = line[2 * (from + i)] - start * ax - end * dx;
    const py = line[2 * (from + i) + 1] - start * ay - end * dy;
    // Across the curve a miss counts in full, along it little: there the point finds its place by itself.
    let [tx, ty] = [0, 0];
    if (before) {
      tx = s * s * (before[2] - ax) + 2 * s * t * (before[4] - before[2]) + t * t * (dx - before[4]);
      ty = s * s * (before[3] - ay) + 2 * s * t * (before[5] - before[3]) + t * t * (dy - before[5]);
      const length = Math.sqrt(tx * tx + ty * ty) || 1;
      tx /= length;
      ty /= length;
    }
    const less = before ? 1 - along : 0;
    const pt = less * (px * tx + py * ty);
    for (let j = 0; j < n; j++) {
      const weight = j < first ? b1 : b2;
      const jt = less * (axisX[j] * tx + axisY[j] * ty);
      const row = system[j];
      for (let k = j; k < n; k++) {
        const both = axisX[j] * axisX[k] + axisY[j] * axisY[k] - jt * (axisX[k] * tx + axisY[k] * ty);
        row[k] += weight * (k < first ? b1 : b2) * both;
      }
      row[n] += weight * (px * axisX[j] + py * axisY[j] - pt * (axisX[j] * tx + axisY[j] * ty));
    }
  }
  for (let j = 1; j < n; j++) for (let k = 0; k < j; k++) system[j][k] = system[k][j];
  const found = solved(system);
  const handle = (from: number, count: number): [number, number] => {
    let [x, y] = [0, 0];
    for (let k = from; k < from + count; k++) {
      x += found[k] * axes[k][0];
      y += found[k] * axes[k][1];
    }
    return [x, y];
  };
  let [ux, uy] = handle(0, first);
  let [vx, vy] = handle(first, n - first);
  const [cx, cy] = [dx - ax, dy - ay];
  const chord = Math.hypot(cx, cy);
  const isGood = (x: number, y: number, given: Direction | null) =>
    Number.isFinite(x + y) && (given ? x * given[0] + y * given[1] : Math.hypot(x, y)) > 1e-3 * chord;
  if (!isGood(ux, uy, leaving) || !isGood(vx, vy, arriving && [-arriving[0], -arriving[1]])) {
    // Schneider's way out where the system says nothing: handles of a third of the chord.
    const third = chord / 3;
    [ux, uy] = leaving ? [third * leaving[0], third * leaving[1]] : [cx / 3, cy / 3];
    [vx, vy] = arriving ? [-third * arriving[0], -third * arriving[1]] : [-cx / 3, -cy / 3];
  }
  return [ax, ay, ax + ux, ay + uy, dx + vx, dy + vy, dx, dy];
}

function axesOf(direction: Direction | null): readonly Direction[] {
  return direction
    ? [direction]
    : [
        [1, 0],
        [0, 1],
      ];
}

/** Gauss's elimination with pivots, of at most four unknowns; not finite where they are not determined. */
function solved(system: Float64Array[]): Float64Array {
  const n = system.length;
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let row = k + 1; row < n; row++)
      if (Math.abs(system[row][k]) > Math.abs(system[pivot][k])) pivot = row;
    [system[k], system[pivot]] = [system[pivot], system[k]];
    for (let row = k + 1; row < n; row++) {
      const times = system[row][k] / system[k][k];
      for (let column = k; column <= n; column++) system[row][column] -= times * system[k][column];
    }
  }
  const found = new Float64Array(n);
  for (let k = n - 1; k >= 0; k--) {
    let rest = system[k][n];
    for (let column = k + 1; column < n; column++) rest -= system[k][column] * found[column];
    found[k] = rest / system[k][k];
  }
  return found;
}

function placeAt([ax, ay, bx, by, cx, cy, dx, dy]: Cubic, t: number): [number, number] {
  const s = 1 - t;
  const [a, b, c, d] = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
  return [a * ax + b * bx + c * cx + d * dx, a * ay + b * by + c * cy + d * dy];
}

function farthestPoint(curve: Cubic, line: Polyline, from: number, share: Float64Array): number {
  const [ax, ay, bx, by, cx, cy, dx, dy] = curve;
  let most = 0;
  for (let i = 1; i + 1 < share.length; i++) {
    const t = share[i];
    const s = 1 - t;
    const [a, b, c, d] = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
    const x = a * ax + b * bx + c * cx + d * dx - line[2 * (from + i)];
    const y = a * ay + b * by + c * cy + d * dy - line[2 * (from + i) + 1];
    most = Math.max(most, x * x + y * y);
  }
  return Math.sqrt(most);
}

/** Places between those of the points, each against the legs around it. */
function keepsToLine(curve: Cubic, line: Polyline, from: number, to: number, share: Float64Array): boolean {
  for (let i = 0; i + 1 < share.length; i++) {
    for (const part of [0.25, 0.5, 0.75]) {
      const [x, y] = placeAt(curve, share[i] + part * (share[i + 1] - share[i]));
      let least = Infinity;
      for (let j = Math.max(from, from + i - 1); j <= Math.min(to - 1, from + i + 1); j++)
        least = Math.min(
          least,
          pointToSegment(x, y, line[2 * j], line[2 * j + 1], line[2 * j + 2], line[2 * j + 3]),
        );
      if (least > lineMm) return false;
    }
  }
  return true;
}

/** Newton's step towards the foot of each point on the curve; the order of the points is kept. */
function improve(curve: Cubic, line: Polyline, from: number, share: Float64Array): void {
  const [ax, ay, bx, by, cx, cy, dx, dy] = curve;
  for (let i = 1; i + 1 < share.length; i++) {
    const t = share[i];
    const s = 1 - t;
    const [a, b, c, d] = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
    const ox = a * ax + b * bx + c * cx + d * dx - line[2 * (from + i)];
    const oy = a * ay + b * by + c * cy + d * dy - line[2 * (from + i) + 1];
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
}
