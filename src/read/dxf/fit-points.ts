/**
 * A curve through points: the cubic with continuous curvature whose parameter grows with the chords, its ends in given
 * directions or in those that five points suggest (The NURBS Book, 9.2.3 and 9.3.2, which drawing programs follow
 * closely). One tridiagonal system for the derivatives; O(n).
 */
import { cross, unit, type Vector } from './space.js';

/** Bézier curves through the points (three numbers each): the points after the start of each. `ends` are directions. */
export function curvesThrough(points: readonly number[], ends: readonly [Vector, Vector] | null): number[][] {
  const places = apart(points);
  const n = places.length - 1;
  if (n < 1) return [];
  if (n === 1) return ends ? [hermite(places[0], places[1], 1, ends[0], ends[1])] : [[...places[1]]];
  const chords = places.slice(1).map((place, i) => Math.hypot(...minus(place, places[i])));
  const [first, last] = ends ?? [suggested(places), opposite(suggested([...places].reverse()))];
  const slopes = slopesOf(places, chords, unit(first), unit(last));
  return chords.map((chord, i) => hermite(places[i], places[i + 1], chord, slopes[i], slopes[i + 1]));
}

/** The points, each once where it is repeated. */
function apart(points: readonly number[]): Vector[] {
  const places: Vector[] = [];
  for (let i = 0; i < points.length; i += 3) {
    const place: Vector = [points[i], points[i + 1], points[i + 2]];
    const before = places.at(-1);
    if (!before || Math.hypot(...minus(place, before)) > 0) places.push(place);
  }
  return places;
}

/** The direction at the first of the places: NURBS Book (9.31) and (9.33), with two chords made up before it. */
function suggested(places: readonly Vector[]): Vector {
  const after = minus(places[1], places[0]);
  const next = minus(places[2], places[1]);
  const here = combined(2, after, -1, next);
  const before = combined(2, here, -1, after);
  const bend = Math.hypot(...cross(before, here));
  const bendAfter = Math.hypot(...cross(after, next));
  const share = bend + bendAfter > 0 ? bend / (bend + bendAfter) : 1;
  return combined(1 - share, here, share, after);
}

/** Derivatives at the places, those at both ends given: continuous second derivatives, by Thomas's algorithm. */
function slopesOf(
  places: readonly Vector[],
  chords: readonly number[],
  first: Vector,
  last: Vector,
): readonly Vector[] {
  const n = chords.length;
  const above: number[] = [0];
  const right: Vector[] = [first];
  for (let i = 1; i < n; i++) {
    const [h, k] = [chords[i - 1], chords[i]];
    const wanted = combined(
      (3 * k) / h,
      minus(places[i], places[i - 1]),
      (3 * h) / k,
      minus(places[i + 1], places[i]),
    );
    const pivot = 2 * (h + k) - k * above[i - 1];
    above.push(h / pivot);
    right.push(combined(1 / pivot, wanted, -k / pivot, right[i - 1]));
  }
  const slopes: Vector[] = [];
  slopes[n] = last;
  for (let i = n - 1; i >= 0; i--)
    slopes[i] = i === 0 ? first : combined(1, right[i], -above[i], slopes[i + 1]);
  return slopes;
}

function hermite(from: Vector, to: Vector, span: number, slope: Vector, slopeTo: Vector): number[] {
  return [...combined(1, from, span / 3, slope), ...combined(1, to, -span / 3, slopeTo), ...to];
}

function minus(a: Vector, b: Vector): Vector {
  return combined(1, a, -1, b);
}

function opposite([x, y, z]: Vector): Vector {
  return [-x, -y, -z];
}

function combined(s: number, a: Vector, t: number, b: Vector): Vector {
  return [s * a[0] + t * b[0], s * a[1] + t * b[1], s * a[2] + t * b[2]];
}
