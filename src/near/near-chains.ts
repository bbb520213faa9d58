/** Which chains of a segment index lie near each other: the first sieve for piles. */
import { Growing } from '../geometry/growing.js';
import type { SegmentIndex } from './segment-index.js';

export interface NearChains {
  /** The chains near chain c are `others` from `starts[c]` up to `starts[c + 1]`, exclusive. */
  readonly starts: Uint32Array;
  /** Ascending for each chain, and only those that come after it along the line. */
  readonly others: Uint32Array;
  /** True where there were more pairs than are given: those of the chains up to some place are. */
  readonly more: boolean;
}

/** Half a stitch at the usual lengths lies within this distance. */
const sharedMm = 1.2;
/** A tangle of long lines, each near all others, has no end of pairs: the first ones tell enough about it. */
const mostPairs = 10_000_000;
const kept = new WeakMap<SegmentIndex, { withinMm: number; near: NearChains }>();

/** The pairs of chains whose boxes come within `withinMm` of each other, and perhaps some that lie farther apart. */
export function nearChains(index: SegmentIndex, withinMm: number): NearChains {
  const known = kept.get(index);
  if (known && known.withinMm >= withinMm) return known.near;
  const reachMm = Math.max(withinMm, sharedMm);
  const near = pairsWithin(index, reachMm);
  kept.set(index, { withinMm: reachMm, near });
  return near;
}

function pairsWithin(index: SegmentIndex, withinMm: number): NearChains {
  const count = index.chainStarts.length;
  const starts = new Uint32Array(count + 1);
  let more = false;
  const others = new Growing(new Uint32Array(4 * count));
  for (let c = 0; c < count; c++) {
    if (others.length >= mostPairs) {
      starts.fill(others.length, c + 1);
      more = true;
      break;
    }
    index.visitChainsNear(c, withinMm, (d) => {
      if (d > c) others.push(d);
    });
    others.array.subarray(starts[c], others.length).sort();
    starts[c + 1] = others.length;
  }
  return { starts, others: others.taken(), more };
}
