/**
 * Chains of neighbouring segments that run one way in x and in y (monotone chains), and a tree of their boxes. A
 * drawing's thousands of tiny segments would otherwise cost a box each. Such a chain never meets itself, and the
 * box round any stretch of it is that of its two ends.
 *
 * The boxes are packed into an R-tree along the Hilbert curve (I. Kamel and C. Faloutsos, 1993; package flatbush).
 * They are upright, or turned so that many long slanting lines lie level (`level-frame.ts`).
 *
 * Limits: many long segments that slant three ways or more lie in each other's boxes and are all looked at.
 */
import Flatbush from 'flatbush';
import { emptyBox, extend } from '../geometry/box.js';
import { BoxPairs } from './box-pairs.js';
import { type Frame, levelFrame } from './level-frame.js';

export class ChainTree {
  /** Chain c holds the segments starts[c] up to ends[c], exclusive. */
  readonly starts: Uint32Array;
  readonly ends: Uint32Array;
  /** minX, minY, maxX, maxY of each chain, upright. */
  readonly boxes: Float64Array;
  /** The turn in which the tree's boxes are upright; null for none. */
  private readonly frame: Frame | null;
  private readonly treeBoxes: Float64Array;
  private readonly tree: Flatbush | null;

  /** Of lines whose points stand one after the other; line k begins at point firstPoints[k]. */
  constructor(
    private readonly points: Float64Array,
    firstPoints: Uint32Array,
    mostSegments: number,
  ) {
    const { starts, ends, boxes } = chainsOf(points, firstPoints, mostSegments);
    this.starts = starts;
    this.ends = ends;
    this.boxes = boxes;
    this.frame = levelFrame(points, firstPoints, boxes);
    this.treeBoxes = this.frame ? turnedBoxes(starts, ends, points, this.frame) : boxes;
    this.tree = treeOf(this.treeBoxes);
  }

  /** Calls `visit` with every chain whose box touches the box given, and perhaps some beside it. */
  visitBox(minX: number, minY: number, maxX: number, maxY: number, visit: (chain: number) => void): void {
    if (!this.frame) {
      this.search(minX, minY, maxX, maxY, visit);
      return;
    }
    const { cos, sin } = this.frame;
    const [u, v] = [cos * (minX + maxX) + sin * (minY + maxY), cos * (minY + maxY) - sin * (minX + maxX)];
    const width = Math.abs(cos) * (maxX - minX) + Math.abs(sin) * (maxY - minY);
    const height = Math.abs(cos) * (maxY - minY) + Math.abs(sin) * (maxX - minX);
    this.search((u - width) / 2, (v - height) / 2, (u + width) / 2, (v + height) / 2, visit);
  }

  /**
   * Calls `visit` with every chain whose box comes within `withinMm` of the box of `chain` moved by (dx, dy); itself
   * among them where it is not moved. Of many long slanting lines it finds far fewer than a query by box.
   */
  visitNear(chain: number, withinMm: number, visit: (chain: number) => void, dx = 0, dy = 0): void {
    const { treeBoxes, frame } = this;
    const du = frame ? frame.cos * dx + frame.sin * dy : dx;
    const dv = frame ? frame.cos * dy - frame.sin * dx : dy;
    const b = 4 * chain;
    this.search(
      treeBoxes[b] + du - withinMm,
      treeBoxes[b + 1] + dv - withinMm,
      treeBoxes[b + 2] + du + withinMm,
      treeBoxes[b + 3] + dv + withinMm,
      visit,
    );
  }

  /**
   * Calls `visit` once with each two chains whose boxes come within `withinMm` of each other, and do so turned by an eighth
   * as well; false where it ended the search.
   */
  visitPairs(withinMm: number, visit: (a: number, b: number) => boolean): boolean {
    const { cos, sin } = this.frame ?? { cos: 1, sin: 0 };
    const eighth = { cos: Math.SQRT1_2 * (cos - sin), sin: Math.SQRT1_2 * (cos + sin) };
    const turned = turnedBoxes(this.starts, this.ends, this.points, eighth);
    // A search for everything gives the chains in the order of the tree, in which neighbours lie near each other.
    const order = this.tree?.search(-Infinity, -Infinity, Infinity, Infinity) ?? [];
    return new BoxPairs(this.treeBoxes, turned, order, withinMm).visit(visit);
  }

  private search(
    minX: number,
    minY: number,
    maxX: number,
    maxY: number,
    visit: (chain: number) => void,
  ): void {
    this.tree?.search(minX, minY, maxX, maxY, (chain) => {
      visit(chain);
      return false;
    });
  }
}

/** Cuts the strokes into chains that run one way in x and in y. */
function chainsOf(points: Float64Array, firstPoints: Uint32Array, mostSegments: number) {
  const starts: number[] = [];
  const ends: number[] = [];
  for (let k = 0; k + 1 < firstPoints.length; k++) {
    const last = firstPoints[k + 1] - 1;
    let s = firstPoints[k];
    while (s < last) {
      const end = endOfChain(points, s, Math.min(last, s + mostSegments));
      starts.push(s);
      ends.push(end);
      s = end;
    }
  }
  const boxes = new Float64Array(4 * starts.length);
  for (let c = 0; c < starts.length; c++) {
    // A chain that runs one way has its first and last point in opposite corners of its box.
    const i = 2 * starts[c];
    const j = 2 * ends[c];
    boxes[4 * c] = Math.min(points[i], points[j]);
    boxes[4 * c + 1] = Math.min(points[i + 1], points[j + 1]);
    boxes[4 * c + 2] = Math.max(points[i], points[j]);
    boxes[4 * c + 3] = Math.max(points[i + 1], points[j + 1]);
  }
  return { starts: Uint32Array.from(starts), ends: Uint32Array.from(ends), boxes };
}

function endOfChain(points: Float64Array, start: number, stop: number): number {
  let signX = 0;
  let signY = 0;
  let x = points[2 * start];
  let y = points[2 * start + 1];
  for (let s = start; s < stop; s++) {
    const dx = points[2 * s + 2] - x;
    const dy = points[2 * s + 3] - y;
    if (dx * signX < 0 || dy * signY < 0) return s;
    if (signX === 0) signX = Math.sign(dx);
    if (signY === 0) signY = Math.sign(dy);
    x = points[2 * s + 2];
    y = points[2 * s + 3];
  }
  return stop;
}

/** The boxes of the chains in the frame, a little too large: turning rounds. */
function turnedBoxes(starts: Uint32Array, ends: Uint32Array, points: Float64Array, { cos, sin }: Frame) {
  const boxes = new Float64Array(4 * starts.length);
  for (let c = 0; c < starts.length; c++) {
    const box = emptyBox();
    for (let i = 2 * starts[c]; i <= 2 * ends[c]; i += 2)
      extend(box, cos * points[i] + sin * points[i + 1], cos * points[i + 1] - sin * points[i]);
    const slack = 1e-12 * Math.max(box.maxX, box.maxY, -box.minX, -box.minY);
    boxes[4 * c] = box.minX - slack;
    boxes[4 * c + 1] = box.minY - slack;
    boxes[4 * c + 2] = box.maxX + slack;
    boxes[4 * c + 3] = box.maxY + slack;
  }
  return boxes;
}

function treeOf(boxes: Float64Array): Flatbush | null {
  const count = boxes.length / 4;
  if (count === 0) return null;
  const tree = new Flatbush(count);
  for (let i = 0; i < boxes.length; i += 4) tree.add(boxes[i], boxes[i + 1], boxes[i + 2], boxes[i + 3]);
  tree.finish();
  return tree;
}
