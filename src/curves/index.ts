/**
 * A polyline as few cubic Bézier curves and straight lines, so that it can be edited again: within 0.02 mm of the line
 * everywhere, ends exact, corners kept, of one direction where curves meet.
 *
 * The line is cut at its corners and at the ends of its straight legs (`corners.ts`). Along each run between, the
 * longest stretch that one curve follows (`fit.ts`) is taken, and the next one from there: found by doubling and halving,
 * O(n log n) fits of points. Directions at the cuts come from the five points around them, at the ends of a run from the
 * first five, so that a curve leaves as the drawn one does and not along its first chord.
 */
import { grouped } from '../../shared/grouped.js';
import type { Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { Op, type Subpath } from '../../shared/subpath.js';
import { runningLengths } from '../geometry/polyline.js';
import { thinnedLine } from '../geometry/thinning.js';
import { isCorner, isStraight, legOf, turnsOf } from './corners.js';
import { arrivingOf, type Cubic, type Direction, leavingOf } from './cubic.js';
import { fitCubic, type Measured } from './fit.js';

/** Points nearer together than this, mm, are one: their direction is rounding. */
const sameMm = 1e-6;

/** How far a point may lie from its curve, mm; and how far where the line is drawn as one. */
const pointMm = 0.014;
const closeMm = 0.003;
/** Fewer legs than this leave a curve too free. */
const fewLegs = 6;
/** The sine of half a degree. */
const nearAxis = 0.0087;

/** Lines of more points than this are thinned first: of a line drawn in steps of a micrometre its shape is followed. */
const manyPoints = 10_000;
const thinMm = 0.002;
/** More than a drawing program opens, and than can be followed while somebody waits. */
const mostPoints = 150_000;

/**
 * The strokes of a motif, of two points or more each, as curves.
 *
 * @throws Refusal where they have so many points that it would take minutes
 */
export function curvesOf(strokes: readonly Polyline[]): Subpath[] {
  const lines = strokes.map(lineToFollow);
  const points = lines.reduce((sum, { length }) => sum + length / 2, 0);
  if (points > mostPoints)
    throw new Refusal(
      `--curves follows lines of up to ${grouped(mostPoints)} points, and this motif has ${grouped(points)}: write it without --curves.`,
    );
  return lines.map(followed);
}

function lineToFollow(stroke: Polyline): Polyline {
  const line = withoutRepeats(stroke);
  return line.length / 2 > manyPoints ? thinnedLine(line, thinMm) : line;
}

function followed(line: Polyline): Subpath {
  const ops: number[] = [];
  const coords: number[] = [line[0], line[1]];
  const last = line.length / 2 - 1;
  const turns = turnsOf(line);
  const run = runningLengths(line);
  for (let from = 0; from < last; ) {
    if (isStraight(line, turns, from)) {
      ops.push(Op.line);
      coords.push(line[2 * from + 2], line[2 * from + 3]);
      from++;
      continue;
    }
    let to = from + 1;
    while (to < last && !isCorner(line, turns, to) && !isStraight(line, turns, to)) to++;
    followRun({ line, run }, turns, from, to, ops, coords);
    from = to;
  }
  return { ops: Uint8Array.from(ops), coords: Float64Array.from(coords), closed: false };
}

function withoutRepeats(stroke: Polyline): Polyline {
  const kept = new Float64Array(stroke.length);
  let n = 0;
  for (let i = 0; i < stroke.length; i += 2) {
    if (n > 0 && Math.hypot(stroke[i] - kept[n - 2], stroke[i + 1] - kept[n - 1]) <= sameMm) continue;
    kept[n++] = stroke[i];
    kept[n++] = stroke[i + 1];
  }
  return n >= 4 ? kept.subarray(0, n) : stroke;
}

/** The run of points `from` to `to`, without a corner inside. */
function followRun(
  { line, run: lengths }: Measured,
  turns: Float64Array,
  from: number,
  to: number,
  ops: number[],
  coords: number[],
): void {
  if (to === from + 1) {
    ops.push(Op.line);
    coords.push(line[2 * to], line[2 * to + 1]);
    return;
  }
  const last = turns.length - 1;
  const before = from > 0 && !isCorner(line, turns, from) && isStraight(line, turns, from - 1);
  const after = to < last && !isCorner(line, turns, to) && isStraight(line, turns, to);
  let leaving = before ? along(line, from - 1) : null;
  const run = { line, run: lengths, from, to, arriving: after ? along(line, to) : null };
  let known: Reach | null = null;
  for (let at = from; at < to; ) {
    const { reach, next }: Chosen = longest(run, at, leaving, known);
    const [end, curve] = reach;
    ops.push(Op.cubic);
    coords.push(...curve.slice(2));
    at = end;
    leaving = arrivingOf(curve);
    known = next;
  }
}

interface Run extends Measured {
  readonly from: number;
  readonly to: number;
  /** Into what follows, where that is straight. */
  readonly arriving: Direction | null;
}

type Reach = readonly [end: number, curve: Cubic];

interface Chosen {
  readonly reach: Reach;
  /** The farthest that the next curve goes from there, where it is known. */
  readonly next: Reach | null;
}

/**
 * How far one curve from `at` goes, and the curve. What only just keeps to the line has gone beyond the end of what was
 * drawn as one and arrives askew, so that the next comes to nothing: of the ends round the farthest that is followed
 * closely, and the farthest of all, the one is taken from which the next curve gets farthest. `known` is the farthest of
 * all where it was found before.
 */
function longest(run: Run, at: number, leaving: Direction | null, known: Reach | null): Chosen {
  const loose = known ?? reachOf(run, at, leaving, pointMm, run.to);
  if (!loose) return { reach: alongLeg(run.line, at), next: null };
  if (loose[0] === run.to) return { reach: loose, next: null };
  const close = reachOf(run, at, leaving, closeMm, loose[0]) ?? loose;
  const ends = new Set(around.map((step) => close[0] + step).filter((end) => end > at && end < loose[0]));
  let best: Chosen = { reach: loose, next: reachOf(run, loose[0], arrivingOf(loose[1]), pointMm, run.to) };
  for (const end of ends) {
    const farthest = best.next?.[0] ?? loose[0];
    if (farthest === run.to) break;
    const curve = curveTo(run, at, end, leaving, closeMm) ?? curveTo(run, at, end, leaving, pointMm);
    // Most fall short of the best so far, which one fit tells.
    const gains = curve && curveTo(run, end, farthest + 1, arrivingOf(curve), pointMm);
    const next = gains && reachOf(run, end, arrivingOf(curve), pointMm, run.to);
    if (next && next[0] > farthest) best = { reach: [end, curve], next };
  }
  return best;
}

/** Ends that are tried, from the farthest that is followed closely. */
const around = [0, 1, 2, 4];

/** The curve from `at` to `end`, no point farther off than `mm`, or null. */
function curveTo(run: Run, at: number, end: number, leaving: Direction | null, mm: number): Cubic | null {
  const { line, from, to } = run;
  const arriving = end === to ? run.arriving : null;
  // Few points do not tell two directions and two lengths.
  if (end - at < fewLegs) {
    const ends = {
      leaving: leaving ?? directionAt(line, at, from, to),
      arriving: arriving ?? directionAt(line, end, from, to),
    };
    return fitCubic(run, at, end, ends, mm);
  }
  const free = fitCubic(run, at, end, { leaving: null, arriving }, mm);
  const curve =
    free && (!leaving || agree(leavingOf(free), leaving))
      ? free
      : leaving && fitCubic(run, at, end, { leaving, arriving }, mm);
  return curve && (levelled(run, at, end, curve, mm) ?? curve);
}

/**
 * What leaves or arrives all but level or upright was drawn so: as the fit has it the curve would turn back a hair's
 * breadth from its end. Null where nothing is to be changed.
 */
function levelled(run: Run, at: number, end: number, curve: Cubic, mm: number): Cubic | null {
  const [leaving, arriving] = [leavingOf(curve), arrivingOf(curve)];
  const ends = { leaving: onAxis(leaving) ?? leaving, arriving: onAxis(arriving) ?? arriving };
  const isSame = ends.leaving === leaving && ends.arriving === arriving;
  return isSame ? null : fitCubic(run, at, end, ends, mm);
}

function onAxis([x, y]: Direction): Direction | null {
  if (Math.abs(y) < nearAxis) return [Math.sign(x), 0];
  return Math.abs(x) < nearAxis ? [0, Math.sign(y)] : null;
}

/** The farthest that a curve from `at` goes so near, and not beyond `most`; null where not one leg can be followed. */
function reachOf(run: Run, at: number, leaving: Direction | null, mm: number, most: number): Reach | null {
  const tried = (end: number): Reach | null => {
    const curve = curveTo(run, at, end, leaving, mm);
    return curve && [end, curve];
  };
  let best: Reach | null = null;
  let beyond = most + 1;
  for (let step = 4; ; step *= 2) {
    const end = Math.min(most, at + step);
    const found = tried(end);
    if (!found) {
      beyond = end;
      break;
    }
    best = found;
    if (end === most) return best;
  }
  for (let low = best ? best[0] : at; beyond - low > 1; ) {
    const middle = (low + beyond) >> 1;
    const found = tried(middle);
    if (found) {
      best = found;
      low = middle;
    } else beyond = middle;
  }
  return best;
}

/** Whether two directions are one to the eye, and to a drawing program: to 0.7 degrees, where one is promised. */
function agree([ax, ay]: Direction, [bx, by]: Direction): boolean {
  return ax * bx + ay * by > Math.cos((0.7 * Math.PI) / 180);
}

/** Where nothing else will do, one leg, straight. */
function alongLeg(line: Polyline, at: number): Reach {
  const [ax, ay, dx, dy] = line.subarray(2 * at, 2 * at + 4);
  const [x, y] = [(dx - ax) / 3, (dy - ay) / 3];
  return [at + 1, [ax, ay, ax + x, ay + y, dx - x, dy - y, dx, dy]];
}

/** Of the leg from vertex i to the next. */
function along(line: Polyline, i: number): Direction {
  const leg = legOf(line, i);
  return [(line[2 * i + 2] - line[2 * i]) / leg, (line[2 * i + 3] - line[2 * i + 1]) / leg];
}

/**
 * At a vertex of the run of points `from` to `to`: the derivative of the polynomial through the five points of the run
 * nearest to it, over the length of the legs. Its error falls with the fourth power of the legs, where the circle
 * through three points leaves one that a curve of twenty legs would show.
 */
function directionAt(line: Polyline, i: number, from: number, to: number): Direction {
  const count = Math.min(5, to - from + 1);
  const first = Math.min(Math.max(i - 2, from), to - count + 1);
  const at: number[] = [0];
  for (let k = 1; k < count; k++) at.push(at[k - 1] + legOf(line, first + k - 1));
  const here = i - first;
  let [x, y] = [0, 0];
  for (let k = 0; k < count; k++) {
    const weight = slopeOfLagrange(at, k, here);
    x += weight * line[2 * (first + k)];
    y += weight * line[2 * (first + k) + 1];
  }
  const length = Math.hypot(x, y);
  return [x / length, y / length];
}

/** The derivative at place `here` of the polynomial that is 1 at place k and 0 at the others. */
function slopeOfLagrange(at: readonly number[], k: number, here: number): number {
  if (k === here) return at.reduce((sum, value, j) => (j === k ? sum : sum + 1 / (at[k] - value)), 0);
  let product = 1 / (at[k] - at[here]);
  for (let j = 0; j < at.length; j++)
    if (j !== k && j !== here) product *= (at[here] - at[j]) / (at[k] - at[j]);
  return product;
}
