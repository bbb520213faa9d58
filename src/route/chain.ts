/**
 * Which links between separate parts make the least whole: a link weighs some times its length, and the way back over
 * it counts as retraced line.
 *
 * A link is the only way between what it holds together, so the line passes it once where start and end lie on
 * different sides of it, and twice where they lie on the same. Hence the shape of every answer: a chain of parts
 * from the one that holds the start to the one that holds the end, linked once each, and all other parts hung on,
 * there and back. What hangs is linked by the shortest links (a least spanning tree). In the chain it matters where
 * a part is entered and left: a link from a loose end saves retracing back from that end. So two neighbours may be
 * linked between any of their loose ends and nearest places, and the best choice along the chain is found exactly,
 * part after part (dynamic programming, R. Bellman 1957).
 *
 * Which parts belong in the chain, and in which order, is a rural-postman problem, for which no fast exact method
 * is known (J. Lenstra and A. Rinnooy Kan, Networks 6, 1976). The chain begins as the path through the spanning tree
 * and is bettered by taking a part in, taking one out, and turning a stretch round, as long as that shortens the
 * whole: near-least, not proven least.
 *
 * The links of a spanning tree cross nothing; others are only taken where they cross nothing either.
 */

import type { Point } from '../../shared/plane.js';
import { distance } from '../geometry/point.js';
import { Groups } from '../near/groups.js';
import { SegmentIndex } from '../near/segment-index.js';
import { type Graph, oddNodes, type Piece, partsOf, toggle } from '../network/graph.js';
import { isClear } from './clear.js';
import type { NodeLink } from './node-link.js';
import { leastRetrace } from './retrace.js';

/** Links considered between two parts, and loose ends of a part that may take one. */
const optionsAPair = 8;
const endsAPart = 12;
/** Pieces looked at in search of a better chain, after which the best so far is taken. */
const searchWork = 10_000_000;

interface Answer {
  readonly totalMm: number;
  readonly links: readonly NodeLink[];
}

export class ChainSearch {
  readonly #nodes: readonly Point[];
  readonly #parts: readonly LocalPart[];
  readonly #partOf: Int32Array;
  readonly #shortest: readonly NodeLink[];
  readonly #index: SegmentIndex;
  readonly #options = new Map<number, readonly NodeLink[]>();

  /** `shortest` has the shortest link of every two parts. */
  constructor(
    graph: Graph,
    shortest: readonly NodeLink[],
    private readonly start: number,
    private readonly end: number,
    private readonly linkWeight: number,
  ) {
    const { part, count } = partsOf(graph);
    this.#nodes = graph.nodes;
    this.#partOf = part;
    this.#parts = Array.from({ length: count }, (_, p) => new LocalPart(graph, part, p));
    this.#shortest = [...shortest].sort((l, m) => l.lengthMm - m.lengthMm);
    this.#index = new SegmentIndex(graph.pieces.map(({ line }) => line));
    for (const { a, b, from, to } of shortest) {
      this.#parts[a].attachments.add(from);
      this.#parts[b].attachments.add(to);
    }
  }

  best(): readonly NodeLink[] {
    let chain = this.#firstChain();
    let answer = this.#answer(chain);
    for (let better = true; better && this.#work() < searchWork; ) {
      better = false;
      for (const other of this.#changed(chain)) {
        const changed = this.#answer(other);
        if (changed.totalMm < answer.totalMm - 1e-6) {
          [chain, answer, better] = [other, changed, true];
          break;
        }
        if (this.#work() >= searchWork) break;
      }
    }
    return answer.links;
  }

  #work(): number {
    return this.#parts.reduce((sum, part) => sum + part.work, 0);
  }

  /** The path through the spanning tree from the start's part to the end's. */
  #firstChain(): number[] {
    const last = this.#partOf[this.end];
    const tree = this.#hang([]);
    const walk = (chain: number[]): number[] | null => {
      const here = chain[chain.length - 1];
      if (here === last) return chain;
      for (const { a, b } of tree) {
        const next = a === here ? b : b === here ? a : -1;
        if (next < 0 || next === chain[chain.length - 2]) continue;
        const found = walk([...chain, next]);
        if (found) return found;
      }
      return null;
    };
    return walk([this.#partOf[this.start]])!;
  }

  *#changed(chain: readonly number[]): Generator<number[]> {
    for (let p = 0; p < this.#parts.length; p++) {
      if (chain.includes(p)) continue;
      for (let k = 1; k < chain.length; k++) yield [...chain.slice(0, k), p, ...chain.slice(k)];
    }
    for (let k = 1; k + 1 < chain.length; k++) yield [...chain.slice(0, k), ...chain.slice(k + 1)];
    for (let k = 1; k + 2 < chain.length; k++)
      for (let l = k + 2; l < chain.length; l++)
        yield [...chain.slice(0, k), ...chain.slice(k, l).reverse(), ...chain.slice(l)];
  }

