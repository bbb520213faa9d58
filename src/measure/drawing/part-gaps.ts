/**
 * How far apart the parts of a drawing lie, line to line. Strokes that cross or touch are one part, though their ends
 * may be far from each other; the parts are held together by the shortest links, the same that the route mend bridges.
 */
import type { Polyline } from '../../../shared/plane.js';
import { Refusal } from '../../../shared/refusal.js';
import { networkOf } from '../../network/network.js';
import { partsOfGraph } from '../../network/parts.js';
import { spanningTree } from '../../network/spanning.js';

/** More strokes than this are no motif that someone will join by hand. */
const mostStrokes = 1_000;

/** Lengths of the links, longest first; null for drawings of too many strokes or meetings. */
export function partGapsOf(strokes: readonly Polyline[], mostContacts: number): readonly number[] | null {
  if (strokes.length === 1) return [];
  if (strokes.length > mostStrokes) return null;
  try {
    const parts = partsOfGraph(networkOf(strokes, mostContacts).graph);
    return spanningTree(parts)
      .map(({ lengthMm }) => lengthMm)
      .sort((a, b) => b - a);
  } catch (error) {
    if (error instanceof Refusal) return null;
    throw error;
  }
}
