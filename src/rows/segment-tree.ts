/**
 * The segments of one repeat in a tree of boxes, for questions of nearness.
 *
 * Neighbours along the line are neighbours in the plane, so the tree is built over the segments in their order, a few
 * to a leaf, once many strokes have been put into an order of their own: a complete binary tree in heap order (node 1 is
 * the root, 2i and 2i + 1 are the children of i).
 */
import type { Polyline } from '../../shared/plane.js';
import { nearestShare, squaredToSegment } from '../geometry/segment.js';
import { strokesTogether } from '../near/together.js';
import type { Placement } from './layout.js';
import { perRow, strokesLookedAt } from './row.js';

const perLeaf = 4;

export interface SegmentTree {
  /** [ax, ay, bx, by] each, those of a stroke in its order. */
  readonly segments: Float64Array;
  readonly count: number;
  /** Leaf nodes are those from `leaves` on; leaf i holds the segments from `perLeaf * i` on. */
  readonly leaves: number;
  /** [minX, minY, maxX, maxY] of each node; Infinity turned inside out where it holds nothing. */
  readonly boxes: Float64Array;
}

export const segmentTreeOf = perRow((row): SegmentTree => {
  const strokes = strokesLookedAt(row);
  const count = strokes.reduce((sum, stroke) => sum + Math.max(0, stroke.length / 2 - 1), 0);
  const segments = new Float64Array(4 * count);
  let n = 0;
  for (const stroke of inPlaceOrder(strokes)) {
    for (let i = 2; i < stroke.length; i += 2, n += 4) {
      segments[n] = stroke[i - 2];
      segments[n + 1] = stroke[i - 1];
      segments[n + 2] = stroke[i];
      segments[n + 3] = stroke[i + 1];
    }
  }
  return treeOf(distinct(segments));
});

/** Without those that lie where another does, drawn either way: a ring drawn ten thousand times over is as near as one. */
function distinct(segments: Float64Array): Float64Array {
  const halves = new Uint32Array(segments.buffer);
  // Of a point's bits; those of both ends are added, so that either way gives the same.
  const mixed = (i: number) => {
    const x = Math.imul(halves[2 * i] ^ halves[2 * i + 1], 0x9e3779b1);
    return Math.imul(x ^ (x >>> 15) ^ halves[2 * i + 2] ^ halves[2 * i + 3], 0x85ebca6b);
  };
  const isPoint = (i: number, j: number) =>
    segments[i] === segments[j] && segments[i + 1] === segments[j + 1];
  const table = new Int32Array(2 ** Math.ceil(Math.log2(segments.length / 2 + 1))).fill(-1);
  let n = 0;
  for (let i = 0; i < segments.length; i += 4) {
    const mix = mixed(i) + mixed(i + 2);
    let at = (mix ^ (mix >>> 16)) & (table.length - 1);
    for (; table[at] >= 0; at = (at + 1) & (table.length - 1)) {
      const j = table[at];
      if ((isPoint(i, j) && isPoint(i + 2, j + 2)) || (isPoint(i, j + 2) && isPoint(i + 2, j))) break;
    }
    if (table[at] >= 0) continue;
    table[at] = n;
    segments.copyWithin(n, i, i + 4);
    n += 4;
  }
  return segments.subarray(0, n);
}

/** Of segments of which neighbours stand together. */
export function treeOf(segments: Float64Array): SegmentTree {
  const count = segments.length / 4;
  let leaves = 1;
  while (leaves * perLeaf < count) leaves *= 2;
  const boxes = new Float64Array(8 * leaves);
  for (let node = 2 * leaves - 1; node >= leaves; node--) {
    let minX = Infinity;
    let minY = Infinity;
    let maxX = -Infinity;
    let maxY = -Infinity;
    const from = firstOfLeaf(leaves, node);
    for (let i = 4 * from; i < 4 * Math.min(from + perLeaf, count); i += 2) {
      minX = Math.min(minX, segments[i]);
      maxX = Math.max(maxX, segments[i]);
      minY = Math.min(minY, segments[i + 1]);
      maxY = Math.max(maxY, segments[i + 1]);
    }
    boxes[4 * node] = minX;
    boxes[4 * node + 1] = minY;
    boxes[4 * node + 2] = maxX;
    boxes[4 * node + 3] = maxY;
  }
  for (let node = leaves - 1; node >= 1; node--) {
    const a = 8 * node;
    const b = a + 4;
    boxes[4 * node] = Math.min(boxes[a], boxes[b]);
    boxes[4 * node + 1] = Math.min(boxes[a + 1], boxes[b + 1]);
    boxes[4 * node + 2] = Math.max(boxes[a + 2], boxes[b + 2]);
    boxes[4 * node + 3] = Math.max(boxes[a + 3], boxes[b + 3]);
  }
  return { segments, count, leaves, boxes };
}

/** From this many strokes on, their order in the file says little about where they lie. */
const many = 64;

