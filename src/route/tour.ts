/**
 * The straightest walk through every pass: an Euler trail (L. Euler 1736; C. Hierholzer, Math. Annalen 6, 1873)
 * that turns as little as it can.
 *
 * At each node the ends of the passes that meet there are paired, each pair a way through. First every node takes
 * the pairing with the least turning, by itself: lines that cross go straight on. That falls apart into one trail
 * from start to end and a number of closed loops. Where a loop shares a node with another trail, two ways through
 * can be crossed over so that both become one trail; the crossings-over that cost least turning are taken first,
 * as the shortest links are in a spanning tree, until one trail is left.
 *
 * Turning is weighed by its square: one sharp turn is worse than two gentle ones. The end of a repeat is the start of
 * the next one, so the turn there counts like any other; which way the row runs there is tried level, down and up.
 *
 * Limits: the pairing at one node is exact up to `exactEnds` ends. The crossing-over is a choice of the cheapest
 * next, not of the cheapest whole: the least turning over all trails is not known to be found in reasonable time.
 */
import FlatQueue from 'flatqueue';
import type { Point } from '../../shared/plane.js';
import { placeAlong, pointAt, runningLengths } from '../geometry/polyline.js';
import { Groups } from '../near/groups.js';
import type { Graph } from '../network/graph.js';
import { type Link, leastPairing } from './matching.js';

/** Ends at one node that are paired exactly; where more meet, the straightest pair is taken first. */
const exactEnds = 60;
/** The direction of a piece at its end is taken over this length, so that a tiny first segment does not decide. */
const directionMm = 1;

/** Which way the row may run where one repeat meets the next: level, down or up. Long walks are tried level only. */
const rowAngles = [0, Math.PI / 2, -Math.PI / 2];
const fewPasses = 2_000;

/** A piece walked one way: `back` from its `to` to its `from`. */
export interface Step {
  readonly piece: number;
  readonly back: boolean;
}

/**
 * The walk from `start` to `end` through each of `passes` (piece numbers, a piece twice where it is stitched twice)
 * once. All passes hang together, and start and end are the only nodes where an odd number of them ends, or are the
 * same and there is none.
 */
export function straightestTour(graph: Graph, passes: readonly number[], start: number, end: number): Tour {
  let best: Tour | null = null;
  for (const rowAngle of passes.length <= fewPasses ? rowAngles : [0]) {
    const ends = new Ends(graph, passes, start, end, rowAngle);
    ends.pairAll();
    ends.splice();
    const tour = ends.walk();
    if (!best || tour.turning < best.turning - 1e-9) best = tour;
  }
  return best!;
}

export interface Tour {
  readonly steps: readonly Step[];
  /** The sum of the squares of all turns, that from the end into the next repeat's start among them. */
  readonly turning: number;
}

/**
 * The ends of the passes: 2 i and 2 i + 1 are those of pass i, at its piece's `from` and `to`. Two more stand for the
 * line before the start and after the end, which run the way of the row there: `before` and `after`.
 */
class Ends {
  readonly #passes: readonly number[];
  readonly #before: number;
  readonly #after: number;
  readonly #angle: Float64Array;
  readonly #atNode = new Map<number, number[]>();
  /** For each end all that lie at its node. */
  readonly #here: number[][] = [];
  readonly #partner: Int32Array;
  /** The trails the passes belong to; what lies before the start and after the end are passes of their own here. */
  readonly #trails: Groups;

  constructor(graph: Graph, passes: readonly number[], start: number, end: number, rowAngle: number) {
    this.#passes = passes;
    this.#before = 2 * passes.length;
    this.#after = this.#before + 1;
    this.#angle = new Float64Array(2 * passes.length + 2);
    this.#partner = new Int32Array(this.#angle.length).fill(-1);
    this.#trails = new Groups(passes.length + 2);
    passes.forEach((index, i) => {
      const piece = graph.pieces[index];
      const [atFrom, atTo] = outwardAngles(graph, index);
      this.#put(2 * i, piece.from, atFrom);
      this.#put(2 * i + 1, piece.to, atTo);
    });
    this.#put(this.#before, start, rowAngle + Math.PI);
    this.#put(this.#after, end, rowAngle);
  }

