/**
 * How near two rows of a stack come: the least distance between any segment of the one and any of the other.
 *
 * Method: both rows' trees of boxes are gone down together, the nearer pair of boxes first, and pairs of boxes that lie
 * farther apart than the best pair of segments so far are left out. Exact.
 */
import type { Layout } from '../../shared/layout.js';
import type { Point } from '../../shared/plane.js';
import type { RowDistance } from '../../shared/rows.js';
import { nearestShare, segmentCrossing, segmentToSegment } from '../geometry/segment.js';
import type { Piece } from './asked.js';
import { kindsOfSeam, type Placement, placementOf } from './layout.js';
import type { Row } from './row.js';
import { type SegmentTree, segmentsOfLeaf, segmentTreeOf } from './segment-tree.js';

/** The nearest segments of two rows. */
export interface NearestPair {
  readonly leastMm: number;
  /** Numbers of the segments in the row's tree. */
  readonly upper: number;
  readonly lower: number;
  /** How far right the repeat of the lower segment lies of the one in the tree, in the lower row's own coordinates. */
  readonly shiftMm: number;
}

/** How near any two rows of the stack come, 0 where they meet or cross, and where, on the motif as drawn. */
export function rowDistance(row: Row, layout: Layout, spacingMm: number): RowDistance {
  let leastMm = Infinity;
  let at: Point = { x: row.box.minX, y: row.box.minY };
  for (let apart = 1; apart * spacingMm - row.heightMm < leastMm; apart++) {
    for (let index = 0; index < kindsOfSeam(layout); index++) {
      const upper = placementOf(row, layout, spacingMm, index);
      const lower = placementOf(row, layout, spacingMm, index + apart);
      const pair = nearestPair(row, upper, lower, leastMm);
      if (pair === null) continue;
      leastMm = pair.leastMm;
      at = placeOnMotif(row, upper, lower, pair);
    }
    if (leastMm === 0) break;
  }
  return { spacingMm, leastMm, at };
}

/**
 * The nearest pair of segments of two rows, or null where none is nearer than `limitMm`. The first pair nearer than
 * `enoughMm` will do.
 */
export function nearestPair(
  row: Row,
  upper: Placement,
  lower: Placement,
  limitMm: number,
  enoughMm = 0,
): NearestPair | null {
  const { box, repeatMm } = row;
  const search = new PairSearch(segmentTreeOf(row), between(upper, lower), limitMm, enoughMm);
  const { signX, dx } = search.map;
  // The lower row's repeats, from the one below the upper row's outwards.
  const width = box.maxX - box.minX;
  const left = Math.min(signX * box.minX, signX * box.maxX) + dx;
  const middle = Math.round((box.minX - left) / repeatMm);
  const tryRepeat = (k: number) => {
    const apart = Math.abs(left + k * repeatMm - box.minX) - width;
    if (apart >= search.leastMm || search.leastMm <= enoughMm) return false;
    search.lookAt(k * repeatMm);
    return true;
  };
  tryRepeat(middle);
  for (let k = middle + 1; tryRepeat(k); ) k++;
  for (let k = middle - 1; tryRepeat(k); ) k--;
  return search.found;
}

/** The map from the lower row's own coordinates to the upper row's own. */
function between(upper: Placement, lower: Placement): Placement {
  return {
    signX: (upper.signX * lower.signX) as 1 | -1,
    signY: (upper.signY * lower.signY) as 1 | -1,
    dx: upper.signX * (lower.dx - upper.dx),
    dy: upper.signY * (lower.dy - upper.dy),
  };
}

class PairSearch {
  found: NearestPair | null = null;
  leastMm: number;
  #shift = 0;

  constructor(
    readonly tree: SegmentTree,
    readonly map: Placement,
    limitMm: number,
    readonly enoughMm: number,
  ) {
    this.leastMm = limitMm;
  }

  /** Looks at the lower row's repeat that lies `shiftMm` to the right, in the upper row's coordinates. */
  lookAt(shiftMm: number): void {
    this.#shift = shiftMm;
    if (this.#apart(1, 1) < this.leastMm) this.#look(1, 1);
  }

  #look(a: number, b: number): void {
    const { leaves, boxes } = this.tree;
    if (a >= leaves && b >= leaves) {
      this.#lookAtLeaves(a, b);
      return;
    }
    const splitA = b >= leaves || (a < leaves && sizeOf(boxes, a) >= sizeOf(boxes, b));
    const [a1, b1, a2, b2] = splitA ? [2 * a, b, 2 * a + 1, b] : [a, 2 * b, a, 2 * b + 1];
    const one = this.#apart(a1, b1);
    const two = this.#apart(a2, b2);
    const oneFirst = one <= two;
    if (Math.min(one, two) < this.leastMm) this.#look(oneFirst ? a1 : a2, oneFirst ? b1 : b2);
    if (this.leastMm <= this.enoughMm) return;
    if (Math.max(one, two) < this.leastMm) this.#look(oneFirst ? a2 : a1, oneFirst ? b2 : b1);
  }

