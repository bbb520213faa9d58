/**
 * Cusps: points at which the line doubles back. The two legs are chords from the point to the places a little way
 * before and behind it, so that neither tiny steps of the drawing nor a tip rounded by a tenth of a millimetre
 * matter. A tip between curved legs is sharp near by, a rounded one from a little farther off: so there are three
 * lengths of leg, and one of them is enough.
 */
import type { Point } from '../../shared/point.js';
import type { Polyline } from '../../shared/polyline.js';
import { type WalkedLine, Walker, walkedLine } from './walked-line.js';

/** mm; a short stitch is about 1 mm, the flattening tolerance a twenty-fifth of the shortest. */
const legsMm = [0.25, 0.5, 1];
/** A leg leads away: its chord is no shorter than this share of its length. */
const leastChord = 0.7;
/** Points this near to each other along the line are one cusp, mm. */
const sameMm = 0.25;

/** Reversals with less than `legsDeg` between their two legs, in the order of the line. */
export function cuspsOf(strokes: readonly Polyline[], legsDeg: number): Point[] {
  return strokes.flatMap((stroke) => cuspsAlong(walkedLine(stroke, 2), legsDeg));
}

function cuspsAlong(line: WalkedLine, legsDeg: number): Point[] {
  const { points, runMm, lengthMm } = line;
  const sharpness = legsMm.map((legMm) => legAngles(line, legMm, legsDeg));
  const found: Point[] = [];
  let best = Infinity;
  let bestAt = -1;
  let lastMm = -Infinity;
  for (let p = 0; p < runMm.length; p++) {
    if (runMm[p] < 0 || (line.closed ? runMm[p] >= lengthMm : runMm[p] > lengthMm)) continue;
    const sharp = Math.min(...sharpness.map((list) => list[p]));
    if (sharp === Infinity) continue;
    if (bestAt >= 0 && runMm[p] - lastMm > sameMm) {
      found.push({ x: points[2 * bestAt], y: points[2 * bestAt + 1] });
      best = Infinity;
    }
    if (sharp < best) {
      best = sharp;
      bestAt = p;
    }
    lastMm = runMm[p];
  }
  if (bestAt >= 0) found.push({ x: points[2 * bestAt], y: points[2 * bestAt + 1] });
  return found;
}

/** For each point the distance between the ends of its legs over their length where it is a cusp, else Infinity. */
function legAngles(line: WalkedLine, legMm: number, legsDeg: number): Float64Array {
  const { points, runMm } = line;
  const out = new Float64Array(runMm.length).fill(Infinity);
  const leastCosine = Math.cos((legsDeg * Math.PI) / 180);
  const leastSquared = (leastChord * legMm) ** 2;
  const before = new Walker(line);
  const after = new Walker(line);
  for (let p = 0; p < runMm.length; p++) {
    const along = runMm[p];
    if (along - legMm < line.fromMm || along + legMm > line.toMm) continue;
    before.goTo(along - legMm);
    after.goTo(along + legMm);
    const ax = before.x - points[2 * p];
    const ay = before.y - points[2 * p + 1];
    const bx = after.x - points[2 * p];
    const by = after.y - points[2 * p + 1];
    const dot = ax * bx + ay * by;
    if (dot <= 0) continue;
    const a = ax * ax + ay * ay;
    const b = bx * bx + by * by;
    if (a < leastSquared || b < leastSquared || dot < leastCosine * Math.sqrt(a * b)) continue;
    out[p] = Math.hypot(before.x - after.x, before.y - after.y) / legMm;
  }
  return out;
}
