/**
 * Least retracing: which pieces to stitch a second time so that one line can run through everything, the open
 * route-inspection problem (Kwan M.-K., Chinese Mathematics 1, 1962; J. Edmonds and E. Johnson, "Matching, Euler
 * tours and the Chinese postman", Mathematical Programming 5, 1973).
 *
 * A line that starts at S and ends at E passes through every other place, so an even number of passes must meet
 * there (Euler 1736). The places where that fails are the odd ones; repeating the pieces of a path puts its two ends
 * right and leaves the rest even. So the odd places are paired along shortest paths at least total length.
 *
 * Two exact shortcuts keep that small:
 * - A twig (a piece with a free end) is walked twice or not by the parity of its end alone, whatever else is done.
 *   Twigs are taken off first, one after the other, which deals with whole trees.
 * - A pair whose way runs through two or more other odd places is never needed. Together the repeated pieces make
 *   trees in which every odd place has an odd number of branches; let each odd place be the end of the branch towards
 *   the root and pair its other branches: then no way passes more than one odd place. So the search from an odd place
 *   stops at the odd places it reaches, and further links are made of two such ways.
 *
 * Limit: a part of the drawing with more odd places than `exactOdd` (or whose ways or links are too many,
 * `searchWork`, `pairingWork`) is paired block by block from left to right among near neighbours. The answer is then near-least; `atLeastMm` says
 * what no answer can go below: half the sum of the distances from each odd place to its nearest.
 */
import FlatQueue from 'flatqueue';
import { type Adjacency, adjacencyOf, type Graph, partsOf, toggle } from '../network/graph.js';
import { type Link, leastPairing, pairingWork } from './matching.js';

/** Odd places of one part of the drawing that are paired exactly. */
export const exactOdd = 2_000;
/** Odd places times pieces of the drawing, beyond which the ways from each place to all others take more than some seconds. */
export const searchWork = 10_000_000;
/** In near-least pairing: places a block, and near neighbours looked at for each. */
const blockSize = 500;
const neighbours = 12;

export interface Retrace {
  /** Pieces to stitch once more. */
  readonly pieces: readonly number[];
  readonly lengthMm: number;
  /** No set of repeated pieces is shorter than this; `lengthMm` where the answer is exact. */
  readonly atLeastMm: number;
  readonly exact: boolean;
}

/** The pieces to repeat so that exactly the places of `odd` change between even and odd; each part has an even number. */
export function leastRetrace(graph: Graph, odd: ReadonlySet<number>): Retrace {
  const adjacency = adjacencyOf(graph);
  const { repeated, left } = takeOffTwigs(graph, adjacency, odd);
  let atLeastMm = lengthOf(graph, repeated);
  let exact = true;
  const search = new PathSearch(graph, adjacency, repeated.off);
  for (const places of byPart(graph, left)) {
    const pairing = pairExactly(search, places) ?? pairNearly(search, places);
    for (const [a, b] of pairing.pairs) {
      for (const piece of search.path(a, b)) toggle(repeated.pieces, piece);
    }
    atLeastMm += pairing.atLeastMm;
    exact &&= pairing.exact;
  }
  const pieces = [...repeated.pieces].sort((a, b) => a - b);
  const lengthMm = pieces.reduce((sum, piece) => sum + graph.pieces[piece].lengthMm, 0);
  return { pieces, lengthMm, atLeastMm: exact ? lengthMm : atLeastMm, exact };
}

interface Repeated {
  readonly pieces: Set<number>;
  /** 1 for pieces that have been taken off as twigs: no shortest path between others uses them. */
  readonly off: Uint8Array;
}

function lengthOf(graph: Graph, { pieces }: Repeated): number {
  let sum = 0;
  for (const piece of pieces) sum += graph.pieces[piece].lengthMm;
  return sum;
}