  #put(half: number, node: number, angle: number): void {
    this.#angle[half] = angle;
    const here = this.#atNode.get(node) ?? [];
    here.push(half);
    this.#atNode.set(node, here);
    this.#here[half] = here;
  }

  /** The square of the turn, in radians, of a walker who comes in by one end and leaves by the other. */
  #cost(a: number, b: number): number {
    const between = Math.abs(this.#angle[a] - this.#angle[b]) % (2 * Math.PI);
    return (Math.PI - between) ** 2;
  }

  #join(a: number, b: number): void {
    this.#partner[a] = b;
    this.#partner[b] = a;
    this.#trails.join(this.#passOf(a), this.#passOf(b));
  }

  #passOf(half: number): number {
    return half < this.#before ? half >> 1 : this.#passes.length + (half - this.#before);
  }

  #areOneTrail(a: number, b: number): boolean {
    return this.#trails.of(this.#passOf(a)) === this.#trails.of(this.#passOf(b));
  }

  /** At each node the pairing with the least turning. */
  pairAll(): void {
    for (const here of this.#atNode.values()) {
      const links: Link[] = [];
      for (let i = 0; i < here.length; i++)
        for (let j = i + 1; j < here.length; j++)
          links.push({ a: i, b: j, weight: this.#cost(here[i], here[j]) });
      const pairUp = here.length <= exactEnds ? leastPairing : greedily;
      pairUp(here.length, links).forEach((j, i) => {
        if (j > i) this.#join(here[i], here[j]);
      });
    }
  }

  /** Crosses ways through over, cheapest first, until one trail is left. */
  splice(): void {
    const queue = new FlatQueue<readonly [number, number, number, number]>();
    // Crossing a-b and c-d over to a-c and b-d, where these are two trails.
    const offer = (a: number, c: number) => {
      const b = this.#partner[a];
      const d = this.#partner[c];
      if (this.#areOneTrail(a, c)) return;
      const now = this.#cost(a, b) + this.#cost(c, d);
      queue.push([a, b, c, d], this.#cost(a, c) + this.#cost(b, d) - now);
      queue.push([a, b, d, c], this.#cost(a, d) + this.#cost(b, c) - now);
    };
    for (const here of this.#atNode.values()) {
      const ways = here.filter((half) => half < this.#partner[half]);
      for (const [i, a] of ways.entries()) for (const c of ways.slice(i + 1)) offer(a, c);
    }
    while (queue.length > 0) {
      const [a, b, c, d] = queue.pop()!;
      if (this.#partner[a] !== b || this.#partner[c] !== d || this.#areOneTrail(a, c)) continue;
      this.#join(a, c);
      this.#join(b, d);
      for (const other of this.#here[a]) {
        if (other < this.#partner[other]) for (const half of [a, b]) offer(half, other);
      }
    }
  }

  walk(): Tour {
    const steps: Step[] = [];
    const first = this.#partner[this.#before];
    let turning = this.#cost(this.#partner[this.#after], first);
    for (let half = first; half !== this.#after; half = this.#partner[half ^ 1]) {
      steps.push({ piece: this.#passes[half >> 1], back: (half & 1) === 1 });
      const next = this.#partner[half ^ 1];
      if (next !== this.#after) turning += this.#cost(half ^ 1, next);
    }
    if (steps.length !== this.#passes.length) throw new Error('the passes do not hang together');
    return { steps, turning };
  }
}

function outwardAngles(graph: Graph, index: number): [number, number] {
  const { line, lengthMm } = graph.pieces[index];
  const reach = Math.min(directionMm, lengthMm / 2);
  const run = runningLengths(line);
  const towards = (from: Point, to: Point) => Math.atan2(to.y - from.y, to.x - from.x);
  return [
    towards(pointAt(line, 0), placeAlong(line, run, reach)),
    towards(pointAt(line, run.length - 1), placeAlong(line, run, lengthMm - reach)),
  ];
}

function greedily(count: number, links: readonly Link[]): Int32Array {
  const partner = new Int32Array(count).fill(-1);
  for (const { a, b } of [...links].sort((l, m) => l.weight - m.weight)) {
    if (partner[a] >= 0 || partner[b] >= 0) continue;
    partner[a] = b;
    partner[b] = a;
  }
  return partner;
}
