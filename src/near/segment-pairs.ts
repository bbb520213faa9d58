/**
 * Which segments of an index lie near each other.
 *
 * Candidates are the pairs of monotone chains whose boxes come near (`box-pairs.ts`). Since both run one way, they are
 * walked side by side from left to right, as two sorted lists are merged: first by stretches of some segments, whose boxes
 * are those of their ends, then by segments where two stretches come near: O((n + k) log n) for drawings, whose boxes
 * meet little more often than their lines do.
 *
 * Limits: long segments by the ten thousand that slant three ways or more have boxes that all meet. Of segments of one
 * chain none are given: they run one way and come near nothing but their neighbours.
 */
import type { SegmentIndex } from './segment-index.js';

/** Takes two segments, s < t; false ends the search. */
type Visit = (s: number, t: number) => boolean;

/** Visits all pairs that come within `withinMm` of each other, and others whose boxes do; false where the search was ended. */
export function visitSegmentPairs(index: SegmentIndex, withinMm: number, visit: Visit): boolean {
  const { points, chainStarts: starts, chainEnds: ends } = index;
  const pair = new ChainPair(points, withinMm, visit);
  return index.visitChainPairs(withinMm, (c, d) => pair.merge(starts[c], ends[c], starts[d], ends[d]));
}

/** Segments of a stretch: the root of the most that a chain holds. */
const stretch = 8;

/** Two chains are held against each other: the one from point a to b, the other from c to d. */
class ChainPair {
  constructor(
    private readonly points: Float64Array,
    private readonly withinMm: number,
    private readonly visit: Visit,
  ) {}

  /** Visits their pairs of segments; false where the search was ended. */
  merge(a: number, b: number, c: number, d: number): boolean {
    const { points } = this;
    const back = points[2 * a] > points[2 * b];
    const otherBack = points[2 * c] > points[2 * d];
    return this.stride(back ? b : a, back ? a : b, otherBack ? d : c, otherBack ? c : d);
  }

  /** Both by stretches, from left to right. */
  private stride(a: number, b: number, c: number, d: number): boolean {
    const { points, withinMm } = this;
    const step = a < b ? stretch : -stretch;
    const otherStep = c < d ? stretch : -stretch;
    const top = Math.min(points[2 * c + 1], points[2 * d + 1]);
    const bottom = Math.max(points[2 * c + 1], points[2 * d + 1]);
    let q = c;
    let qEnd = onwards(c, otherStep, d);
    let end = a;
    for (let p = a; p !== b; p = end) {
      end = onwards(p, step, b);
      const y = points[2 * p + 1];
      const endY = points[2 * end + 1];
      const least = Math.min(y, endY) - withinMm;
      const most = Math.max(y, endY) + withinMm;
      if (most < top || least > bottom) continue;
      const low = points[2 * p] - withinMm;
      const high = points[2 * end] + withinMm;
      while (points[2 * qEnd] < low) {
        if (qEnd === d) return true;
        q = qEnd;
        qEnd = onwards(q, otherStep, d);
      }
      // Those of the other that overlap this stretch follow one another, since both chains run one way.
      let from = -1;
      let r = q;
      for (let rEnd = qEnd; points[2 * r] <= high; rEnd = onwards(r, otherStep, d)) {
        const otherY = points[2 * r + 1];
        const otherEndY = points[2 * rEnd + 1];
        if ((otherY >= least || otherEndY >= least) && (otherY <= most || otherEndY <= most)) {
          if (from < 0) from = r;
        } else if (from >= 0) break;
        r = rEnd;
        if (r === d) break;
      }
      if (from >= 0 && !this.walk(p, end, from, r)) return false;
    }
    return true;
  }

  /** Two stretches or more, segment by segment: the pairs that overlap across and down. */
  private walk(a: number, b: number, c: number, d: number): boolean {
    const { points, withinMm, visit } = this;
    const step = a < b ? 1 : -1;
    const otherStep = c < d ? 1 : -1;
    let q = c;
    for (let p = a; p !== b; p += step) {
      const low = points[2 * p] - withinMm;
      const high = points[2 * (p + step)] + withinMm;
      while (points[2 * (q + otherStep)] < low) {
        q += otherStep;
        if (q === d) return true;
      }
      const y = points[2 * p + 1];
      const endY = points[2 * (p + step) + 1];
      const least = Math.min(y, endY) - withinMm;
      const most = Math.max(y, endY) + withinMm;
      for (let r = q; r !== d && points[2 * r] <= high; r += otherStep) {
        const otherY = points[2 * r + 1];
        const otherEndY = points[2 * (r + otherStep) + 1];
        if ((otherY < least && otherEndY < least) || (otherY > most && otherEndY > most)) continue;
        const s = step > 0 ? p : p - 1;
        const t = otherStep > 0 ? r : r - 1;
        if (!visit(Math.min(s, t), Math.max(s, t))) return false;
      }
    }
    return true;
  }
}

/** The number of the point a step on from p, not beyond `end`. */
function onwards(p: number, step: number, end: number): number {
  const next = p + step;
  return step > 0 === next > end ? end : next;
}
