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
import { distanceBetween } from '../../geometry/point.js';
import { placeAlong, runningLengths } from '../../geometry/polyline.js';
import { pointToSegment } from '../../geometry/segment.js';
import { SegmentIndex } from '../../near/segment-index.js';
import { type Squares, squaresOf } from '../../near/squares.js';
import { strokesTogether } from '../../near/together.js';

const stepMm = 1;
/** Lines that part by more than this do not run side by side, as its cosine: 30 degrees. */
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
  const others = new Others(index, out, withinMm);
  // Most have no other where they begin, whichever are copies: these are passed over first, neighbours in turn.
  const inTurn = strokesTogether(strokes)
    .filter((k) => out[k] === 0 && index.strokeLengthMm(k) >= leastMm)
    .filter((k) => others.besideMm(index.firstPoints[k], 0) < Infinity)
    .sort((a, b) => index.strokeLengthMm(a) - index.strokeLengthMm(b) || b - a);
  const copies: Copy[] = [];
  let more = false;
  for (const k of inTurn) {
    if (copies.length === most) {
      more = true;
      break;
    }
    const offMm = others.besideAllOfMm(k);
    if (offMm === null || offMm <= nearMm) continue;
    out[k] = 1;
    const line = strokes[k];
    const lengthMm = index.strokeLengthMm(k);
    copies.push({ at: placeAlong(line, runningLengths(line), lengthMm / 2), lengthMm, offMm, stroke: k });
  }
  return { places: copies.sort((a, b) => a.stroke - b.stroke), more };
}

/** The strokes, of which those that are `out` are none to lie beside. */
class Others {
  private readonly squares: Squares;
  /** The place looked at, the segment it lies on and the way that runs, and how far off the nearest other is so far. */
  private x = 0;
  private y = 0;
  private segment = 0;
  private ux = 0;
  private uy = 0;
  private nearestMm = Infinity;
  /** The other that lay nearest, here or where looked before. */
  private nearest = 0;

  constructor(
    private readonly index: SegmentIndex,
    private readonly out: Uint8Array,
    private readonly withinMm: number,
  ) {
    this.squares = squaresOf(index);
  }

  /** The farthest that a stroke lies from the others beside it, mm; null where somewhere there is none. */
  besideAllOfMm(stroke: number): number | null {
    const { points, firstPoints } = this.index;
    let farthest = 0;
    for (let s = firstPoints[stroke]; s < firstPoints[stroke + 1] - 1; s++) {
      const mm = distanceBetween(points[2 * s + 2], points[2 * s + 3], points[2 * s], points[2 * s + 1]);
      if (mm === 0) continue;
      const steps = Math.ceil(mm / stepMm);
      for (let i = 0; i <= steps; i++) {
        const besideMm = this.besideMm(s, i / steps, farthest);
        if (besideMm === Infinity) return null;
        farthest = Math.max(farthest, besideMm);
      }
    }
    return farthest;
  }

  /** How far another stroke lies beside a place on a segment, mm; Infinity where there is none. The nearest, or one within `enoughMm`. */
  besideMm(segment: number, share: number, enoughMm = 0): number {
    const { points } = this.index;
    const ax = points[2 * segment];
    const ay = points[2 * segment + 1];
    this.segment = segment;
    this.ux = points[2 * segment + 2] - ax;
    this.uy = points[2 * segment + 3] - ay;
    this.x = ax + share * this.ux;
    this.y = ay + share * this.uy;
    this.nearestMm = Infinity;
    // What lay nearest a step before, or what follows there, mostly does here.
    const before = this.nearest;
    for (let other = before - 1; other <= before + 1; other++)
      if (this.startsSegment(other)) this.look(other);
    if (this.nearestMm > enoughMm) this.squares.visitNear(this.x, this.y, this.withinMm, this.look);
    return this.nearestMm;
  }

  private startsSegment(point: number): boolean {
    const { strokeOf } = this.index;
    return strokeOf[point] === strokeOf[point + 1];
  }

  private readonly look = (other: number): void => {
    const { ux, uy, out } = this;
    const { points, strokeOf } = this.index;
    if (strokeOf[other] === strokeOf[this.segment] || out[strokeOf[other]] === 1) return;
    const ax = points[2 * other];
    const ay = points[2 * other + 1];
    const bx = points[2 * other + 2];
    const by = points[2 * other + 3];
    const dot = ux * (bx - ax) + uy * (by - ay);
    const lengths = (ux * ux + uy * uy) * ((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
    if (dot * dot < parallel * parallel * lengths) return;
    const mm = pointToSegment(this.x, this.y, ax, ay, bx, by);
    if (mm > this.withinMm || mm >= this.nearestMm) return;
    this.nearestMm = mm;
    this.nearest = other;
  };
}
