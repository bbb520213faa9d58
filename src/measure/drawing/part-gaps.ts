/**
 * How far apart the parts of a drawing lie, line to line. Strokes that cross or touch are one part, though their ends
 * may be far from each other; the parts are held together by the shortest links, the same that the route mend bridges.
 */
import type { Graph } from '../../network/graph.js';
import { partsOfGraph } from '../../network/parts.js';
import { spanningTree } from '../../network/spanning.js';

/** Lengths of the links, longest first. */
export function partGapsOf(graph: Graph): readonly number[] {
  return spanningTree(partsOfGraph(graph))
    .map(({ lengthMm }) => lengthMm)
    .sort((a, b) => b - a);
}
