/**
 * Of ways of the same length the straightest.
 *
 * Between two places there are often two pieces of one length, as the halves of a ring are, and it is all the same
 * which of them is stitched twice, but for how the line turns. Pieces to stitch again are exchanged for their twins as
 * long as that makes the walk straighter, one or two next to each other at a time: a better walk, not proven the best.
 */
import type { Graph } from '../network/graph.js';
import { straightestTour, type Tour } from './tour.js';

/** Twins differ in length by no more than this share. */
const sameShare = 0.005;
/** Walks are tried for no more exchanges, in drawings of no more passes, than these. */
const mostTwins = 24;
const mostPasses = 400;

export interface TwinsChosen {
  readonly tour: Tour;
  /** Pieces to stitch again, some of them exchanged. */
  readonly again: readonly number[];
}

/** The straightest walk found from `start` to `end` through every piece, those of `again` twice or their twins. */
export function withTwins(graph: Graph, again: readonly number[], start: number, end: number): TwinsChosen {
  const every = [...graph.pieces.keys()];
  const chosen = (pieces: readonly number[]): TwinsChosen => {
    return { again: pieces, tour: straightestTour(graph, [...every, ...pieces], start, end) };
  };
  let best = chosen(again);
  if (every.length + again.length > mostPasses) return best;
  const twins = twinsOf(graph, again);
  const places = [...twins.keys()].slice(0, mostTwins);
  for (let better = true; better; ) {
    better = false;
    for (const exchanged of exchanges(places)) {
      const now = new Set(exchanged);
      const other = chosen(best.again.map((piece, i) => (now.has(i) ? twinIn(twins.get(i)!, piece) : piece)));
      if (other.tour.turning >= best.tour.turning - 1e-6) continue;
      [best, better] = [other, true];
    }
  }
  return best;
}

/** For the places in `again` whose piece has a twin: the two of them. */
function twinsOf({ pieces }: Graph, again: readonly number[]): Map<number, readonly [number, number]> {
  const byEnds = new Map<string, number[]>();
  pieces.forEach(({ from, to }, p) => {
    const key = `${Math.min(from, to)} ${Math.max(from, to)}`;
    byEnds.set(key, [...(byEnds.get(key) ?? []), p]);
  });
  const found = new Map<number, readonly [number, number]>();
  again.forEach((piece, i) => {
    const { from, to, lengthMm } = pieces[piece];
    const twin = byEnds
      .get(`${Math.min(from, to)} ${Math.max(from, to)}`)!
      .find((p) => p !== piece && Math.abs(pieces[p].lengthMm - lengthMm) <= sameShare * lengthMm);
    if (twin !== undefined && !again.includes(twin)) found.set(i, [piece, twin]);
  });
  return found;
}

function twinIn([one, other]: readonly [number, number], piece: number): number {
  return piece === one ? other : one;
}

function* exchanges(places: readonly number[]): Generator<number[]> {
  for (const place of places) yield [place];
  for (let a = 0; a < places.length; a++)
    for (let b = a + 1; b < places.length; b++) yield [places[a], places[b]];
}
