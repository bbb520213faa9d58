/** Pieces and the joins between their ends, put one after the other to strokes. */
import type { Polyline } from '../../shared/plane.js';
import { chained, reversed } from '../geometry/polyline.js';

/** An end of a piece: number of the piece, and 0 for its first, 1 for its last point. */
export type PieceEnd = readonly [piece: number, end: 0 | 1];

export interface Join {
  readonly from: PieceEnd;
  readonly to: PieceEnd;
  /** From the one end to the other. */
  readonly line: Polyline;
}

/** The strokes that `pieces` make when joined; each end is in one join at most. Closed ones end where they begin. */
export function strokesOf(pieces: readonly Polyline[], joins: readonly Join[]): Polyline[] {
  const key = ([piece, end]: PieceEnd) => 2 * piece + end;
  const onward = new Map<number, { to: PieceEnd; line: Polyline }>();
  for (const { from, to, line } of joins) {
    onward.set(key(from), { to, line });
    onward.set(key(to), { to: from, line: reversed(line) });
  }
  const used = new Uint8Array(pieces.length);
  const walk = (start: PieceEnd): Polyline => {
    const parts: Polyline[] = [];
    for (let at: PieceEnd | null = start; at !== null && !used[at[0]]; ) {
      const [piece, end]: PieceEnd = at;
      used[piece] = 1;
      parts.push(end === 0 ? pieces[piece] : reversed(pieces[piece]));
      const next = onward.get(key([piece, end === 0 ? 1 : 0]));
      if (next) parts.push(next.line);
      at = next ? next.to : null;
    }
    return chained(parts, 1e-9);
  };
  const strokes: Polyline[] = [];
  for (let piece = 0; piece < pieces.length; piece++)
    for (const end of [0, 1] as const)
      if (!used[piece] && !onward.has(key([piece, end]))) strokes.push(walk([piece, end]));
  for (let piece = 0; piece < pieces.length; piece++) if (!used[piece]) strokes.push(walk([piece, 0]));
  return strokes;
}