function takeOffTwigs(
  graph: Graph,
  { first, halves }: Adjacency,
  odd: ReadonlySet<number>,
): { repeated: Repeated; left: Set<number> } {
  const left = new Set(odd);
  const repeated: Repeated = { pieces: new Set(), off: new Uint8Array(graph.pieces.length) };
  const degree = Int32Array.from(graph.nodes, (_, n) => first[n + 1] - first[n]);
  const tips: number[] = [];
  degree.forEach((d, n) => {
    if (d === 1) tips.push(n);
  });
  while (tips.length > 0) {
    const tip = tips.pop()!;
    for (let h = first[tip]; h < first[tip + 1]; h++) {
      const index = halves[h] >> 1;
      if (repeated.off[index]) continue;
      const base = halves[h] & 1 ? graph.pieces[index].from : graph.pieces[index].to;
      repeated.off[index] = 1;
      if (--degree[base] === 1) tips.push(base);
      if (left.delete(tip)) {
        repeated.pieces.add(index);
        toggle(left, base);
      }
    }
  }
  return { repeated, left };
}

function byPart(graph: Graph, places: ReadonlySet<number>): number[][] {
  const { part } = partsOf(graph);
  const lists = new Map<number, number[]>();
  for (const place of places) {
    const list = lists.get(part[place]);
    if (list) list.push(place);
    else lists.set(part[place], [place]);
  }
  return [...lists.values()];
}

interface Pairing {
  readonly pairs: readonly (readonly [number, number])[];
  readonly atLeastMm: number;
  readonly exact: boolean;
}

function pairExactly(search: PathSearch, places: readonly number[]): Pairing | null {
  if (places.length > exactOdd || places.length * search.graph.pieces.length > searchWork) return null;
  const links = allLinks(search, places);
  if (!links) return null;
  const pairs = pairsOf(places, leastPairing(places.length, links));
  return { pairs, atLeastMm: 0, exact: true };
}

function pairNearly(search: PathSearch, places: readonly number[]): Pairing {
  const pairs: (readonly [number, number])[] = [];
  const { nodes } = search.graph;
  let open = [...places].sort((a, b) => nodes[a].x - nodes[b].x);
  let nearestSumMm = 0;
  const all = new Set(places);
  for (const place of places) nearestSumMm += search.nearest(place, all, 1, 'through')[0].lengthMm;
  while (open.length > 0) {
    const rest: number[] = [];
    for (let i = 0; i < open.length; i += blockSize) {
      const block = open.slice(i, i + blockSize);
      const partner = leastPairing(block.length, linksBetween(search, block, neighbours));
      pairs.push(...pairsOf(block, partner));
      block.forEach((place, n) => {
        if (partner[n] < 0) rest.push(place);
      });
    }
    open = rest;
  }
  return { pairs, atLeastMm: nearestSumMm / 2, exact: false };
}

/** Links by ways that pass at most one other place; null where their number passes what can be paired in time. */
function allLinks(search: PathSearch, places: readonly number[]): Link[] | null {
  const direct = linksBetween(search, places, Infinity);
  const most = pairingWork / places.length;
  if (direct.length > most) return null;
  // Where most pairs are direct, putting ways together takes longer than searching on.
  if (direct.length > places.length ** 2 / 8) return linksBetween(search, places, Infinity, 'through');
  const near: Map<number, number>[] = places.map(() => new Map());
  for (const { a, b, weight } of direct) {
    near[a].set(b, weight);
    near[b].set(a, weight);
  }
  const links = new Map<number, Link>();
  const offer = (a: number, b: number, weight: number) => {
    const key = a * places.length + b;
    const known = links.get(key);
    if (!known || weight < known.weight) links.set(key, { a, b, weight });
  };
  for (const { a, b, weight } of direct) offer(Math.min(a, b), Math.max(a, b), weight);
  for (const around of near) {
    for (const [a, toA] of around) for (const [b, toB] of around) if (a < b) offer(a, b, toA + toB);
    if (links.size > most) return null;
  }
  return [...links.values()];
}

