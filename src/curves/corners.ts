/**
 * Where a polyline turns for good, and where it is straight: everything between is taken for a curve.
 *
 * A flattened curve of tolerance f keeps turn times leg under 8 f (a circle: leg² / 8r = f, turn = leg / r), which is
 * 0.08 mm at 0.01 mm; a vertex beyond 0.1 mm is a corner, and so is one that turns by over 15 degrees and twice what its
 * neighbours turn. For the same reason a leg that would bulge by over 0.02 mm, were it the chord of a curve that turns
 * as its ends do, is straight. O(n).
 */
import type { Polyline } from '../../shared/plane.js';

const cornerMm = 0.1;
const sharp = (15 * Math.PI) / 180;
const bulgeMm = 0.02;

/** For each vertex, how much the line turns there, radians, with its sign; 0 at both ends. */
export function turnsOf(line: Polyline): Float64Array {
  const turns = new Float64Array(line.length / 2);
  for (let i = 1; i + 1 < turns.length; i++) turns[i] = turnAt(line, i - 1, i, i + 1);
  return turns;
}

/** From the leg a b to the leg b c. */
function turnAt(line: Polyline, a: number, b: number, c: number): number {
  const [ux, uy] = [line[2 * b] - line[2 * a], line[2 * b + 1] - line[2 * a + 1]];
  const [vx, vy] = [line[2 * c] - line[2 * b], line[2 * c + 1] - line[2 * b + 1]];
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}

/** The leg from vertex i to the next, mm. */
export function legOf(line: Polyline, i: number): number {
  return Math.hypot(line[2 * i + 2] - line[2 * i], line[2 * i + 3] - line[2 * i + 1]);
}

export function isCorner(line: Polyline, turns: Float64Array, i: number): boolean {
  const turn = Math.abs(turns[i]);
  if (turn * Math.min(legOf(line, i - 1), legOf(line, i)) > cornerMm) return true;
  return turn > sharp && turn > 2 * Math.abs(turns[i - 1]) && turn > 2 * Math.abs(turns[i + 1]);
}

/** Whether the leg from vertex i to the next cannot be the chord of a curve; how it turns at a corner says nothing of that. */
export function isStraight(line: Polyline, turns: Float64Array, i: number): boolean {
  const own = [i, i + 1].filter(
    (vertex) => vertex > 0 && vertex + 1 < turns.length && !isCorner(line, turns, vertex),
  );
  const turn = own.reduce((sum, vertex) => sum + Math.abs(turns[vertex]), 0);
  return own.length === 0 || (legOf(line, i) * turn) / (8 * own.length) > bulgeMm;
}
