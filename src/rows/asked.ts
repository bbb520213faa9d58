/**
 * The spacing that two straight pieces ask for. A place p of the upper piece and a place q of the lower one, dx apart
 * sideways, keep the clearance c at spacing s and every larger one where
 *     s >= y_p - y_q + sqrt(c^2 - dx^2)          (|dx| <= c; else they never meet).
 * The right side is concave in the two places, and moved along both pieces at once it is linear: its largest value lies
 * at an end of one of them against some place of the other, where its derivative is 0 or that piece ends.
 */
import type { Piece } from './row-pair.js';

/** What lies so little farther aside than the clearance meets it: where a turned row lies is right to rounding, mm. */
const hairMm = 1e-9;

/**
 * The most, in mm, that the piece from (x0, h0) to (x1, h1), x0 <= x1, asks for against the place (0, 0); heights are
 * counted towards it. -Infinity where it stays aside. An upright piece must be given by its outer end alone.
 */
function askedByPiece(x0: number, h0: number, x1: number, h1: number, clearanceMm: number): number {
  if (Math.max(x0, -x1) > clearanceMm + hairMm) return -Infinity;
  const width = x1 - x0;
  const rise = h1 - h0;
  const best = (clearanceMm * rise) / (Math.sqrt(width * width + rise * rise) || 1);
  const dx = Math.max(Math.min(best, x1, clearanceMm), x0, -clearanceMm);
  const height = h0 + ((dx - x0) / (width || 1)) * rise;
  return height + Math.sqrt(Math.max(0, clearanceMm * clearanceMm - dx * dx));
}

/** How far what lies `gapMm` apart sideways reaches up and down at most; -Infinity where that is more than the clearance. */
export function reachMm(gapMm: number, clearanceMm: number): number {
  if (gapMm > clearanceMm + hairMm) return -Infinity;
  return Math.sqrt(Math.max(0, clearanceMm * clearanceMm - gapMm * gapMm));
}

/** The most that two segments ask for, the upper one and the lower one moved down by the spacing; y runs down. */
export function askedByPieces(upper: Piece, lower: Piece, clearanceMm: number): number {
  const up = leftToRight([upper[0], upper[1], upper[2], upper[3]]);
  const down = leftToRight([lower[0], -lower[1], lower[2], -lower[3]]);
  return Math.max(
    up[1] + against(down, up[0], clearanceMm),
    up[3] + against(down, up[2], clearanceMm),
    down[1] + against(up, down[0], clearanceMm),
    down[3] + against(up, down[2], clearanceMm),
  );
}

function against([x0, h0, x1, h1]: Piece, x: number, clearanceMm: number): number {
  return askedByPiece(x0 - x, h0, x1 - x, h1, clearanceMm);
}

/** The piece from left to right; of an upright one its higher end alone. */
function leftToRight(piece: Piece): Piece {
  const [x0, h0, x1, h1] = piece;
  if (x0 < x1) return piece;
  if (x0 > x1) return [x1, h1, x0, h0];
  const h = Math.max(h0, h1);
  return [x0, h, x0, h];
}
