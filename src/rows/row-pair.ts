/**
 * Two rows of a stack, and the pair of their segments that answers a question best.
 *
 * Method: branch and bound. Both rows' trees of boxes are gone down together, the more promising pair of boxes first; what
 * two boxes promise at best is no better than what any pair of segments in them answers, so that whatever cannot better
 * the answer is left out. Exact. A question takes about as long as there are pairs of boxes that promise what is nearly
 * the answer.
 */
import type { Layout } from '../../shared/layout.js';
import { placementOf } from './layout.js';
import { outlineFrom } from './outline.js';
import { perRowAnd, type Row } from './row.js';
import { placedTree, type SegmentTree, segmentsOfLeaf, segmentTreeOf } from './segment-tree.js';

/** A segment: [x0, y0, x1, y1], mm. */
export type Piece = readonly [number, number, number, number];

/** What is asked of two segments, one of either row; the most is wanted. */
export interface Question {
  /**
   * No two segments give more whose boxes lie `gapMm` apart sideways, and meet one another's height at spacings from
   * `fromMm` to `toMm`.
   */
  atMost(gapMm: number, fromMm: number, toMm: number): number;
  /** Of the upper row and of the lower one, both as they lie at a spacing of nothing. */
  of(upper: Piece, lower: Piece): number;
}

export interface Answer {
  readonly most: number;
  readonly upper: Piece;
  readonly lower: Piece;
}

const wholeRow = perRowAnd((row, layout: Layout, index: number) =>
  placedTree(segmentTreeOf(row), placementOf(row, layout, 0, index)),
);

export class RowPair {
  #shiftMm = 0;
  #most = 0;
  #answer: Answer | null = null;

  private constructor(
    private readonly row: Row,
    private readonly upper: SegmentTree,
    private readonly lower: SegmentTree,
  ) {}

  /** Row `index` of a layout and the one `apart` below it, whole. */
  static whole(row: Row, layout: Layout, index: number, apart = 1): RowPair {
    const [upper, lower] = [index, index + apart].map((each) => wholeRow(row, layout, each % 2));
    return new RowPair(row, upper, lower);
  }

  /** Row `index` and the next one, as far as they can be in each other's way when they come from afar. */
  static outlines(row: Row, layout: Layout, index: number): RowPair {
    const [upper, lower] = [index, index + 1].map((each) => placementOf(row, layout, 0, each));
    // A row on its head shows from above what it showed from below.
    return new RowPair(
      row,
      placedTree(outlineFrom(row, upper.signY), upper),
      placedTree(outlineFrom(row, -lower.signY), lower),
    );
  }

  /** The answer, or null where none is more than `over`. */
  ask(question: Question, over = Number.NEGATIVE_INFINITY): Answer | null {
    const { repeatMm } = this.row;
    this.#most = over;
    this.#answer = null;
    const tryRepeat = (k: number) => {
      this.#shiftMm = k * repeatMm;
      const promised = this.#promise(question, 1, 1);
      const isPromising = promised > this.#most;
      this.#look(question, 1, 1, promised);
      return isPromising;
    };
    // The lower row's repeats, from the one below the upper row's outwards.
    const [left, leftBelow] = [this.upper.boxes[4], this.lower.boxes[4]];
    const middle = Math.round((left - leftBelow) / repeatMm);
    tryRepeat(middle);
    for (let k = middle + 1; tryRepeat(k); ) k++;
    for (let k = middle - 1; tryRepeat(k); ) k--;
    return this.#answer;
  }

  #look(question: Question, a: number, b: number, promised: number): void {
    if (promised <= this.#most) return;
    const { upper, lower } = this;
    if (a >= upper.leaves && b >= lower.leaves) {
      this.#lookAtLeaves(question, a, b);
      return;
    }
    // Both trees are of one motif: boxes of one level are about as large.
    const splitsUpper = b >= lower.leaves || (a < upper.leaves && a <= b);
    const a1 = splitsUpper ? 2 * a : a;
    const b1 = splitsUpper ? b : 2 * b;
    const a2 = splitsUpper ? a1 + 1 : a;
    const b2 = splitsUpper ? b : b1 + 1;
    const one = this.#promise(question, a1, b1);
    const two = this.#promise(question, a2, b2);
    const twoFirst = two > one;
    if (twoFirst) this.#look(question, a2, b2, two);
    this.#look(question, a1, b1, one);
    if (!twoFirst) this.#look(question, a2, b2, two);
  }

  #promise(question: Question, a: number, b: number): number {
    const p = this.upper.boxes;
    const q = this.lower.boxes;
    const i = 4 * a;
    const j = 4 * b;
    const gapMm = Math.max(q[j] + this.#shiftMm - p[i + 2], p[i] - q[j + 2] - this.#shiftMm, 0);
    return question.atMost(gapMm, p[i + 1] - q[j + 3], p[i + 3] - q[j + 1]);
  }

  #lookAtLeaves(question: Question, a: number, b: number): void {
    const p = this.upper.segments;
    const q = this.lower.segments;
    const [fromA, toA] = segmentsOfLeaf(this.upper, a);
    const [fromB, toB] = segmentsOfLeaf(this.lower, b);
    for (let j = 4 * fromB; j < 4 * toB; j += 4) {
      const x0 = q[j] + this.#shiftMm;
      const y0 = q[j + 1];
      const x1 = q[j + 2] + this.#shiftMm;
      const y1 = q[j + 3];
      for (let i = 4 * fromA; i < 4 * toA; i += 4) {
        const gapMm = Math.max(
          Math.min(x0, x1) - Math.max(p[i], p[i + 2]),
          Math.min(p[i], p[i + 2]) - Math.max(x0, x1),
          0,
        );
        const fromMm = Math.min(p[i + 1], p[i + 3]) - Math.max(y0, y1);
        const toMm = Math.max(p[i + 1], p[i + 3]) - Math.min(y0, y1);
        if (question.atMost(gapMm, fromMm, toMm) <= this.#most) continue;
        const upper: Piece = [p[i], p[i + 1], p[i + 2], p[i + 3]];
        const lower: Piece = [x0, y0, x1, y1];
        const most = question.of(upper, lower);
        if (most <= this.#most) continue;
        this.#most = most;
        this.#answer = { most, upper, lower };
      }
    }
  }
}