/** Links to the nearest `most` places, each once, by ways that pass no other place, or by any. */
function linksBetween(
  search: PathSearch,
  places: readonly number[],
  most: number,
  atPlaces: 'through' | 'not through' = 'not through',
): Link[] {
  const number = new Map(places.map((place, i) => [place, i]));
  const targets = new Set(places);
  const links: Link[] = [];
  const seen = new Set<number>();
  for (const [a, place] of places.entries()) {
    for (const { node, lengthMm } of search.nearest(place, targets, most, atPlaces)) {
      const b = number.get(node)!;
      const key = Math.min(a, b) * places.length + Math.max(a, b);
      if (seen.has(key)) continue;
      seen.add(key);
      links.push({ a, b, weight: lengthMm });
    }
  }
  return links;
}

function pairsOf(places: readonly number[], partner: Int32Array): [number, number][] {
  const pairs: [number, number][] = [];
  partner.forEach((b, a) => {
    if (b > a) pairs.push([places[a], places[b]]);
  });
  return pairs;
}

interface Reached {
  readonly node: number;
  readonly lengthMm: number;
}

/** Shortest paths along the pieces (E. Dijkstra, Numerische Mathematik 1, 1959), memory shared by many searches. */
class PathSearch {
  readonly #reach: Float64Array;
  readonly #via: Int32Array;
  readonly #touched: number[] = [];
  readonly #queue = new FlatQueue<number>();

  constructor(
    readonly graph: Graph,
    private readonly adjacency: Adjacency,
    /** 1 for pieces no path may use. */
    private readonly off: Uint8Array,
  ) {
    this.#reach = new Float64Array(graph.nodes.length).fill(Infinity);
    this.#via = new Int32Array(graph.nodes.length).fill(-1);
  }

  /** The nearest `most` of `targets`, nearest first. */
  nearest(
    from: number,
    targets: ReadonlySet<number>,
    most: number,
    atTargets: 'through' | 'not through',
  ): Reached[] {
    const found: Reached[] = [];
    this.#run(from, (node, lengthMm) => {
      if (node === from || !targets.has(node)) return 'through';
      found.push({ node, lengthMm });
      return found.length >= most ? 'done' : atTargets;
    });
    return found;
  }

  /** The pieces of a shortest path. */
  path(from: number, to: number): number[] {
    this.#run(from, (node) => (node === to ? 'done' : 'through'));
    const pieces: number[] = [];
    for (let node = to; node !== from; ) {
      const half = this.#via[node];
      const piece = this.graph.pieces[half >> 1];
      pieces.push(half >> 1);
      node = half & 1 ? piece.to : piece.from;
    }
    return pieces;
  }

  #run(from: number, visit: (node: number, lengthMm: number) => 'through' | 'not through' | 'done'): void {
    for (const node of this.#touched) this.#reach[node] = Infinity;
    this.#touched.length = 0;
    this.#queue.clear();
    this.#touched.push(from);
    this.#reach[from] = 0;
    this.#queue.push(from, 0);
    const { first, halves } = this.adjacency;
    while (this.#queue.length > 0) {
      const lengthMm = this.#queue.peekValue()!;
      const node = this.#queue.pop()!;
      if (lengthMm > this.#reach[node]) continue;
      const next = visit(node, lengthMm);
      if (next === 'done') return;
      if (next === 'not through') continue;
      for (let h = first[node]; h < first[node + 1]; h++) {
        if (this.off[halves[h] >> 1]) continue;
        const piece = this.graph.pieces[halves[h] >> 1];
        const other = halves[h] & 1 ? piece.from : piece.to;
        const reach = lengthMm + piece.lengthMm;
        if (reach >= this.#reach[other]) continue;
        if (this.#reach[other] === Infinity) this.#touched.push(other);
        this.#reach[other] = reach;
        this.#via[other] = halves[h];
        this.#queue.push(other, reach);
      }
    }
  }
}
