/**
 * Tight curves: where a stitch, which is straight, leaves the line by more than a limit.
 *
 * From each point of the line a stitch is laid to the first place that is a stitch away as the crow flies, and the
 * farthest the line strays from it is what the stitch cuts off. On a circle of radius r a chord c cuts off
 * s = r - sqrt(r² - (c/2)²) (circle segment tables), so over one stitch s and radius say the same:
 * r = (s² + (c/2)²) / 2s. How densely the line is drawn does not matter. The line is cut at its corners first
 * (`corners.ts`): no stitch is laid across one.
 *
 * Where the line curls up and is not a stitch away after four stitches of its length, or at its end, the stitch is laid
 * to there.
 */

import type { Polyline } from '../../../shared/plane.js';
import type { AtLeast, TightCurve } from '../../../shared/study.js';
import { distance } from '../../geometry/point.js';
import { exitShare, squaredToSegment } from '../../geometry/segment.js';
import { bendMm, turnsOneWay, WayOfTurn } from './bends.js';
import { cornersOf } from './corners.js';
import { suspectStretches } from './suspects.js';
import { PlaceFinder, type WalkedLine } from './walked-line.js';

/** Stitches begin at every point, and where points lie far apart, at least this many times within a stitch. */
const beginnings = 16;
/** A line that is not a stitch away after so many stitches of its length curls up. */
const curlStitches = 4;
/** The way a line turns at a place is read off so much of it to either side, in stitches. */
const wayStitches = 1 / 8;
/** A line with more of them is tight all along; the first ones tell. */
const mostCuts = 500_000;

/** Curves whose stitch cuts off more than `cutMm`, worst first. */
export function tightCurvesOf(
  lines: readonly WalkedLine[],
  stitchMm: number,
  cutMm: number,
): AtLeast<TightCurve> {
  const found = lines.map((line) => tightCurvesAlong(line, stitchMm, cutMm));
  return {
    places: found.flatMap(({ places }) => places).sort((a, b) => b.cutMm - a.cutMm),
    more: found.some(({ more }) => more),
  };
}

/**
 * Answers for stitches up to `stitchMm`, and cuts that are as large a share of them as `cutMm` or larger, whether there
 * is any: sooner than by finding them all, and sooner still after the first answer, since what was too tight for one
 * stitch often is for the next.
 */
export function tightCurveFinder(
  lines: readonly WalkedLine[],
  stitchMm: number,
  cutMm: number,
): (stitchMm: number, cutMm: number) => boolean {
  const stretches = lines.flatMap((line) => suspectStretches(line, stitchMm, cutMm).map((each) => each.line));
  return (stitch, cut) => {
    const at = stretches.findIndex((line) => cutsAlong(line, stitch, cut, 1).length > 0);
    if (at > 0) [stretches[0], stretches[at]] = [stretches[at], stretches[0]];
    return at >= 0;
  };
}

/** One stitch that cuts off too much. */
interface Cut {
  readonly cutMm: number;
  /** Where the line is farthest from the stitch, as the length walked, mm. */
  readonly alongMm: number;
  /** False where the line did not get a stitch away. */
  readonly isWhole: boolean;
}

function tightCurvesAlong(line: WalkedLine, stitchMm: number, cutMm: number): AtLeast<TightCurve> {
  const cuts = cutsAlong(line, stitchMm, cutMm, mostCuts);
  const finder = new PlaceFinder(line);
  const places = worstOfEach(line, onStroke(cuts, line), stitchMm).map((cut) => {
    finder.goTo(cut.alongMm);
    return { at: { x: finder.x, y: finder.y }, radiusMm: radiusOf(line, cut, stitchMm), cutMm: cut.cutMm };
  });
  return { places, more: cuts.length >= mostCuts };
}