  /** The least links and retracing for this chain. */
  #answer(chain: readonly number[]): Answer {
    const hung = this.#hang(chain);
    let totalMm = 0;
    for (const { lengthMm } of hung) totalMm += (1 + this.linkWeight) * lengthMm;
    this.#parts.forEach((part, p) => {
      if (!chain.includes(p)) totalMm += part.retraceMm(-1, -1);
    });
    const once = this.#alongChain(chain);
    return { totalMm: totalMm + once.totalMm, links: [...once.links, ...hung] };
  }

  /** The shortest links of all that is not in the chain, to each other and to the chain. */
  #hang(chain: readonly number[]): NodeLink[] {
    const groups = new Groups(this.#parts.length);
    for (const part of chain) groups.join(part, chain[0]);
    return this.#shortest.filter(({ a, b }) => {
      if (groups.of(a) === groups.of(b)) return false;
      groups.join(a, b);
      return true;
    });
  }

  /** Where best to link neighbours of the chain: for each link the least length that leads up to it. */
  #alongChain(chain: readonly number[]): Answer {
    let reached: Answer[] = [{ totalMm: 0, links: [] }];
    let entries = [this.start];
    for (let k = 0; k + 1 < chain.length; k++) {
      const part = this.#parts[chain[k]];
      const options = this.#optionsBetween(chain[k], chain[k + 1]);
      const next = options.map((option): Answer => {
        const ways = entries.map(
          (entry, i) =>
            reached[i].totalMm + part.retraceMm(entry, option.from) + this.linkWeight * option.lengthMm,
        );
        const best = ways.indexOf(Math.min(...ways));
        return { totalMm: ways[best], links: [...reached[best].links, option] };
      });
      reached = next;
      entries = options.map(({ to }) => to);
      if (reached.length === 0) return { totalMm: Infinity, links: [] };
    }
    const last = this.#parts[chain[chain.length - 1]];
    const ways = entries.map((entry, i) => reached[i].totalMm + last.retraceMm(entry, this.end));
    const best = ways.indexOf(Math.min(...ways));
    return { totalMm: ways[best], links: reached[best].links };
  }

  #optionsBetween(a: number, b: number): readonly NodeLink[] {
    const key = a * this.#parts.length + b;
    const known = this.#options.get(key);
    if (known) return known;
    const all: NodeLink[] = [];
    for (const from of this.#parts[a].ends())
      for (const to of this.#parts[b].ends())
        all.push({ a, b, from, to, lengthMm: distance(this.#nodes[from], this.#nodes[to]) });
    all.sort((l, m) => l.lengthMm - m.lengthMm || l.from - m.from || l.to - m.to);
    const loose = (link: NodeLink) => this.#parts[a].odd.has(link.from) && this.#parts[b].odd.has(link.to);
    const clear = (links: readonly NodeLink[]) => {
      const found: NodeLink[] = [];
      for (const link of links) {
        if (found.length >= optionsAPair / 2) break;
        if (isClear(this.#index, this.#nodes[link.from], this.#nodes[link.to])) found.push(link);
      }
      return found;
    };
    const options = [...new Set([...clear(all), ...clear(all.filter(loose))])];
    this.#options.set(key, options);
    return options;
  }
}

/** One part as a graph of its own, nodes named as in the whole. */
class LocalPart {
  readonly attachments = new Set<number>();
  readonly odd: ReadonlySet<number>;
  /** Pieces looked at so far. */
  work = 0;
  readonly #graph: Graph;
  readonly #local = new Map<number, number>();
  readonly #known = new Map<string, number>();

  constructor(graph: Graph, partOf: Int32Array, part: number) {
    const nodes: Point[] = [];
    const own: number[] = [];
    graph.nodes.forEach((at, n) => {
      if (partOf[n] !== part) return;
      this.#local.set(n, nodes.length);
      nodes.push(at);
      own.push(n);
    });
    const pieces: Piece[] = graph.pieces
      .filter(({ from }) => partOf[from] === part)
      .map((piece) => ({ ...piece, from: this.#local.get(piece.from)!, to: this.#local.get(piece.to)! }));
    this.#graph = { nodes, pieces };
    this.odd = new Set([...oddNodes(this.#graph)].map((n) => own[n]));
  }

  /** The nodes that may take a link. */
  ends(): number[] {
    return [...new Set([...[...this.odd].slice(0, endsAPart), ...this.attachments])];
  }

  /** The least retracing within the part for a line that enters and leaves it at these nodes; -1, -1: comes back. */
  retraceMm(enter: number, leave: number): number {
    const key = `${enter} ${leave}`;
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    const odd = new Set([...this.odd].map((n) => this.#local.get(n)!));
    if (enter !== leave) {
      toggle(odd, this.#local.get(enter)!);
      toggle(odd, this.#local.get(leave)!);
    }
    this.work += this.#graph.pieces.length * (1 + odd.size);
    const { lengthMm } = leastRetrace(this.#graph, odd);
    this.#known.set(key, lengthMm);
    return lengthMm;
  }
}
