/**
 * Cusps: points at which the line doubles back. The two legs are chords from the point to the places a little way
 * before and behind it, so that neither tiny steps of the drawing nor a tip rounded by a tenth of a millimetre
 * matter. A tip between curved legs is sharp near by, a rounded one from a little farther off: so there are three
 * lengths of leg, and one of them is enough.
 */

import type { Point } from '../../../shared/plane.js';
import { distanceBetween } from '../../geometry/point.js';
import { PlaceFinder, turningPoints, type WalkedLine } from './walked-line.js';

/** mm; a short stitch is about 1 mm, the flattening tolerance a twenty-fifth of the shortest. */
const legsMm = [0.25, 0.5, 1];
/** A leg leads away: its chord is no shorter than this share of its length. */
const leastChord = 0.7;
/** Points this near to each other along the line are one cusp, mm. */
const sameMm = 0.25;

/** Reversals with less than `legsDeg` between their two legs, in the order of the line. */
export function cuspsOf(lines: readonly WalkedLine[], legsDeg: number): Point[] {
  return lines.flatMap((line) => cuspsAlong(line, legsDeg));
}

function cuspsAlong(line: WalkedLine, legsDeg: number): Point[] {
  const { points, runMm, lengthMm } = line;
  const legs = legsMm.map((legMm) => new Legs(line, legMm, legsDeg));
  const found: Point[] = [];
  let sharpest = Infinity;
  let lastMm = -Infinity;
  const leastTurn = ((180 - legsDeg) * Math.PI) / 180;
  for (const p of turningPoints(line, legsMm[legsMm.length - 1], leastTurn)) {
    if (runMm[p] < 0 || runMm[p] >= lengthMm) continue;
    const sharpness = Math.min(...legs.map((pair) => pair.gapAt(p)));
    if (sharpness === Infinity) continue;
    const isNew = runMm[p] - lastMm > sameMm;
    if (!isNew && sharpness < sharpest) found.pop();
    if (isNew || sharpness < sharpest) {
      found.push({ x: points[2 * p], y: points[2 * p + 1] });
      sharpest = sharpness;
    }
    lastMm = runMm[p];
  }
  return found;
}

/** A pair of legs of one length, to be set down at one point after another. */
class Legs {
  private readonly before: PlaceFinder;
  private readonly after: PlaceFinder;
  private readonly leastCosine: number;

  constructor(
    private readonly line: WalkedLine,
    private readonly legMm: number,
    legsDeg: number,
  ) {
    this.before = new PlaceFinder(line);
    this.after = new PlaceFinder(line);
    this.leastCosine = Math.cos((legsDeg * Math.PI) / 180);
  }

  /** The distance between the ends of the legs over their length where the point is a cusp, else Infinity. */
  gapAt(p: number): number {
    const { before, after, legMm } = this;
    const { points, runMm } = this.line;
    if (runMm[p] - legMm < runMm[0] || runMm[p] + legMm > runMm[runMm.length - 1]) return Infinity;
    before.goTo(runMm[p] - legMm);
    after.goTo(runMm[p] + legMm);
    const a = distanceBetween(before.x, before.y, points[2 * p], points[2 * p + 1]);
    const b = distanceBetween(after.x, after.y, points[2 * p], points[2 * p + 1]);
    if (a < leastChord * legMm || b < leastChord * legMm) return Infinity;
    const dot =
      (before.x - points[2 * p]) * (after.x - points[2 * p]) +
      (before.y - points[2 * p + 1]) * (after.y - points[2 * p + 1]);
    if (dot < this.leastCosine * a * b) return Infinity;
    return distanceBetween(before.x, before.y, after.x, after.y) / legMm;
  }
}