/** The cuts of all stitches, or the first of them, `enough` or a few more. */
function cutsAlong(line: WalkedLine, stitchMm: number, cutMm: number, enough: number): Cut[] {
  const cuts: Cut[] = [];
  for (const { line: stretch, segments } of suspectStretches(line, stitchMm, cutMm)) {
    const corners = [...cornersOf(stretch, stitchMm), stretch.runMm.length - 1];
    let next = 0;
    for (const segment of segments) {
      if (!isOfStroke(stretch, segment)) continue;
      while (corners[next] <= segment) next++;
      cutsFrom(stretch, segment, corners[next], stitchMm, cutMm, cuts);
      if (cuts.length >= enough) return cuts;
    }
  }
  return cuts;
}

/** A closed stroke was carried on beyond its ends: what begins there begins on the stroke as well, and is looked at once. */
function isOfStroke({ runMm, closed, lengthMm }: WalkedLine, segment: number): boolean {
  return !closed || (runMm[segment] >= 0 && runMm[segment] < lengthMm);
}

/** Lays the stitches that begin on a segment, to point `last` at most, and adds those that cut off too much. */
function cutsFrom(
  line: WalkedLine,
  segment: number,
  last: number,
  stitchMm: number,
  cutMm: number,
  cuts: Cut[],
): void {
  const { points, runMm } = line;
  const lengthMm = runMm[segment + 1] - runMm[segment];
  const i = 2 * segment;
  // Stitches that begin farther back than a stitch from the segment's end do not reach beyond it.
  for (let backMm = stitchMm; backMm > 0; backMm -= stitchMm / beginnings) {
    const share = 1 - backMm / lengthMm;
    if (share > 0) {
      const x = points[i] + share * (points[i + 2] - points[i]);
      const y = points[i + 1] + share * (points[i + 3] - points[i + 1]);
      addCut(line, x, y, runMm[segment + 1] - backMm, segment, last, stitchMm, cutMm, cuts);
    }
  }
  addCut(line, points[i], points[i + 1], runMm[segment], segment, last, stitchMm, cutMm, cuts);
}

/** Lays one stitch from (x, y) on a segment. */
function addCut(
  { points, runMm }: WalkedLine,
  x: number,
  y: number,
  alongMm: number,
  segment: number,
  last: number,
  stitchMm: number,
  cutMm: number,
  cuts: Cut[],
): void {
  const gone = (p: number) => (points[2 * p] - x) ** 2 + (points[2 * p + 1] - y) ** 2 >= stitchMm * stitchMm;
  let end = segment + 1;
  // What is a stitch away is so along the line as well, but for rounding.
  const leastMm = alongMm + (1 - 1e-9) * stitchMm;
  while (end < last && runMm[end] < leastMm) end++;
  const mostMm = alongMm + curlStitches * stitchMm;
  while (end < last && !gone(end) && runMm[end] < mostMm) end++;
  const isWhole = gone(end);
  if (!isWhole && runMm[end] - alongMm < stitchMm) return;
  const fromX = points[2 * end - 2];
  const fromY = points[2 * end - 1];
  const stepX = points[2 * end] - fromX;
  const stepY = points[2 * end + 1] - fromY;
  const share = isWhole ? Math.min(exitShare(fromX - x, fromY - y, stepX, stepY, stitchMm), 1) : 1;
  // A line from end to end of the stitch keeps within the ellipse about both, whose half width is half of the root here.
  const wayMm = runMm[end - 1] + share * (runMm[end] - runMm[end - 1]) - alongMm;
  if (isWhole && wayMm * wayMm - stitchMm * stitchMm <= 4 * cutMm * cutMm) return;
  const endX = fromX + share * stepX;
  const endY = fromY + share * stepY;
  // Every bend within the stitch counts: the farthest place of each stretch on one side of it.
  let worst = cutMm * cutMm;
  let at = -1;
  for (let p = segment + 1; p < end; p++) {
    if (at >= 0 && crossesStitch(points, p, x, y, endX, endY)) {
      cuts.push({ cutMm: Math.sqrt(worst), alongMm: runMm[at], isWhole });
      [worst, at] = [cutMm * cutMm, -1];
    }
    const strayed = squaredToSegment(points[2 * p], points[2 * p + 1], x, y, endX, endY);
    if (strayed > worst) {
      worst = strayed;
      at = p;
    }
  }
  if (at >= 0) cuts.push({ cutMm: Math.sqrt(worst), alongMm: runMm[at], isWhole });
}

