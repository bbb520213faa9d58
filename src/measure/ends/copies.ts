/**
 * Copies drawn a little off: strokes that run beside other strokes all the way, within a given distance and nearly
 * parallel, farther off somewhere than a retrace is. Such a stroke is a slip of the hand or of a program, since a
 * needle would stitch the same line twice. Of two that lie so, the shorter is the copy, else the later.
 *
 * A stroke is looked at in steps of a millimetre and at its points, and only as long as there is another beside it:
 * most strokes are done at their first place.
 */
import type { Polyline } from '../../../shared/plane.js';
import type { AtLeast, Copy } from '../../../shared/study.js';
import { placeAlong, runningLengths } from '../../geometry/polyline.js';
import { pointToSegment } from '../../geometry/segment.js';
import { SegmentIndex } from '../../near/segment-index.js';
import { type Squares, squaresOf } from '../../near/squares.js';
import { strokesTogether } from '../../near/together.js';

const stepMm = 1;
/** Lines that part by more than this do not run side by side, degrees. */
const parallel = Math.cos((30 * Math.PI) / 180);
/** Shorter strokes are ticks and dots, which a line near them may well cover, mm. */
const leastMm = 2;

/**
 * `apart` are strokes that are set aside already. `nearMm`: what lies no farther off is a retrace, not such a copy. No
 * more than `most` are looked for, the shortest first.
 */
export function copiesOf(
  strokes: readonly Polyline[],
  apart: ReadonlySet<number>,
  { nearMm, withinMm, most }: { nearMm: number; withinMm: number; most: number },
): AtLeast<Copy> {
  if (strokes.length - apart.size < 2) return { places: [], more: false };
  const index = new SegmentIndex(strokes);
  const out = new Uint8Array(strokes.length);
  for (const k of apart) out[k] = 1;
  const drawing = { index, squares: squaresOf(index), out };
  // Most have no other where they begin, whichever are copies: these are passed over first, neighbours in turn.
  const inTurn = strokesTogether(strokes)
    .filter((k) => out[k] === 0 && index.strokeLengthMm(k) >= leastMm)
    .filter((k) => nearestBeside(drawing, index.firstPoints[k], 0, withinMm) < Infinity)
    .sort((a, b) => index.strokeLengthMm(a) - index.strokeLengthMm(b) || b - a);
  const copies: Copy[] = [];
  let more = false;
  for (const k of inTurn) {
    if (copies.length === most) {
      more = true;
      break;
    }
    const offMm = farthestBeside(drawing, k, withinMm);
    if (offMm === null || offMm <= nearMm) continue;
    out[k] = 1;
    const line = strokes[k];
    const lengthMm = index.strokeLengthMm(k);
    copies.push({ at: placeAlong(line, runningLengths(line), lengthMm / 2), lengthMm, offMm, stroke: k });
  }
  return { places: copies.sort((a, b) => a.stroke - b.stroke), more };
}

/** The strokes, and which of them are none to lie beside. */
interface Drawing {
  readonly index: SegmentIndex;
  readonly squares: Squares;
  readonly out: Uint8Array;
}

/** The farthest that a stroke lies from the others beside it, mm; null where somewhere there is none within `withinMm`. */
function farthestBeside(drawing: Drawing, stroke: number, withinMm: number): number | null {
  const { points, firstPoints } = drawing.index;
  let farthest = 0;
  for (let s = firstPoints[stroke]; s < firstPoints[stroke + 1] - 1; s++) {
    const mm = Math.hypot(points[2 * s + 2] - points[2 * s], points[2 * s + 3] - points[2 * s + 1]);
    if (mm === 0) continue;
    const steps = Math.ceil(mm / stepMm);
    for (let i = 0; i <= steps; i++) {
      const least = nearestBeside(drawing, s, i / steps, withinMm);
      if (least === Infinity) return null;
      farthest = Math.max(farthest, least);
    }
  }
  return farthest;
}

/** How far another stroke lies beside a place on a segment, mm; Infinity where there is none. */
function nearestBeside({ index, squares, out }: Drawing, s: number, share: number, withinMm: number): number {
  const { points, strokeOf } = index;
  const [ax, ay] = [points[2 * s], points[2 * s + 1]];
  const [ux, uy] = [points[2 * s + 2] - ax, points[2 * s + 3] - ay];
  const mm = Math.hypot(ux, uy);
  const x = ax + share * ux;
  const y = ay + share * uy;
  let least = Infinity;
  squares.visitNear(x, y, withinMm, (other) => {
    if (strokeOf[other] === strokeOf[s] || out[strokeOf[other]] === 1) return;
    const [cx, cy] = [points[2 * other], points[2 * other + 1]];
    const [dx, dy] = [points[2 * other + 2] - cx, points[2 * other + 3] - cy];
    if (Math.abs(ux * dx + uy * dy) < parallel * mm * Math.sqrt(dx * dx + dy * dy)) return;
    const apart = pointToSegment(x, y, cx, cy, cx + dx, cy + dy);
    if (apart <= withinMm && apart < least) least = apart;
  });
  return least;
}
