/** Links between the parts of a drawing that do not touch, so that one line can run through all of them. */
import { polylineOf } from '../geometry/polyline.js';
import { type Graph, type PlaceOnPiece, pieceOf, withNodesAt } from '../network/graph.js';
import { partsOfGraph } from '../network/parts.js';
import { spanningTree } from '../network/spanning.js';
import { ChainSearch } from './chain.js';
import type { NodeLink } from './node-link.js';

/** Drawings of up to this many parts are searched for a better chain than the shortest links alone give. */
export const searchedParts = 24;

export interface Linked {
  /** The graph with the links as its last pieces; old nodes keep their numbers. */
  readonly graph: Graph;
  /** Number of the first link among the pieces. */
  readonly firstLink: number;
}

/** Links all parts of the graph for a line from the node `start` to the node `end`; a link weighs `linkWeight` times its length. */
export function linkParts(graph: Graph, start: number, end: number, linkWeight: number): Linked {
  const parts = partsOfGraph(graph);
  if (parts.length === 1) return { graph, firstLink: graph.pieces.length };
  const searched = parts.length <= searchedParts;
  const pairs = searched
    ? parts.flatMap((part, a) =>
        parts.slice(a + 1).map((other, i) => ({ a, b: a + 1 + i, ...part.linkTo(other) })),
      )
    : spanningTree(parts);
  const places: PlaceOnPiece[] = pairs.flatMap(({ from, to }) => [from, to]);
  const fine = withNodesAt(graph, places);
  const shortest = pairs.map(({ a, b, lengthMm }, i): NodeLink => {
    return { a, b, from: fine.at[2 * i], to: fine.at[2 * i + 1], lengthMm };
  });
  const chosen = searched ? new ChainSearch(fine.graph, shortest, start, end, linkWeight).best() : shortest;
  const { nodes, pieces } = fine.graph;
  const links = chosen.map(({ from, to }) => pieceOf(from, to, polylineOf([nodes[from], nodes[to]])));
  return { graph: { nodes, pieces: [...pieces, ...links] }, firstLink: pieces.length };
}
