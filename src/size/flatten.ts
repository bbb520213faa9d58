/**
 * Curves into polylines that leave the true curve by at most a tolerance.
 *
 * Bézier curves are halved until each piece is flat enough. A point of the curve is a mean of the control points,
 * and the distance to the chord is a convex function, so a cubic keeps within 3/4 of the farther control point's
 * distance to its chord (the greatest weight that the two inner control points have together), and a quadratic
 * within 1/2 of it. The distance is to the chord as a segment, not as a line: a straight "curve" becomes its two
 * ends, and one that runs past its end and back keeps its turning place.
 *
 * Arcs are cut into equal angles. An arc is the image of one of the unit circle, where a chord of angle h leaves
 * the circle by 1 - cos(h/2); the map stretches that by the long half axis at most. A one-cubic-per-quarter-turn
 * stand-in would be wrong by 0.03 % of the radius before it is flattened at all.
 *
 * Curves that may touch the drawing's box are cut at their extremes first, so that the polylines fill that box
 * exactly and a motif asked for at 200 mm is 200 mm.
 */
import type { Box, Polyline } from '../../shared/plane.js';
import { Op, opSize, type Subpath } from '../../shared/subpath.js';
import { squaredToSegment } from '../geometry/segment.js';
import { reaches } from './bounds.js';
import { arcPlace, type Bezier, split } from './curve.js';
import { arcTurns, extremesOf } from './extremes.js';
import type { GrowingLine } from './growing-line.js';

/** Nearer to an end of its curve than this, mm, an extreme needs no point of its own. */
const sameMm = 1e-4;

/** `box` is the exact box of the whole drawing; the line is made in `line`, where none is begun. */
export function flatten(path: Subpath, box: Box, toleranceMm: number, line: GrowingLine): Polyline {
  const { ops, coords } = path;
  line.push(coords[0], coords[1]);
  let at = 2;
  for (const op of ops) {
    if (op === Op.line) line.push(coords[at], coords[at + 1]);
    else {
      const turns = reaches(box, op, coords, at)
        ? extremesOf(op, coords[at - 2], coords[at - 1], coords, at)
        : [];
      if (op === Op.arc) flattenArc(coords, at, turns, toleranceMm, line);
      else flattenBezier(coords.subarray(at - 2, at + opSize[op]), turns, toleranceMm, line);
    }
    at += opSize[op];
  }
  return line.done();
}

function flattenBezier(
  curve: Bezier,
  turns: readonly number[],
  toleranceMm: number,
  line: GrowingLine,
): void {
  let rest = curve;
  let from = 0;
  for (const t of turns) {
    const [piece, next] = split(rest, (t - from) / (1 - from));
    if (chordOf(piece) < sameMm || chordOf(next) < sameMm) continue;
    halve(piece, toleranceMm, line);
    rest = next;
    from = t;
  }
  halve(rest, toleranceMm, line);
}

function chordOf(curve: Bezier): number {
  return Math.hypot(curve[curve.length - 2] - curve[0], curve[curve.length - 1] - curve[1]);
}

function halve(c: Bezier, toleranceMm: number, line: GrowingLine): void {
  if (c.length === 8)
    halveCubic(c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7], (toleranceMm / 0.75) ** 2, line);
  else halveQuadratic(c[0], c[1], c[2], c[3], c[4], c[5], (toleranceMm / 0.5) ** 2, line);
}

function halveQuadratic(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  flat: number,
  line: GrowingLine,
): void {
  if (squaredToSegment(bx, by, ax, ay, cx, cy) <= flat) {
    line.push(cx, cy);
    return;
  }
  const abx = (ax + bx) / 2;
  const aby = (ay + by) / 2;
  const bcx = (bx + cx) / 2;
  const bcy = (by + cy) / 2;
  const mx = (abx + bcx) / 2;
  const my = (aby + bcy) / 2;
  halveQuadratic(ax, ay, abx, aby, mx, my, flat, line);
  halveQuadratic(mx, my, bcx, bcy, cx, cy, flat, line);
}

function halveCubic(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
  flat: number,
  line: GrowingLine,
): void {
  if (squaredToSegment(bx, by, ax, ay, dx, dy) <= flat && squaredToSegment(cx, cy, ax, ay, dx, dy) <= flat) {
    line.push(dx, dy);
    return;
  }
  const abx = (ax + bx) / 2;
  const aby = (ay + by) / 2;
  const bcx = (bx + cx) / 2;
  const bcy = (by + cy) / 2;
  const cdx = (cx + dx) / 2;
  const cdy = (cy + dy) / 2;
  const lx = (abx + bcx) / 2;
  const ly = (aby + bcy) / 2;
  const rx = (bcx + cdx) / 2;
  const ry = (bcy + cdy) / 2;
  const mx = (lx + rx) / 2;
  const my = (ly + ry) / 2;
  halveCubic(ax, ay, abx, aby, lx, ly, mx, my, flat, line);
  halveCubic(mx, my, rx, ry, cdx, cdy, dx, dy, flat, line);
}

function flattenArc(
  coords: Float64Array,
  at: number,
  turns: readonly number[],
  toleranceMm: number,
  line: GrowingLine,
): void {
  const [ux, uy, vx, vy, from, sweep] = coords.subarray(at + 2, at + 8);
  const { long, short, longAt } = halfAxes(ux, uy, vx, vy);
  // An arc squeezed flat runs to and fro along its long axis: its turning places are all there is to it.
  const isFlat = 2 * short <= toleranceMm;
  const cuts = isFlat ? arcTurns(from, sweep, [longAt]) : turns.filter((turn) => isInside(turn, coords, at));
  const step = isFlat || toleranceMm >= long ? Infinity : 2 * Math.acos(1 - toleranceMm / long);
  let angle = from;
  for (const cut of [...cuts, from + sweep]) {
    const steps = Math.max(1, Math.ceil(Math.abs(cut - angle) / step));
    for (let i = 1; i < steps; i++) line.push(...arcPlace(coords, at, angle + ((cut - angle) * i) / steps));
    angle = cut;
    if (cut !== from + sweep) line.push(...arcPlace(coords, at, cut));
  }
  line.push(coords[at + 8], coords[at + 9]);
}

/** Is the place at this angle apart from both ends of the arc? */
function isInside(angle: number, coords: Float64Array, at: number): boolean {
  const [x, y] = arcPlace(coords, at, angle);
  const [fromX, fromY] = arcPlace(coords, at, coords[at + 6]);
  const fromStart = Math.hypot(x - fromX, y - fromY);
  return fromStart >= sameMm && Math.hypot(x - coords[at + 8], y - coords[at + 9]) >= sameMm;
}

/** The half axes of the ellipse with conjugate half axes u and v, and the angle at which the long one is reached. */
function halfAxes(ux: number, uy: number, vx: number, vy: number) {
  const sum = (ux * ux + uy * uy + vx * vx + vy * vy) / 2;
  const difference = (ux * ux + uy * uy - vx * vx - vy * vy) / 2;
  const mixed = ux * vx + uy * vy;
  const spread = Math.hypot(difference, mixed);
  const long = Math.sqrt(sum + spread);
  // The product of the half axes is the area of the parallelogram u, v: no difference of near equals.
  const short = long > 0 ? Math.abs(ux * vy - uy * vx) / long : 0;
  return { long, short, longAt: Math.atan2(mixed, difference) / 2 };
}
