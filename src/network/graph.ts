/** The graph of a drawing: places where its lines end, touch or cross, and the pieces of line between them. */
import type { Point, Polyline } from '../../shared/plane.js';
import { lengthOf, placeAlong, runningLengths, stretchOf } from '../geometry/polyline.js';

/**
 * A stretch of line from one node to another; both may be the same. `line` is as it was drawn: it begins and ends
 * within the touch distance of its nodes.
 */
export interface Piece {
  readonly from: number;
  readonly to: number;
  readonly line: Polyline;
  readonly lengthMm: number;
  /** The same stretch as it was drawn a second time, from the same node, where it was. */
  readonly copy?: Polyline;
}

export interface Graph {
  readonly nodes: readonly Point[];
  readonly pieces: readonly Piece[];
}

export function pieceOf(from: number, to: number, line: Polyline): Piece {
  return { from, to, line, lengthMm: lengthOf(line) };
}

/**
 * Which pieces leave each node, packed: those of node n are `halves[first[n]]` up to `halves[first[n + 1] - 1]`. A
 * half is twice the index of its piece, plus one where it is the piece's far end that lies on the node; a piece from
 * a node back to itself has both its halves there.
 */
export interface Adjacency {
  readonly first: Uint32Array;
  readonly halves: Uint32Array;
}

export function adjacencyOf({ nodes, pieces }: Graph): Adjacency {
  const first = new Uint32Array(nodes.length + 1);
  for (const { from, to } of pieces) {
    first[from + 1]++;
    first[to + 1]++;
  }
  for (let n = 0; n < nodes.length; n++) first[n + 1] += first[n];
  const next = first.slice();
  const halves = new Uint32Array(2 * pieces.length);
  pieces.forEach(({ from, to }, i) => {
    halves[next[from]++] = 2 * i;
    halves[next[to]++] = 2 * i + 1;
  });
  return { first, halves };
}

/** The nodes at which an odd number of pieces end: a line that never lifts or retraces can only start or end there. */
export function oddNodes(graph: Graph): Set<number> {
  const odd = new Set<number>();
  for (const { from, to } of graph.pieces) {
    toggle(odd, from);
    toggle(odd, to);
  }
  return odd;
}

/** Puts `item` in where it is out, and out where it is in. */
export function toggle<T>(set: Set<T>, item: T): void {
  if (!set.delete(item)) set.add(item);
}

/** The part (connected piece of the drawing) each node belongs to, numbered from 0. */
export function partsOf({ nodes, pieces }: Graph): { readonly part: Int32Array; readonly count: number } {
  const part = new Int32Array(nodes.length).fill(-1);
  const { first, halves } = adjacencyOf({ nodes, pieces });
  let count = 0;
  for (let seed = 0; seed < nodes.length; seed++) {
    if (part[seed] >= 0) continue;
    const stack = [seed];
    part[seed] = count;
    while (stack.length > 0) {
      const n = stack.pop()!;
      for (let h = first[n]; h < first[n + 1]; h++) {
        const piece = pieces[halves[h] >> 1];
        const other = halves[h] & 1 ? piece.from : piece.to;
        if (part[other] < 0) {
          part[other] = count;
          stack.push(other);
        }
      }
    }
    count++;
  }
  return { part, count };
}

/** A place on a piece, `alongMm` from its `from` node. */
export interface PlaceOnPiece {
  readonly piece: number;
  readonly alongMm: number;
}

/**
 * The graph with a node at each of `places`, which come back as node numbers. Old nodes keep their numbers; a place
 * within `sameMm` of an end of its piece is that end's node.
 */
export function withNodesAt(
  graph: Graph,
  places: readonly PlaceOnPiece[],
  sameMm = 1e-6,
): { readonly graph: Graph; readonly at: readonly number[] } {
  const nodes = [...graph.nodes];
  const at = new Array<number>(places.length).fill(-1);
  const wanted = new Map<number, number[]>();
  places.forEach(({ piece }, i) => {
    const list = wanted.get(piece);
    if (list) list.push(i);
    else wanted.set(piece, [i]);
  });
  const pieces: Piece[] = [];
  graph.pieces.forEach((piece, index) => {
    const here = wanted.get(index);
    if (!here) {
      pieces.push(piece);
      return;
    }
    const run = runningLengths(piece.line);
    here.sort((a, b) => places[a].alongMm - places[b].alongMm);
    let from = piece.from;
    let fromMm = 0;
    for (const i of here) {
      const { alongMm } = places[i];
      if (alongMm - fromMm <= sameMm) at[i] = from;
      else if (piece.lengthMm - alongMm <= sameMm) at[i] = piece.to;
      else {
        at[i] = nodes.length;
        nodes.push(placeAlong(piece.line, run, alongMm));
        pieces.push(stretchOfPiece(piece, run, from, at[i], fromMm, alongMm));
        from = at[i];
        fromMm = alongMm;
      }
    }
    pieces.push(stretchOfPiece(piece, run, from, piece.to, fromMm, piece.lengthMm));
  });
  return { graph: { nodes, pieces }, at };
}

/** What was drawn twice is cut in both, in proportion. */
function stretchOfPiece(
  { line, lengthMm, copy }: Piece,
  run: Float64Array,
  from: number,
  to: number,
  fromMm: number,
  toMm: number,
): Piece {
  const piece = pieceOf(from, to, stretchOf(line, run, fromMm, toMm));
  if (!copy) return piece;
  const copyRun = runningLengths(copy);
  const share = copyRun[copyRun.length - 1] / lengthMm;
  return { ...piece, copy: stretchOf(copy, copyRun, share * fromMm, share * toMm) };
}
