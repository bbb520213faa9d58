/**
 * Corners: turns at a single place between legs of at least a stitch. A needle can be brought down in a corner, so
 * it does not matter that no stitch goes round it; what looks like a corner but has legs too short for a stitch is
 * part of a curve, as far as the needle is concerned.
 *
 * "At a single place" is measured, not read off the points: the turn within an eighth of a stitch must be most of
 * the turn within three eighths. So a corner rounded by a tenth of a millimetre is one, a curve drawn with few
 * points is none, and it does not matter how densely the line is drawn.
 */
import { turnDeg } from '../../geometry/point.js';
import { PlaceFinder, turningPoints, type WalkedLine } from './walked-line.js';

const cornerShare = 1 / 8;
/** Smaller turns make no stitch leave the line by more than a tenth of its length. */
const leastTurnDeg = 15;
const leastTurnRad = (leastTurnDeg * Math.PI) / 180 - 1e-9;
/** Of the turn in thrice the stretch. */
const leastConcentration = 0.7;
/** A leg may be this much short of a stitch. */
const legTolerance = 0.98;

/** Numbers of the points of `line` that are corners, ascending. */
export function cornersOf(line: WalkedLine, stitchMm: number): number[] {
  const turns = placesOfTurn(line, stitchMm * cornerShare);
  const { runMm } = line;
  const legMm = legTolerance * stitchMm;
  const begins = ({ from, at, isSingle }: PlaceOfTurn) => runMm[isSingle ? at : from];
  const ends = ({ to, at, isSingle }: PlaceOfTurn) => runMm[isSingle ? at : to];
  return turns
    .filter(({ at, isSingle }, k) => {
      const before = k > 0 ? runMm[at] - ends(turns[k - 1]) : Infinity;
      const after = k + 1 < turns.length ? begins(turns[k + 1]) - runMm[at] : Infinity;
      return isSingle && before >= legMm && after >= legMm;
    })
    .map(({ at }) => at);
}

interface PlaceOfTurn {
  /** Point numbers: the first, the sharpest and the last that belong to it. */
  from: number;
  at: number;
  to: number;
  isSingle: boolean;
}

function placesOfTurn(line: WalkedLine, overMm: number): PlaceOfTurn[] {
  const { runMm } = line;
  const near = new TurnWithin(line, overMm / 2, overMm / 2);
  const wide = new TurnWithin(line, 1.5 * overMm, overMm / 2);
  const sharpest = new TurnWithin(line, 0, overMm);
  const found: PlaceOfTurn[] = [];
  let best = 0;
  // Two chords differ by no more than the line turns from the first to the last of them.
  for (const p of turningPoints(line, overMm, leastTurnRad)) {
    const turn = near.at(runMm[p]);
    if (!(turn >= leastTurnDeg)) continue;
    const last = found[found.length - 1];
    const joins = last !== undefined && runMm[p] - runMm[last.to] <= overMm;
    const sharp = sharpest.at(runMm[p]);
    const isSingle = turn >= leastConcentration * wide.at(runMm[p]);
    if (!joins) found.push({ from: p, at: p, to: p, isSingle });
    else {
      last.to = p;
      if (sharp > best) {
        last.at = p;
        last.isSingle = isSingle;
      }
    }
    if (!joins || sharp > best) best = sharp;
  }
  return found;
}

/** The turn, in degrees, from the chord that ends `gapMm` before a place to the one that begins `gapMm` after it. */
class TurnWithin {
  private readonly finders: PlaceFinder[];

  constructor(
    line: WalkedLine,
    private readonly gapMm: number,
    private readonly chordMm: number,
  ) {
    this.finders = Array.from({ length: 4 }, () => new PlaceFinder(line));
  }

  at(alongMm: number): number {
    const [a, b, c, d] = this.finders;
    a.goTo(alongMm - this.gapMm - this.chordMm);
    b.goTo(alongMm - this.gapMm);
    c.goTo(alongMm + this.gapMm);
    d.goTo(alongMm + this.gapMm + this.chordMm);
    return turnDeg(b.x - a.x, b.y - a.y, d.x - c.x, d.y - c.y);
  }
}
