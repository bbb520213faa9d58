/**
 * On which side of the way from one point to another a third point lies: never on it.
 *
 * Where three points are exactly in line, each point is taken to be moved aside by a hair of its own: of two points
 * the one of lower number farther by orders of magnitude, and up or down farther than across. So every question has an
 * answer, no answer contradicts another, and what a line does at a point that lies on it need not be told case by case
 * (H. Edelsbrunner and E. P. Muecke, Simulation of Simplicity, ACM Transactions on Graphics 9, 1990). Signs are exact
 * (J. R. Shewchuk, Adaptive precision floating-point arithmetic and fast robust geometric predicates, 1997; package
 * robust-predicates).
 */
import { orient2d } from 'robust-predicates';

/**
 * Positive on one side of a-b, negative on the other; never 0 for three different numbers. Of points in line it is 1
 * or -1, else twice the area of the triangle. `points` is [x0, y0, x1, y1, …].
 */
export function sideOf(points: Float64Array, a: number, b: number, c: number): number {
  const area = areaOf(points, a, b, c);
  return area !== 0 ? area : sideByHair(points, a, b, c);
}

/** Twice the area of the triangle, 0 where the three are exactly in line. */
export function areaOf(points: Float64Array, a: number, b: number, c: number): number {
  return orient2d(
    points[2 * a],
    points[2 * a + 1],
    points[2 * b],
    points[2 * b + 1],
    points[2 * c],
    points[2 * c + 1],
  );
}

/** With i < j < k, the area grows with the hairs of i up, i across, j up, and of j up times i across, in this order. */
function sideByHair(points: Float64Array, a: number, b: number, c: number): number {
  const swaps = Number(a > b) + Number(b > c) + Number(a > c);
  const i = Math.min(a, b, c);
  const k = Math.max(a, b, c);
  const j = a + b + c - i - k;
  const side =
    Math.sign(points[2 * j] - points[2 * k]) ||
    Math.sign(points[2 * k + 1] - points[2 * j + 1]) ||
    Math.sign(points[2 * k] - points[2 * i]) ||
    -1;
  return swaps % 2 === 0 ? side : -side;
}
