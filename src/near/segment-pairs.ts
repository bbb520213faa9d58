/**
 * Which segments of an index lie near each other.
 *
 * Candidates are the pairs of monotone chains whose boxes come near (`box-pairs.ts`). Each of the two is cut to what lies
 * in the box round the other; since both run one way, what is left is walked side by side from left to right, as two
 * sorted lists are merged: O((n + k) log n) for drawings, whose boxes meet little more often than their lines do.
 *
 * Limits: long segments by the ten thousand that slant three ways or more have boxes that all meet. Of segments of one
 * chain none are given: they run one way and come near nothing but their neighbours.
 */
import type { SegmentIndex } from './segment-index.js';

/** Takes two segments, s < t; false ends the search. */
type Visit = (s: number, t: number) => boolean;

/** Visits all pairs whose boxes come within `withinMm` of each other; false where the search was ended. */
export function visitSegmentPairs(index: SegmentIndex, withinMm: number, visit: Visit): boolean {
  const { points, chainStarts: starts, chainEnds: ends } = index;
  const pair = new ChainPair(points, withinMm, visit);
  return index.visitChainPairs(withinMm, (c, d) => pair.merge(starts[c], ends[c], starts[d], ends[d]));
}

/** So many segments at a time are passed over on the way to the other chain. */
const leap = 8;

/** Two chains are held against each other: the one from point a to b, the other from c to d. */
class ChainPair {
  private from = 0;
  private to = 0;

  constructor(
    private readonly points: Float64Array,
    private readonly withinMm: number,
    private readonly visit: Visit,
  ) {}

  /** Visits their pairs of segments; false where the search was ended. */
  merge(a: number, b: number, c: number, d: number): boolean {
    // Only what lies in the box round the other can come near it, and of that only what lies in the box round this.
    this.cut(a, b, c, d);
    const { from, to } = this;
    if (from >= to) return true;
    this.cut(c, d, from, to);
    return this.from >= this.to || this.walk(from, to, this.from, this.to);
  }

  /** Leaves of the chain from a to b the segments from `from` up to `to` that come near the box round points c and d. */
  private cut(a: number, b: number, c: number, d: number): void {
    const { points, withinMm } = this;
    const toRight = points[2 * a] <= points[2 * b];
    const toBottom = points[2 * a + 1] <= points[2 * b + 1];
    const minX = Math.min(points[2 * c], points[2 * d]) - withinMm;
    const maxX = Math.max(points[2 * c], points[2 * d]) + withinMm;
    const minY = Math.min(points[2 * c + 1], points[2 * d + 1]) - withinMm;
    const maxY = Math.max(points[2 * c + 1], points[2 * d + 1]) + withinMm;
    // Measured the way the chain runs, it comes to the box where it reaches both its near sides, and leaves it past a far one.
    const signX = toRight ? 1 : -1;
    const signY = toBottom ? 1 : -1;
    const nearX = toRight ? minX : -maxX;
    const farX = toRight ? maxX : -minX;
    const nearY = toBottom ? minY : -maxY;
    const farY = toBottom ? maxY : -minY;
    let s = a;
    // Chains are short: going on is quicker than halving, whose every step is a guess to the processor.
    while (
      s + leap < b &&
      Math.min(signX * points[2 * (s + leap)] - nearX, signY * points[2 * (s + leap) + 1] - nearY) < 0
    )
      s += leap;
    while (s < b && Math.min(signX * points[2 * s + 2] - nearX, signY * points[2 * s + 3] - nearY) < 0) s++;
    this.from = s;
    while (s < b && signX * points[2 * s] <= farX && signY * points[2 * s + 1] <= farY) s++;
    this.to = s;
  }

  /** What is left of two chains, walked from left to right: the pairs that overlap across and down. */
  private walk(a: number, b: number, c: number, d: number): boolean {
    const { points, withinMm, visit } = this;
    const step = points[2 * a] <= points[2 * b] ? 1 : -1;
    const otherStep = points[2 * c] <= points[2 * d] ? 1 : -1;
    const end = step > 0 ? b : a;
    const otherEnd = otherStep > 0 ? d : c;
    let q = otherStep > 0 ? c : d;
    for (let p = step > 0 ? a : b; p !== end; p += step) {
      const low = points[2 * p] - withinMm;
      const high = points[2 * (p + step)] + withinMm;
      while (q !== otherEnd && points[2 * (q + otherStep)] < low) q += otherStep;
      if (q === otherEnd) return true;
      const y = points[2 * p + 1];
      const nextY = points[2 * (p + step) + 1];
      const least = Math.min(y, nextY) - withinMm;
      const most = Math.max(y, nextY) + withinMm;
      for (let r = q; r !== otherEnd && points[2 * r] <= high; r += otherStep) {
        const otherY = points[2 * r + 1];
        const otherNextY = points[2 * (r + otherStep) + 1];
        if (Math.max(otherY, otherNextY) < least || Math.min(otherY, otherNextY) > most) continue;
        const s = step > 0 ? p : p - 1;
        const t = otherStep > 0 ? r : r - 1;
        if (!visit(Math.min(s, t), Math.max(s, t))) return false;
      }
    }
    return true;
  }
}