/** The strokes in an order in which neighbours stand together, by their first points. */
function inPlaceOrder(strokes: readonly Polyline[]): readonly Polyline[] {
  if (strokes.length < many) return strokes;
  const order = strokesTogether(strokes);
  return strokes.map((_, k) => strokes[order[k]]);
}

function firstOfLeaf(leaves: number, node: number): number {
  return (node - leaves) * perLeaf;
}

/** The segments that a leaf holds: from the first up to the second number. */
export function segmentsOfLeaf(tree: SegmentTree, node: number): [number, number] {
  const from = firstOfLeaf(tree.leaves, node);
  return [from, Math.min(from + perLeaf, tree.count)];
}

/** The tree as it lies at a placement. */
export function placedTree(tree: SegmentTree, { signX, signY, dx, dy }: Placement): SegmentTree {
  if (signX === 1 && signY === 1 && dx === 0 && dy === 0) return tree;
  const segments = tree.segments.map((value, i) => (i % 2 === 0 ? signX * value + dx : signY * value + dy));
  const boxes = tree.boxes.map((_, i, all) => {
    // What was least is most where it is mirrored.
    if (i % 2 === 0) return signX * all[signX === 1 ? i : i ^ 2] + dx;
    return signY * all[signY === 1 ? i : i ^ 2] + dy;
  });
  return { ...tree, segments, boxes };
}

/** Nodes still to be looked at, and the squares of their distances: a tree is less deep than this. */
const pending = new Int32Array(64);
const pendingSquared = new Float64Array(64);

/** The least distance from (x, y) to the segments, or `limitMm` where none is nearer than that. */
export function nearestMm(tree: SegmentTree, x: number, y: number, limitMm: number): number {
  const { segments: s, leaves } = tree;
  let best = limitMm * limitMm;
  pending[0] = 1;
  pendingSquared[0] = boxSquared(tree, 1, x, y);
  for (let count = 1; count > 0; ) {
    count--;
    // What lies nearer may have been found since.
    if (pendingSquared[count] >= best) continue;
    const node = pending[count];
    if (node < leaves) {
      const one = boxSquared(tree, 2 * node, x, y);
      const other = boxSquared(tree, 2 * node + 1, x, y);
      // The nearer one last, so that it is the next.
      const near = one <= other ? 2 * node : 2 * node + 1;
      pending[count] = near ^ 1;
      pendingSquared[count++] = Math.max(one, other);
      pending[count] = near;
      pendingSquared[count++] = Math.min(one, other);
      continue;
    }
    const from = firstOfLeaf(leaves, node);
    const to = 4 * Math.min(from + perLeaf, tree.count);
    for (let i = 4 * from; i < to; i += 4)
      best = Math.min(best, squaredToSegment(x, y, s[i], s[i + 1], s[i + 2], s[i + 3]));
  }
  return Math.sqrt(best);
}

/**
 * Calls `see` with the nearest place of every segment within `withinMm` of (x, y), nearer boxes first, but for those in
 * boxes of which `isHidden` says so: it is told how far left, top, right and bottom of a box lie from the place, and how far off the box is.
 */
export function within(
  tree: SegmentTree,
  x: number,
  y: number,
  withinMm: number,
  see: (footX: number, footY: number, distanceMm: number) => void,
  isHidden: (left: number, top: number, right: number, bottom: number, distanceMm: number) => boolean,
): void {
  const { segments: s, leaves, boxes } = tree;
  const limit = withinMm * withinMm;
  const look = (node: number, squaredMm: number): void => {
    if (squaredMm > limit) return;
    const b = 4 * node;
    const far = Math.sqrt(squaredMm);
    if (isHidden(boxes[b] - x, boxes[b + 1] - y, boxes[b + 2] - x, boxes[b + 3] - y, far)) return;
    if (node < leaves) {
      const one = boxSquared(tree, 2 * node, x, y);
      const other = boxSquared(tree, 2 * node + 1, x, y);
      const near = one <= other ? 2 * node : 2 * node + 1;
      look(near, Math.min(one, other));
      look(near ^ 1, Math.max(one, other));
      return;
    }
    const [from, to] = segmentsOfLeaf(tree, node);
    for (let i = 4 * from; i < 4 * to; i += 4) {
      const share = nearestShare(x, y, s[i], s[i + 1], s[i + 2], s[i + 3]);
      const footX = s[i] + share * (s[i + 2] - s[i]);
      const footY = s[i + 1] + share * (s[i + 3] - s[i + 1]);
      const squared = (footX - x) ** 2 + (footY - y) ** 2;
      if (squared <= limit) see(footX, footY, Math.sqrt(squared));
    }
  };
  look(1, boxSquared(tree, 1, x, y));
}

/** Square of the distance from (x, y) to the box of a node; Infinity where it holds nothing. */
function boxSquared({ boxes }: SegmentTree, node: number, x: number, y: number): number {
  const i = 4 * node;
  const dx = Math.max(boxes[i] - x, 0, x - boxes[i + 2]);
  const dy = Math.max(boxes[i + 1] - y, 0, y - boxes[i + 3]);
  return dx * dx + dy * dy;
}