/** Does the segment that ends at point p cross the stitch? */
function crossesStitch(
  points: Polyline,
  p: number,
  x: number,
  y: number,
  endX: number,
  endY: number,
): boolean {
  const ax = points[2 * p - 2];
  const ay = points[2 * p - 1];
  const bx = points[2 * p];
  const by = points[2 * p + 1];
  const side = (px: number, py: number) => (endX - x) * (py - y) - (endY - y) * (px - x);
  const a = side(ax, ay);
  const b = side(bx, by);
  if (a === b || a * b > 0) return false;
  const share = a / (a - b);
  const cx = ax + share * (bx - ax);
  const cy = ay + share * (by - ay);
  return (cx - x) * (cx - endX) + (cy - y) * (cy - endY) <= 0;
}

/** Places beyond the end of a closed stroke are places on it. */
function onStroke(cuts: readonly Cut[], { closed, lengthMm }: WalkedLine): Cut[] {
  const own = closed ? cuts.map((cut) => ({ ...cut, alongMm: cut.alongMm % lengthMm })) : [...cuts];
  return own.sort((a, b) => a.alongMm - b.alongMm);
}

/** The worst cut of each curve; cuts are given in the order of the line. */
function worstOfEach(line: WalkedLine, cuts: readonly Cut[], stitchMm: number): Cut[] {
  const worst: Cut[] = [];
  const way = new WayOfTurn(line, wayStitches * stitchMm);
  const isOneCurve = (fromMm: number, toMm: number) =>
    way.at(fromMm) === way.at(toMm) &&
    (toMm - fromMm <= stitchMm / 2 || (toMm - fromMm <= stitchMm && turnsOneWay(line, fromMm, toMm)));
  const keepWorse = (at: number, cut: Cut) => {
    if (cut.cutMm > worst[at].cutMm) worst[at] = cut;
  };
  let lastMm = -Infinity;
  for (const cut of cuts) {
    if (isOneCurve(lastMm, cut.alongMm)) keepWorse(worst.length - 1, cut);
    else worst.push(cut);
    lastMm = cut.alongMm;
  }
  // A curve over the place where the stroke is closed is the first and the last.
  if (line.closed && worst.length > 1 && isOneCurve(lastMm, cuts[0].alongMm + line.lengthMm))
    keepWorse(0, worst.pop()!);
  return worst;
}

/**
 * Radius of the curve at a cut, mm: by the cut where the stitch goes over one bend of less than half a circle, else
 * that of the circle through the middle of the bend and the two places where it ends.
 */
function radiusOf(line: WalkedLine, { cutMm, alongMm, isWhole }: Cut, stitchMm: number): number {
  const reachMm = bendMm(line, alongMm, stitchMm);
  if (isWhole && cutMm <= stitchMm / 2 && reachMm >= stitchMm / 2) return radiusCut(cutMm, stitchMm);
  const finder = new PlaceFinder(line);
  const [a, b, c] = [-1, 0, 1].map((side) => {
    finder.goTo(alongMm + side * reachMm);
    return { x: finder.x, y: finder.y };
  });
  const twiceArea = Math.abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
  const sides = distance(a, b) * distance(b, c) * distance(c, a);
  return twiceArea > 0 ? sides / (2 * twiceArea) : 0;
}

/** Radius of the circle of which a chord cuts off so much, mm (circle segment tables). */
export function radiusCut(cutMm: number, chordMm: number): number {
  return (cutMm ** 2 + (chordMm / 2) ** 2) / (2 * cutMm);
}
