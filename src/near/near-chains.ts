/** Which chains of a segment index lie near each other: the first sieve for every fact about lines side by side. */
import type { SegmentIndex } from './segment-index.js';

export interface NearChains {
  /** The chains near chain c are `others` from `starts[c]` up to `starts[c + 1]`, exclusive. */
  readonly starts: Uint32Array;
  /** Ascending for each chain, and only those that come after it along the line. */
  readonly others: Uint32Array;
}

/** Facts at the usual distances (0.1 mm, 0.8 mm, half a stitch) share one list, made for this distance. */
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
  let others = new Uint32Array(4 * count);
  let filled = 0;
  for (let c = 0; c < count; c++) {
    if (filled >= mostPairs) {
      starts.fill(filled, c + 1);
      break;
    }
    index.visitChainsNear(c, withinMm, (d) => {
      if (d <= c) return;
      if (filled === others.length) others = grown(others);
      others[filled++] = d;
    });
    others.subarray(starts[c], filled).sort();
    starts[c + 1] = filled;
  }
  return { starts, others: others.slice(0, filled) };
}

function grown(list: Uint32Array): Uint32Array<ArrayBuffer> {
  const larger = new Uint32Array(2 * list.length + 16);
  larger.set(list);
  return larger;
}
