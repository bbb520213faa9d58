/**
 * What a row meets as the next one moves down away from it: for every pair of their segments one interval of spacings
 * at which the two are nearer than the clearance.
 *
 * The pairs are found by going down both rows' trees of boxes at once: the interval of two boxes, known from their sides
 * and the clearance, holds those of all pairs in them, so that whatever cannot better the answer is left out (branch and
 * bound). Exact; a question takes about as long as there are boxes whose intervals end near the answer.
 */
import type { Layout } from '../../shared/layout.js';
import { askedByPieces, type Piece } from './asked.js';
import { placedSegment } from './between-rows.js';
import { type Placement, placementOf } from './layout.js';
import type { Row } from './row.js';
import { type SegmentTree, segmentsOfLeaf, segmentTreeOf } from './segment-tree.js';

/** Touching rows are told from clear ones by a hair even where no clearance is asked for, mm. */
const hairMm = 1e-6;

export class Obstacles {
  readonly #clearanceMm: number;
  /** Where the two rows would lie at a spacing of nothing. */
  readonly #above: Placement;
  readonly #below: Placement;
  readonly #tree: SegmentTree;
  /** How far right the lower row's repeats that can be met lie of the one in the tree, in its own coordinates. */
  readonly #shifts: readonly number[];
  /** The interval of the boxes or segments looked at last. */
  #from = 0;
  #to = 0;

  /** Row `index` of a layout and the one after it. */
  constructor(
    private readonly row: Row,
    layout: Layout,
    index: number,
    clearanceMm: number,
  ) {
    this.#clearanceMm = Math.max(clearanceMm, hairMm);
    this.#above = placementOf(row, layout, 0, index);
    this.#below = placementOf(row, layout, 0, index + 1);
    this.#tree = segmentTreeOf(row);
    this.#shifts = this.#reachable();
  }

