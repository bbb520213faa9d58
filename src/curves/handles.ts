/**
 * The two handles of a cubic whose ends are given, by least squares: each point at its share of the curve, a miss across
 * the curve counted in full and one along it little, since there the point finds its place by itself. Where a direction
 * is given the handle's length alone is unknown, else both its coordinates. One pass over the points gathers the sums of
 * the two free handles; directions that are given are put into the sums.
 */
import type { Polyline } from '../../shared/plane.js';
import type { Cubic, Direction, Ends } from './cubic.js';

/** What a miss along the curve weighs, beside one across it. */
const along = 0.002;

/** What of the handles is unknown, in directions that they are sums of. */
export interface Unknowns extends Ends {
  readonly axes: readonly Axis[];
}

export function unknownsOf({ leaving, arriving }: Ends): Unknowns {
  const axes = [...axesOf(leaving, 0), ...axesOf(arriving && [-arriving[0], -arriving[1]], 2)];
  return { leaving, arriving, axes };
}

/** `before` is the curve of the round before, whose directions tell along from across; null in the first. */
export function handlesOf(
  line: Polyline,
  from: number,
  to: number,
  share: Float64Array,
  { axes, leaving, arriving }: Unknowns,
  before: Cubic | null,
): Cubic {
  const [ax, ay, dx, dy] = [line[2 * from], line[2 * from + 1], line[2 * to], line[2 * to + 1]];
  const sums = sumsOf(line, from, share, before ?? [ax, ay, ax, ay, dx, dy, dx, dy], before ? 1 - along : 0);
  const n = axes.length;
  for (let j = 0; j < n; j++) {
    for (let k = 0; k < n; k++) system[5 * j + k] = k < j ? system[5 * k + j] : form(sums, axes[j], axes[k]);
    system[5 * j + 4] = aimed(sums, axes[j]);
  }
  solve(n);
  let [ux, uy, vx, vy] = [0, 0, 0, 0];
  for (let j = 0; j < n; j++) {
    const found = system[5 * j + 4];
    ux += found * axes[j][0];
    uy += found * axes[j][1];
    vx += found * axes[j][2];
    vy += found * axes[j][3];
  }
  const [cx, cy] = [dx - ax, dy - ay];
  const leastMm = 1e-3 * Math.hypot(cx, cy);
  const isGood = reaches(ux, uy, leaving, leastMm) && reaches(-vx, -vy, arriving, leastMm);
  if (!isGood) {
    // Schneider's way out where the system says nothing: handles of a third of the chord.
    const third = Math.hypot(cx, cy) / 3;
    [ux, uy] = leaving ? [third * leaving[0], third * leaving[1]] : [cx / 3, cy / 3];
    [vx, vy] = arriving ? [-third * arriving[0], -third * arriving[1]] : [-cx / 3, -cy / 3];
  }
  return [ax, ay, ax + ux, ay + uy, dx + vx, dy + vy, dx, dy];
}

/** Whether a handle points where it should and is no mere speck. */
function reaches(x: number, y: number, given: Direction | null, leastMm: number): boolean {
  return Number.isFinite(x + y) && (given ? x * given[0] + y * given[1] : Math.hypot(x, y)) > leastMm;
}

/** What is unknown of one handle, as directions of both together: x and y of the first, x and y of the second. */
export type Axis = readonly [number, number, number, number];

function axesOf(direction: Direction | null, at: 0 | 2): Axis[] {
  const given = direction
    ? [direction]
    : ([
        [1, 0],
        [0, 1],
      ] as const);
  return given.map(([x, y]) => (at === 0 ? [x, y, 0, 0] : [0, 0, x, y]));
}

/** The quadratic form of the misses: 2 x 2 blocks of first with first, first with second, second with second; and its aim. */
type Sums = readonly number[];

