/**
 * Which segments of a repeat lie near which of a later one, and which of these pairs belong to their join.
 *
 * On the map of pairs of places, both lengths walked, what lies near is islands: each pair of segments holds a part of
 * them, and two pairs go on in one another where they are neighbours along the line and their parts touch. So the
 * island of the join is what is reached from its own pairs, neighbour by neighbour. In time linear in the pairs.
 */

import type { Point } from '../../../shared/plane.js';
import { coincideMm } from '../../../shared/study.js';
import { Growing } from '../../geometry/growing.js';
import { pointToSegment, sharesWithin } from '../../geometry/segment.js';
import type { SegmentIndex } from '../../near/segment-index.js';

/** A later repeat: the same line, moved. */
export interface Moved {
  readonly index: SegmentIndex;
  readonly dx: number;
  readonly dy: number;
}

/** What lies near so many others is no drawing to stitch; the pairs up to here tell enough about it. */
const mostPairs = 500_000;

export class PairsNear {
  /** Whether there are more pairs than these. */
  readonly more: boolean;
  /** Segments of this repeat, and with each a segment of the later one. */
  readonly first: Uint32Array;
  readonly second: Uint32Array;
  /** Of each pair the lengths walked from and to which each lies near the other, mm: first's, then second's. */
  readonly #parts: Float64Array;

  constructor(
    private readonly next: Moved,
    withinMm: number,
  ) {
    const { index, dx, dy } = next;
    const { chainStarts, chainEnds } = index;
    const first = new Growing(new Uint32Array(64));
    const second = new Growing(new Uint32Array(64));
    const parts = new Growing(new Float64Array(256));
    const later: number[] = [];
    for (let c = 0; c < chainStarts.length && first.length < mostPairs; c++) {
      later.length = 0;
      index.visitChainsNear(c, withinMm, (d) => later.push(d), -dx, -dy);
      later.sort((a, d) => a - d);
      for (let i = chainStarts[c]; i < chainEnds[c]; i++) {
        for (const d of later) {
          for (let j = chainStarts[d]; j < chainEnds[d] && first.length < mostPairs; j++) {
            if (!nearParts(next, i, j, withinMm)) continue;
            first.push(i);
            second.push(j);
            for (const mm of near) parts.push(mm);
          }
        }
      }
    }
    this.first = first.taken();
    this.second = second.taken();
    this.#parts = parts.taken();
    this.more = this.first.length === mostPairs;
  }

  get count(): number {
    return this.first.length;
  }

  /** 1 for each pair of the islands on which both repeats come within `withinMm` of a place. */
  islandAt({ x, y }: Point, withinMm: number): Uint8Array {
    const { first, second, count } = this;
    const { points } = this.next.index;
    const isAt = (s: number, px: number, py: number) =>
      pointToSegment(px, py, points[2 * s], points[2 * s + 1], points[2 * s + 2], points[2 * s + 3]) <=
      withinMm;
    const isOn = new Uint8Array(count);
    const numbers = new Map<number, number>();
    const todo: number[] = [];
    for (let n = 0; n < count; n++) {
      numbers.set(first[n] * points.length + second[n], n);
      if (!isAt(first[n], x, y) || !isAt(second[n], x - this.next.dx, y - this.next.dy)) continue;
      isOn[n] = 1;
      todo.push(n);
    }
    for (let n = todo.pop(); n !== undefined; n = todo.pop()) {
      for (let i = first[n] - 1; i <= first[n] + 1; i++) {
        for (let j = second[n] - 1; j <= second[n] + 1; j++) {
          const m = numbers.get(i * points.length + j);
          if (m === undefined || isOn[m] === 1 || !this.#touch(n, m)) continue;
          isOn[m] = 1;
          todo.push(m);
        }
      }
    }
    return isOn;
  }

  #touch(n: number, m: number): boolean {
    const parts = this.#parts;
    const meets = (a: number, b: number) =>
      parts[a] <= parts[b + 1] + coincideMm && parts[b] <= parts[a + 1] + coincideMm;
    return meets(4 * n, 4 * m) && meets(4 * n + 2, 4 * m + 2);
  }
}

const shares = new Float64Array(2);
/** The parts of the two segments held against each other last. */
const near = new Float64Array(4);

/** Writes to `near` where segment i of this repeat and j of the later one lie near each other; false where nowhere. */
function nearParts(
  { index: { points, runMm }, dx, dy }: Moved,
  i: number,
  j: number,
  withinMm: number,
): boolean {
  const ax = points[2 * i];
  const ay = points[2 * i + 1];
  const bx = points[2 * i + 2];
  const by = points[2 * i + 3];
  const cx = points[2 * j] + dx;
  const ex = points[2 * j + 2] + dx;
  if (Math.min(cx, ex) > Math.max(ax, bx) + withinMm || Math.max(cx, ex) < Math.min(ax, bx) - withinMm)
    return false;
  const cy = points[2 * j + 1] + dy;
  const ey = points[2 * j + 3] + dy;
  if (Math.min(cy, ey) > Math.max(ay, by) + withinMm || Math.max(cy, ey) < Math.min(ay, by) - withinMm)
    return false;
  if (!sharesWithin(ax, ay, bx, by, cx, cy, ex, ey, withinMm, shares)) return false;
  near[0] = runMm[i] + shares[0] * (runMm[i + 1] - runMm[i]);
  near[1] = runMm[i] + shares[1] * (runMm[i + 1] - runMm[i]);
  if (!sharesWithin(cx, cy, ex, ey, ax, ay, bx, by, withinMm, shares)) return false;
  near[2] = runMm[j] + shares[0] * (runMm[j + 1] - runMm[j]);
  near[3] = runMm[j] + shares[1] * (runMm[j + 1] - runMm[j]);
  return true;
}
