/**
 * Which segments of an index lie near each other.
 *
 * Candidates are the pairs of monotone chains whose boxes come near. Both are halved until pairs of segments are left,
 * since the box round a stretch of a chain is that of its two ends: O((n + k) log n) for drawings, whose boxes meet
 * little more often than their lines do (as in the monotone-chain noders of the JTS topology suite).
 *
 * Limits: long segments by the ten thousand that slant three ways or more have boxes that all meet. Of segments of one
 * chain none are given: they run one way and come near nothing but their neighbours.
 */
import type { SegmentIndex } from './segment-index.js';

/** Takes two segments, s < t; false ends the search. */
type Visit = (s: number, t: number) => boolean;

/** Visits all pairs whose boxes come within `withinMm` of each other; false where the search was ended. */
export function visitSegmentPairs(index: SegmentIndex, withinMm: number, visit: Visit): boolean {
  const { chainStarts: starts, chainEnds: ends } = index;
  const pairs = new Pairs(index.points, withinMm, visit);
  for (let c = 0; c < starts.length && pairs.goesOn; c++)
    index.visitChainsNear(c, withinMm, (d) => {
      if (d > c) pairs.halve(starts[c], ends[c], starts[d], ends[d]);
    });
  return pairs.goesOn;
}

class Pairs {
  goesOn = true;

  constructor(
    private readonly points: Float64Array,
    private readonly withinMm: number,
    private readonly visit: Visit,
  ) {}

  /** Two stretches of chains, each from one point to another, are halved where their boxes come near. */
  halve(a: number, b: number, c: number, d: number): void {
    if (!this.goesOn) return;
    if (b - a < d - c) this.halve(c, d, a, b);
    else if (b - a === 1) this.goesOn = this.visit(Math.min(a, c), Math.max(a, c));
    else {
      const middle = (a + b) >> 1;
      if (this.boxesNear(a, middle, c, d)) this.halve(a, middle, c, d);
      if (this.boxesNear(middle, b, c, d)) this.halve(middle, b, c, d);
    }
  }

  /** The box round points a and b and that round c and d. */
  private boxesNear(a: number, b: number, c: number, d: number): boolean {
    const { points, withinMm } = this;
    const ax = points[2 * a];
    const bx = points[2 * b];
    const cx = points[2 * c];
    const dx = points[2 * d];
    if (Math.max(ax, bx) + withinMm < Math.min(cx, dx)) return false;
    if (Math.max(cx, dx) + withinMm < Math.min(ax, bx)) return false;
    const ay = points[2 * a + 1];
    const by = points[2 * b + 1];
    const cy = points[2 * c + 1];
    const dy = points[2 * d + 1];
    return Math.max(ay, by) + withinMm >= Math.min(cy, dy) && Math.max(cy, dy) + withinMm >= Math.min(ay, by);
  }
}
