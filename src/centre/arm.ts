/**
 * Where a line is heading at its end: place, direction and bend there, from a parabola fitted to its last stretch by
 * least squares over its length.
 */
import type { Point, Polyline } from '../../shared/plane.js';
import { pointCount, runningLengths } from '../geometry/polyline.js';

export interface Heading {
  readonly at: Point;
  /** Unit vector onward, past the end. */
  readonly dx: number;
  readonly dy: number;
  /** Curvature of the line onward, 1 / radius; positive where it turns from x towards y. */
  readonly bend: number;
}

/** The heading past the last point of `line`, from its last `reach`. */
export function headingOf(line: Polyline, reach: number): Heading {
  const run = runningLengths(line);
  const last = pointCount(line) - 1;
  const from = run[last] - reach;
  const sums = new Float64Array(9);
  const rightX = new Float64Array(3);
  const rightY = new Float64Array(3);
  const [ox, oy] = [line[2 * last], line[2 * last + 1]];
  for (let i = last; i >= 0 && (run[i] >= from || i >= last - 2); i--) {
    // Weighed by the length of line each point stands for.
    const weight = (run[Math.min(i + 1, last)] - run[Math.max(i - 1, 0)]) / 2 + 1e-12;
    const s = run[i] - run[last];
    const powers = [1, s, s * s];
    for (let p = 0; p < 3; p++) {
      for (let q = 0; q < 3; q++) sums[3 * p + q] += weight * powers[p] * powers[q];
      rightX[p] += weight * powers[p] * (line[2 * i] - ox);
      rightY[p] += weight * powers[p] * (line[2 * i + 1] - oy);
    }
  }
  const x = solved(sums, rightX);
  const y = solved(sums, rightY);
  if (!x || !y || !(Math.hypot(x[1], y[1]) > 0)) return chordHeading(line, last);
  const speed = Math.hypot(x[1], y[1]);
  const bend = (2 * (x[1] * y[2] - y[1] * x[2])) / speed ** 3;
  return { at: { x: ox + x[0], y: oy + y[0] }, dx: x[1] / speed, dy: y[1] / speed, bend };
}

function chordHeading(line: Polyline, last: number): Heading {
  const dx = line[2 * last] - line[0];
  const dy = line[2 * last + 1] - line[1];
  const length = Math.hypot(dx, dy) || 1;
  return { at: { x: line[2 * last], y: line[2 * last + 1] }, dx: dx / length, dy: dy / length, bend: 0 };
}

/** Three equations in three unknowns by Cramer's rule; null where they do not settle them. */
function solved(m: Float64Array, right: Float64Array): [number, number, number] | null {
  const det = (
    a: number,
    b: number,
    c: number,
    d: number,
    e: number,
    f: number,
    g: number,
    h: number,
    i: number,
  ) => a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  const [a, b, c, d, e, f, g, h, i] = m;
  const [p, q, r] = right;
  const all = det(a, b, c, d, e, f, g, h, i);
  if (!(Math.abs(all) > 1e-9 * Math.abs(a * e * i))) return null;
  return [
    det(p, b, c, q, e, f, r, h, i) / all,
    det(a, p, c, d, q, f, g, r, i) / all,
    det(a, b, p, d, e, q, g, h, r) / all,
  ];
}