  #lookAtLeaves(a: number, b: number): void {
    const { segments: s } = this.tree;
    const { signX, signY, dx, dy } = this.map;
    const right = dx + this.#shift;
    const [fromA, toA] = segmentsOfLeaf(this.tree, a);
    const [fromB, toB] = segmentsOfLeaf(this.tree, b);
    for (let j = fromB; j < toB; j++) {
      const bx0 = signX * s[4 * j] + right;
      const by0 = signY * s[4 * j + 1] + dy;
      const bx1 = signX * s[4 * j + 2] + right;
      const by1 = signY * s[4 * j + 3] + dy;
      for (let i = fromA; i < toA; i++) {
        const [ax0, ay0, ax1, ay1] = [s[4 * i], s[4 * i + 1], s[4 * i + 2], s[4 * i + 3]];
        const leastMm = segmentToSegment(ax0, ay0, ax1, ay1, bx0, by0, bx1, by1);
        if (leastMm >= this.leastMm) continue;
        this.leastMm = leastMm;
        this.found = { leastMm, upper: i, lower: j, shiftMm: signX * this.#shift };
        if (leastMm <= this.enoughMm) return;
      }
    }
  }

  /** Distance between a box of the upper row and a box of the lower row; Infinity where one holds nothing. */
  #apart(a: number, b: number): number {
    const { boxes } = this.tree;
    const { signX, signY, dx, dy } = this.map;
    const i = 4 * a;
    const j = 4 * b;
    const right = dx + this.#shift;
    const x0 = (signX === 1 ? boxes[j] : -boxes[j + 2]) + right;
    const x1 = (signX === 1 ? boxes[j + 2] : -boxes[j]) + right;
    const y0 = (signY === 1 ? boxes[j + 1] : -boxes[j + 3]) + dy;
    const y1 = (signY === 1 ? boxes[j + 3] : -boxes[j + 1]) + dy;
    const gapX = Math.max(x0 - boxes[i + 2], 0, boxes[i] - x1);
    const gapY = Math.max(y0 - boxes[i + 3], 0, boxes[i + 1] - y1);
    return Math.sqrt(gapX * gapX + gapY * gapY);
  }
}

function sizeOf(boxes: Float64Array, node: number): number {
  return boxes[4 * node + 2] - boxes[4 * node] + boxes[4 * node + 3] - boxes[4 * node + 1];
}

/** Segment number `i` of the row as it lies at a placement. */
export function placedSegment(row: Row, { signX, signY, dx, dy }: Placement, i: number, shiftMm = 0): Piece {
  const { segments: s } = segmentTreeOf(row);
  return [
    signX * (s[4 * i] + shiftMm) + dx,
    signY * s[4 * i + 1] + dy,
    signX * (s[4 * i + 2] + shiftMm) + dx,
    signY * s[4 * i + 3] + dy,
  ];
}

/** Where the pair comes nearest, told on whichever of the two rows lies as drawn. */
function placeOnMotif(row: Row, upper: Placement, lower: Placement, pair: NearestPair): Point {
  const own = placedSegment(row, upper, pair.upper);
  const other = placedSegment(row, lower, pair.lower, pair.shiftMm);
  const asDrawn = upper.signY === 1 && upper.dx === 0;
  const place = asDrawn ? upper : lower;
  const { x, y } = asDrawn ? nearestPlace(own, other) : nearestPlace(other, own);
  const shift = asDrawn ? 0 : pair.shiftMm;
  return { x: place.signX * (x - place.dx) - shift, y: place.signY * (y - place.dy) };
}

/** The place on `piece` that is nearest to `other`. */
function nearestPlace(piece: Piece, other: Piece): Point {
  const [ax, ay, bx, by] = piece;
  const [cx, cy, dx, dy] = other;
  const meet = segmentCrossing(ax, ay, bx, by, cx, cy, dx, dy);
  if (meet) return meet;
  const onPiece = (x: number, y: number): [Point, number] => {
    const share = nearestShare(x, y, ax, ay, bx, by);
    const place = { x: ax + share * (bx - ax), y: ay + share * (by - ay) };
    return [place, Math.hypot(x - place.x, y - place.y)];
  };
  const toOther = (x: number, y: number): [Point, number] => {
    const share = nearestShare(x, y, cx, cy, dx, dy);
    return [{ x, y }, Math.hypot(cx + share * (dx - cx) - x, cy + share * (dy - cy) - y)];
  };
  return [onPiece(cx, cy), onPiece(dx, dy), toOther(ax, ay), toOther(bx, by)].reduce((one, two) =>
    two[1] < one[1] ? two : one,
  )[0];
}
