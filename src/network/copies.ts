/** Pieces that lie on one another: what is drawn twice is taken once, and stitched again only where that helps. */

import type { Point } from '../../shared/plane.js';
import { passesBy, placeAlong, pointAt, pointCount, reversed, runningLengths } from '../geometry/polyline.js';
import type { Piece } from './graph.js';

/** Long straight segments are compared at places this far apart, mm. */
const stepMm = 1;

/**
 * The pieces without those that lie within `nearMm` of an earlier one between the same nodes all the way. The first
 * of these is kept with the piece it lies on, as its `copy`.
 */
export function eachOnce(pieces: readonly Piece[], nearMm: number): Piece[] {
  const kept: Piece[] = [];
  const between = new Map<string, number[]>();
  for (const piece of pieces) {
    const key = `${Math.min(piece.from, piece.to)} ${Math.max(piece.from, piece.to)}`;
    const others = between.get(key) ?? [];
    const on = others.find((i) => liesOn(piece, kept[i], nearMm) && liesOn(kept[i], piece, nearMm));
    if (on === undefined) between.set(key, [...others, kept.push(piece) - 1]);
    else if (!kept[on].copy) {
      const copy = piece.from === kept[on].from ? piece.line : reversed(piece.line);
      kept[on] = { ...kept[on], copy };
    }
  }
  return kept;
}

function liesOn(piece: Piece, other: Piece, nearMm: number): boolean {
  if (Math.abs(piece.lengthMm - other.lengthMm) > 2 * nearMm + 0.1 * other.lengthMm) return false;
  const isBy = ({ x, y }: Point) => passesBy(other.line, x, y, nearMm);
  const run = runningLengths(piece.line);
  const steps = Math.ceil(piece.lengthMm / stepMm);
  for (let i = 1; i < steps; i++)
    if (!isBy(placeAlong(piece.line, run, (i * piece.lengthMm) / steps))) return false;
  for (let i = 1; i + 1 < pointCount(piece.line); i++) if (!isBy(pointAt(piece.line, i))) return false;
  return true;
}
