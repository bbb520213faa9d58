/**
 * Lines a pass up with the quilt after it has been rolled on. Two places of the plan were found elsewhere; the rigid
 * motion that brings both as near as can be, in the sense of least squares, is that of Procrustes for two points: the
 * midpoints coincide and the directions agree. How much nearer together or farther apart they were found is no part
 * of the motion: it tells that the quilt is pulled or slack.
 */
import type { Pair } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';

export type TwoPlaces = readonly [Pair, Pair];

export interface Alignment {
  /** Clockwise as seen from above, from -180 to 180. */
  readonly turnDeg: number;
  /** Of the midpoint. */
  readonly moveMm: Pair;
  readonly stretchPercent: number;
  /** What is to be looked after before stitching, or null. */
  readonly warning: string | null;
  readonly apply: (line: Polyline) => Polyline;
}

/** Places nearer together than this are one place, mm. */
const oneMm = 1;
const mostStretchPercent = 1;

/** @throws Refusal where two places coincide */
export function alignmentOf(expected: TwoPlaces, found: TwoPlaces): Alignment {
  const [planned, seen] = [vectorOf(expected, 'expected'), vectorOf(found, 'found')];
  const turn = Math.atan2(
    planned[0] * seen[1] - planned[1] * seen[0],
    planned[0] * seen[0] + planned[1] * seen[1],
  );
  const [from, to] = [middleOf(expected), middleOf(found)];
  const stretchPercent = 100 * (Math.hypot(...seen) / Math.hypot(...planned) - 1);
  return {
    turnDeg: (turn * 180) / Math.PI,
    moveMm: [to[0] - from[0], to[1] - from[1]],
    stretchPercent,
    warning: warningOf(stretchPercent),
    apply: (line) => turnedAndMoved(line, turn, from, to),
  };
}

function vectorOf([[ax, ay], [bx, by]]: TwoPlaces, which: string): Pair {
  const [dx, dy] = [bx - ax, by - ay];
  if (Math.hypot(dx, dy) >= oneMm) return [dx, dy];
  throw new Refusal(
    `The two ${which} places are one and the same, so they tell no direction: take two that lie far apart across the quilt.`,
  );
}

function middleOf([[ax, ay], [bx, by]]: TwoPlaces): Pair {
  return [(ax + bx) / 2, (ay + by) / 2];
}

function warningOf(stretchPercent: number): string | null {
  const size = Math.abs(stretchPercent);
  if (size <= mostStretchPercent) return null;
  const [how, why] =
    stretchPercent > 0 ? ['farther apart', 'pulled too tight'] : ['nearer together', 'slack or drawn in'];
  return `The places were found ${size.toFixed(1)} % ${how} than planned: the quilt is ${why}, or one was mistaken for another. Put that right and look again.`;
}

function turnedAndMoved(line: Polyline, turn: number, from: Pair, to: Pair): Polyline {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const out = new Float64Array(line.length);
  for (let i = 0; i < line.length; i += 2) {
    const [x, y] = [line[i] - from[0], line[i + 1] - from[1]];
    out[i] = cos * x - sin * y + to[0];
    out[i + 1] = sin * x + cos * y + to[1];
  }
  return out;
}