  /** The farthest end of an interval that holds this spacing; the spacing itself where none does. */
  endOfForbidden(spacingMm: number): number {
    let best = spacingMm;
    this.#search(
      () => this.#from <= spacingMm && this.#to > best,
      (from, to) => {
        if (from <= spacingMm && to > best) best = to;
      },
      () => this.#to,
    );
    return best;
  }

  /** The nearest beginning of an interval ahead of this spacing, which none holds; Infinity where there is none. */
  nextForbidden(spacingMm: number): number {
    let best = Infinity;
    this.#search(
      () => this.#to > spacingMm && this.#from < best,
      (from, to) => {
        if (to > spacingMm && from < best) best = Math.max(from, spacingMm);
      },
      () => -this.#from,
    );
    return best;
  }

  /**
   * Goes down all pairs of boxes that may better the answer, the more promising first. All three ask about the interval
   * looked at last.
   */
  #search(may: () => boolean, take: (from: number, to: number) => void, promise: () => number): void {
    const { leaves, boxes } = this.#tree;
    for (const shift of this.#shifts) {
      const stack = [1, 1];
      while (stack.length > 0) {
        const b = stack.pop()!;
        const a = stack.pop()!;
        if (!this.#boxes(a, b, shift) || !may()) continue;
        if (a >= leaves && b >= leaves) {
          this.#leaves(a, b, shift, may, take);
          continue;
        }
        const splitA = b >= leaves || (a < leaves && sizeOf(boxes, a) >= sizeOf(boxes, b));
        const [a1, b1, a2, b2] = splitA ? [2 * a, b, 2 * a + 1, b] : [a, 2 * b, a, 2 * b + 1];
        const one = this.#boxes(a1, b1, shift) && may() ? promise() : Number.NEGATIVE_INFINITY;
        const two = this.#boxes(a2, b2, shift) && may() ? promise() : Number.NEGATIVE_INFINITY;
        // The better one is put last, to be looked at first.
        if (one < two) stack.push(a1, b1, a2, b2);
        else stack.push(a2, b2, a1, b1);
      }
    }
  }

  #leaves(
    a: number,
    b: number,
    shift: number,
    may: () => boolean,
    take: (from: number, to: number) => void,
  ): void {
    const [fromA, toA] = segmentsOfLeaf(this.#tree, a);
    const [fromB, toB] = segmentsOfLeaf(this.#tree, b);
    for (let j = fromB; j < toB; j++) {
      const other = placedSegment(this.row, this.#below, j, shift);
      const [bx0, by0, bx1, by1] = other;
      for (let i = fromA; i < toA; i++) {
        const one = placedSegment(this.row, this.#above, i);
        const [ax0, ay0, ax1, ay1] = one;
        const left = Math.max(Math.min(ax0, ax1), Math.min(bx0, bx1));
        const right = Math.min(Math.max(ax0, ax1), Math.max(bx0, bx1));
        const reach = this.#reach(left - right);
        if (Number.isNaN(reach)) continue;
        // Most pairs of a leaf are told by their boxes not to better the answer.
        this.#from = Math.min(ay0, ay1) - Math.max(by0, by1) - reach;
        this.#to = Math.max(ay0, ay1) - Math.min(by0, by1) + reach;
        if (!may()) continue;
        const to = askedByPieces(one, other, this.#clearanceMm);
        if (to === Number.NEGATIVE_INFINITY) continue;
        // Upside down, the smallest spacing is the largest.
        take(-askedByPieces(onItsHead(one), onItsHead(other), this.#clearanceMm), to);
      }
    }
  }

  /** How far what lies `gap` apart sideways reaches down; NaN where that is more than the clearance. */
  #reach(gap: number): number {
    return gap > 0 ? Math.sqrt(this.#clearanceMm ** 2 - gap * gap) : this.#clearanceMm;
  }

  /** The interval of two boxes; false where they can never be nearer than the clearance. */
  #boxes(a: number, b: number, shift: number): boolean {
    const { boxes } = this.#tree;
    const [i, j] = [4 * a, 4 * b];
    const { signX: ux, signY: uy, dx: udx, dy: udy } = this.#above;
    const { signX: lx, signY: ly, dx: ldx, dy: ldy } = this.#below;
    const left = (ux === 1 ? boxes[i] : -boxes[i + 2]) + udx;
    const right = (ux === 1 ? boxes[i + 2] : -boxes[i]) + udx;
    const otherLeft = (lx === 1 ? boxes[j] : -boxes[j + 2]) + lx * shift + ldx;
    const otherRight = (lx === 1 ? boxes[j + 2] : -boxes[j]) + lx * shift + ldx;
    const reach = this.#reach(Math.max(otherLeft - right, left - otherRight));
    if (Number.isNaN(reach)) return false;
    const top = (uy === 1 ? boxes[i + 1] : -boxes[i + 3]) + udy;
    const bottom = (uy === 1 ? boxes[i + 3] : -boxes[i + 1]) + udy;
    const otherTop = (ly === 1 ? boxes[j + 1] : -boxes[j + 3]) + ldy;
    const otherBottom = (ly === 1 ? boxes[j + 3] : -boxes[j + 1]) + ldy;
    this.#from = top - otherBottom - reach;
    this.#to = bottom - otherTop + reach;
    return true;
  }

  #reachable(): number[] {
    const { repeatMm, box } = this.row;
    const width = box.maxX - box.minX;
    const shifts: number[] = [];
    const most = Math.ceil((width + this.#clearanceMm) / repeatMm) + 2;
    const near = Math.round((this.#above.dx - this.#below.dx) / (this.#below.signX * repeatMm));
    const turned =
      this.#below.signX === this.#above.signX ? 0 : Math.round(-(box.minX + box.maxX) / repeatMm);
    for (let k = -most; k <= most; k++) {
      const shift = (near + turned + k) * repeatMm;
      if (this.#boxes(1, 1, shift)) shifts.push(shift);
    }
    return shifts;
  }
}

function onItsHead([x0, y0, x1, y1]: Piece): Piece {
  return [x0, -y0, x1, -y1];
}

function sizeOf(boxes: Float64Array, node: number): number {
  return boxes[4 * node + 2] - boxes[4 * node] + boxes[4 * node + 3] - boxes[4 * node + 1];
}