function sumsOf(line: Polyline, from: number, share: Float64Array, curve: Cubic, less: number): Sums {
  const [ax, ay, bx, by, cx, cy, dx, dy] = curve;
  let s1xx = 0;
  let s1xy = 0;
  let s1yy = 0;
  let s2xx = 0;
  let s2xy = 0;
  let s2yy = 0;
  let s3xx = 0;
  let s3xy = 0;
  let s3yy = 0;
  let r1x = 0;
  let r1y = 0;
  let r2x = 0;
  let r2y = 0;
  const n = share.length - 1;
  for (let i = 1; i < n; i++) {
    const t = share[i];
    const s = 1 - t;
    const b1 = 3 * s * s * t;
    const b2 = 3 * s * t * t;
    const start = s * s * s + b1;
    const end = b2 + t * t * t;
    const px = line[2 * (from + i)] - start * ax - end * dx;
    const py = line[2 * (from + i) + 1] - start * ay - end * dy;
    const tx = s * s * (bx - ax) + 2 * s * t * (cx - bx) + t * t * (dx - cx);
    const ty = s * s * (by - ay) + 2 * s * t * (cy - by) + t * t * (dy - cy);
    // The identity, less the part along the curve.
    const share2 = less / (tx * tx + ty * ty || 1);
    const wxx = 1 - share2 * tx * tx;
    const wxy = -share2 * tx * ty;
    const wyy = 1 - share2 * ty * ty;
    const wpx = wxx * px + wxy * py;
    const wpy = wxy * px + wyy * py;
    const b11 = b1 * b1;
    const b12 = b1 * b2;
    const b22 = b2 * b2;
    s1xx += b11 * wxx;
    s1xy += b11 * wxy;
    s1yy += b11 * wyy;
    s2xx += b12 * wxx;
    s2xy += b12 * wxy;
    s2yy += b12 * wyy;
    s3xx += b22 * wxx;
    s3xy += b22 * wxy;
    s3yy += b22 * wyy;
    r1x += b1 * wpx;
    r1y += b1 * wpy;
    r2x += b2 * wpx;
    r2y += b2 * wpy;
  }
  return [s1xx, s1xy, s1yy, s2xx, s2xy, s2yy, s3xx, s3xy, s3yy, r1x, r1y, r2x, r2y];
}

function form(s: Sums, p: Axis, q: Axis): number {
  const x = s[0] * q[0] + s[1] * q[1] + s[3] * q[2] + s[4] * q[3];
  const y = s[1] * q[0] + s[2] * q[1] + s[4] * q[2] + s[5] * q[3];
  const u = s[3] * q[0] + s[4] * q[1] + s[6] * q[2] + s[7] * q[3];
  const v = s[4] * q[0] + s[5] * q[1] + s[7] * q[2] + s[8] * q[3];
  return p[0] * x + p[1] * y + p[2] * u + p[3] * v;
}

function aimed(s: Sums, [x, y, u, v]: Axis): number {
  return x * s[9] + y * s[10] + u * s[11] + v * s[12];
}

/** Rows of four coefficients and what they come to, used again in every round. */
const system = new Float64Array(20);

/**
 * Gauss's elimination with pivots, of `n` unknowns, at most four: what is found stands at the end of the rows, not finite
 * where it is not determined.
 */
function solve(n: number): void {
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let row = k + 1; row < n; row++)
      if (Math.abs(system[5 * row + k]) > Math.abs(system[5 * pivot + k])) pivot = row;
    if (pivot !== k) {
      for (let column = 0; column < 5; column++) {
        const value = system[5 * k + column];
        system[5 * k + column] = system[5 * pivot + column];
        system[5 * pivot + column] = value;
      }
    }
    for (let row = 0; row < n; row++) {
      if (row === k) continue;
      const times = system[5 * row + k] / system[5 * k + k];
      for (let column = k; column < 5; column++) system[5 * row + column] -= times * system[5 * k + column];
    }
  }
  for (let k = 0; k < n; k++) system[5 * k + 4] /= system[5 * k + k];
}
