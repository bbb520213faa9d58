/**
 * A flowing curve through given points, as Hobby draws it: cubics whose turning is shared out so evenly that the
 * curve looks bent from one piece of wire.
 *
 * J. D. Hobby, "Smooth, easy to compute interpolating splines", Discrete & Computational Geometry 1 (1986). The
 * directions at the knots solve a tridiagonal system (mock curvature the same on both sides of a knot); the
 * handles then follow from his velocity function. Tension is 1 throughout. Open curves only.
 */
import type { Point } from '../../shared/plane.js';
import { at, type Segment, type Stroke } from './stroke.js';

/** A point, and where the curve must run in a given direction there: degrees clockwise from rightwards. */
export type Knot = readonly [x: number, y: number, directionDeg?: number];

/** The curve through the knots in their order. */
export function through(knots: readonly Knot[]): Stroke {
  const segments: Segment[] = [];
  let first = 0;
  for (let last = 1; last < knots.length; last++) {
    if (knots[last][2] === undefined && last < knots.length - 1) continue;
    segments.push(...run(knots.slice(first, last + 1)));
    first = last;
  }
  return { from: at(knots[0][0], knots[0][1]), segments };
}

/** One run between knots of given direction (or free ends), none given in between. */
function run(knots: readonly Knot[]): Segment[] {
  const points = knots.map(([x, y]) => at(x, y));
  const n = points.length - 1;
  const chords = points.slice(1).map((p, i) => at(p.x - points[i].x, p.y - points[i].y));
  const lengths = chords.map(({ x, y }) => Math.hypot(x, y));
  const angles = chords.map(({ x, y }) => Math.atan2(y, x));
  /** Turn of the chords at knot i. */
  const psi = angles.map((angle, i) => (i === 0 ? 0 : wrapped(angle - angles[i - 1])));
  const theta = directions(lengths, psi, {
    start: knots[0][2] === undefined ? null : wrapped(radians(knots[0][2]) - angles[0]),
    end: knots[n][2] === undefined ? null : wrapped(radians(knots[n][2]) - angles[n - 1]),
  });
  return chords.map((_, i) => {
    const phi = i === n - 1 ? -theta[n] : -psi[i + 1] - theta[i + 1];
    return handles(points[i], points[i + 1], lengths[i], angles[i], theta[i], phi);
  });
}

/**
 * The angles between the curve and the chord that leaves each knot (at the last one: the chord that arrives).
 * Solves for every knot, curl 1 at free ends.
 */
function directions(
  lengths: readonly number[],
  psi: readonly number[],
  given: { readonly start: number | null; readonly end: number | null },
): number[] {
  const n = lengths.length;
  // Row i: below[i] theta[i-1] + middle[i] theta[i] + above[i] theta[i+1] = right[i].
  const below = new Array<number>(n + 1).fill(0);
  const middle = new Array<number>(n + 1).fill(1);
  const above = new Array<number>(n + 1).fill(0);
  const right = new Array<number>(n + 1).fill(0);
  if (given.start !== null) right[0] = given.start;
  else {
    above[0] = 1;
    right[0] = n > 1 ? -psi[1] : 0;
  }
  for (let i = 1; i < n; i++) {
    const [a, b] = [1 / lengths[i - 1], 1 / lengths[i]];
    below[i] = a;
    middle[i] = 2 * (a + b);
    above[i] = b;
    right[i] = -2 * a * psi[i] - (i === n - 1 ? 0 : b * psi[i + 1]);
  }
  // At the last knot theta is measured from the arriving chord, so phi there is -theta.
  if (given.end !== null) right[n] = given.end;
  else below[n] = 1;
  for (let i = 1; i <= n; i++) {
    const factor = below[i] / middle[i - 1];
    middle[i] -= factor * above[i - 1];
    right[i] -= factor * right[i - 1];
  }
  const theta = new Array<number>(n + 1).fill(0);
  for (let i = n; i >= 0; i--) theta[i] = (right[i] - (i < n ? above[i] * theta[i + 1] : 0)) / middle[i];
  return theta;
}

/** The cubic from p to q that leaves the chord by theta and arrives at it by phi. */
function handles(p: Point, q: Point, length: number, angle: number, theta: number, phi: number): Segment {
  const out = (velocity(theta, phi) * length) / 3;
  const back = (velocity(phi, theta) * length) / 3;
  return {
    kind: 'cubic',
    c1: at(p.x + out * Math.cos(angle + theta), p.y + out * Math.sin(angle + theta)),
    c2: at(q.x - back * Math.cos(angle - phi), q.y - back * Math.sin(angle - phi)),
    to: q,
  };
}

function velocity(theta: number, phi: number): number {
  const [st, ct, sp, cp] = [Math.sin(theta), Math.cos(theta), Math.sin(phi), Math.cos(phi)];
  const upper = 2 + Math.SQRT2 * (st - sp / 16) * (sp - st / 16) * (ct - cp);
  const lower = 1 + ((Math.sqrt(5) - 1) / 2) * ct + ((3 - Math.sqrt(5)) / 2) * cp;
  return Math.min(upper / lower, 4);
}

const radians = (degrees: number) => (degrees * Math.PI) / 180;
const wrapped = (angle: number) => Math.atan2(Math.sin(angle), Math.cos(angle));
