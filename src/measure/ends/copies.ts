/**
 * Copies drawn a little off: strokes that run beside other strokes all the way, within a given distance and nearly
 * parallel, farther off somewhere than a retrace is. Such a stroke is a slip of the hand or of a program, since a
 * needle would stitch the same line twice. Of two that lie so, the shorter is the copy, else the later.
 *
 * A stroke is looked at in steps of a millimetre and at its points, and only as long as there is another beside it:
 * most strokes are done at their first place.
 */
import type { Polyline } from '../../../shared/plane.js';
import type { Copy } from '../../../shared/study.js';
import { placeAlong, runningLengths } from '../../geometry/polyline.js';
import { SegmentIndex } from '../../near/segment-index.js';

const stepMm = 1;
/** Lines that part by more than this do not run side by side, degrees. */
const parallel = Math.cos((30 * Math.PI) / 180);
/** Shorter strokes are ticks and dots, which a line near them may well cover, mm. */
const leastMm = 2;

/** `apart` are strokes that are set aside already. `nearMm`: what lies no farther off is a retrace, not such a copy. */
export function copiesOf(
  strokes: readonly Polyline[],
  apart: ReadonlySet<number>,
  nearMm: number,
  withinMm: number,
): Copy[] {
  if (strokes.length - apart.size < 2) return [];
  const index = new SegmentIndex(strokes);
  const out = new Set(apart);
  const inTurn = strokes
    .map((_, k) => k)
    .filter((k) => !apart.has(k) && index.strokeLengthMm(k) >= leastMm)
    .sort((a, b) => index.strokeLengthMm(a) - index.strokeLengthMm(b) || b - a);
  const copies: Copy[] = [];
  for (const k of inTurn) {
    const offMm = farthestBeside(index, k, out, withinMm);
    if (offMm === null || offMm <= nearMm) continue;
    out.add(k);
    const line = strokes[k];
    const lengthMm = index.strokeLengthMm(k);
    copies.push({ at: placeAlong(line, runningLengths(line), lengthMm / 2), lengthMm, offMm, stroke: k });
  }
  return copies.sort((a, b) => a.stroke - b.stroke);
}

/** The farthest that a stroke lies from the others beside it, mm; null where somewhere there is none within `withinMm`. */
function farthestBeside(
  index: SegmentIndex,
  stroke: number,
  out: ReadonlySet<number>,
  withinMm: number,
): number | null {
  const { points, firstPoints, strokeOf } = index;
  let farthest = 0;
  for (let s = firstPoints[stroke]; s < firstPoints[stroke + 1] - 1; s++) {
    const [ax, ay, bx, by] = points.subarray(2 * s, 2 * s + 4);
    const mm = Math.hypot(bx - ax, by - ay);
    if (mm === 0) continue;
    const steps = Math.ceil(mm / stepMm);
    for (let i = 0; i <= steps; i++) {
      const share = i / steps;
      let least = Infinity;
      index.visitNearPoint(ax + share * (bx - ax), ay + share * (by - ay), withinMm, (other, apart) => {
        if (apart >= least || strokeOf[other] === stroke || out.has(strokeOf[other])) return;
        const [dx, dy] = [
          points[2 * other + 2] - points[2 * other],
          points[2 * other + 3] - points[2 * other + 1],
        ];
        const along = Math.abs((bx - ax) * dx + (by - ay) * dy);
        if (along >= parallel * mm * Math.hypot(dx, dy)) least = apart;
      });
      if (least === Infinity) return null;
      farthest = Math.max(farthest, least);
    }
  }
  return farthest;
}
