/**
 * Every segment of every stroke, in a form in which "what lies near here?" is answered quickly.
 *
 * The points of all strokes stand one after the other in one array. A segment is named by the number of the point
 * it starts at, so segment s runs from point s to point s + 1; the last point of a stroke starts no segment.
 *
 * Indexed are not single segments but short chains of neighbouring ones that run one way in x and in y (monotone
 * chains; at most `chainLength` segments), since a drawing's thousands of tiny segments would otherwise cost a box
 * each. The chains' boxes are packed into an R-tree along the Hilbert curve (I. Kamel and C. Faloutsos, 1993;
 * package flatbush). A chain that runs one way never meets itself.
 *
 * The boxes in the tree are upright, or turned so that many long slanting lines lie level (`level-frame.ts`).
 *
 * Limits: many long segments that slant three ways or more lie in each other's boxes and are all looked at.
 */
import Flatbush from 'flatbush';
import { emptyBox, extend } from '../../shared/box.js';
import type { Polyline } from '../../shared/polyline.js';
import { pointToSegment, segmentToSegment } from '../../shared/segment.js';
import { type Frame, levelFrame } from './level-frame.js';

/** Measured on 1,000,000 points of curves: 8 to 16 are equally fast, 1 takes four times the time and memory. */
const chainLength = 12;

export class SegmentIndex {
  readonly strokes: readonly Polyline[];
  /** [x0, y0, x1, y1, …] of all strokes in turn. */
  readonly points: Float64Array;
  /** Number of the first point of each stroke; one more entry than strokes. */
  readonly firstPoints: Uint32Array;
  /** For each point the number of its stroke. */
  readonly strokeOf: Uint32Array;
  /** For each point the length walked along its stroke from the stroke's first point, mm. */
  readonly runMm: Float64Array;
  /** For each stroke 1 where it ends at its first point. */
  readonly closed: Uint8Array;

  /** Chain c holds the segments chainStarts[c] up to chainEnds[c], exclusive. */
  readonly chainStarts: Uint32Array;
  readonly chainEnds: Uint32Array;
  /** minX, minY, maxX, maxY of each chain. */
  readonly chainBoxes: Float64Array;
  /** The turn in which the tree's boxes are upright; null for none. */
  private readonly frame: Frame | null;
  private readonly treeBoxes: Float64Array;
  private readonly tree: Flatbush | null;

  /**
   * `runMm` are the lengths walked where they are not those of the strokes as they are: of strokes that stand for
   * others with more points.
   */
  constructor(strokes: readonly Polyline[], runMm?: Float64Array) {
    this.strokes = strokes;
    const { points, firstPoints, strokeOf } = oneAfterTheOther(strokes);
    this.points = points;
    this.firstPoints = firstPoints;
    this.strokeOf = strokeOf;
    this.runMm = runMm ?? runsOf(points, strokeOf);
    this.closed = Uint8Array.from(strokes, (line) => Number(endsWhereItStarts(line)));
    const chains = chainsOf(points, firstPoints);
    this.chainStarts = chains.starts;
    this.chainEnds = chains.ends;
    this.chainBoxes = chains.boxes;
    this.frame = levelFrame(points, (p) => strokeOf[p] === strokeOf[p + 1]);
    this.treeBoxes = this.frame ? turnedBoxes(chains.starts, chains.ends, points, this.frame) : chains.boxes;
    this.tree = treeOf(this.treeBoxes);
  }

  /** Length of the stroke, mm. */
  strokeLengthMm(stroke: number): number {
    return this.runMm[this.firstPoints[stroke + 1] - 1];
  }

  /**
   * Calls `visit` with every segment whose box touches the box given, chain by chain. Segments of no length
   * (repeated points) count.
   */
  visitBox(minX: number, minY: number, maxX: number, maxY: number, visit: (segment: number) => void): void {
    const { points, chainStarts, chainEnds } = this;
    this.visitChains(minX, minY, maxX, maxY, (chain) => {
      for (let s = chainStarts[chain]; s < chainEnds[chain]; s++) {
        const i = 2 * s;
        const ax = points[i];
        const bx = points[i + 2];
        if ((ax < minX && bx < minX) || (ax > maxX && bx > maxX)) continue;
        const ay = points[i + 1];
        const by = points[i + 3];
        if ((ay < minY && by < minY) || (ay > maxY && by > maxY)) continue;
        visit(s);
      }
    });
  }

  /** Calls `visit` with every segment at most `withinMm` from (x, y), and its distance, mm. */
  visitNearPoint(
    x: number,
    y: number,
    withinMm: number,
    visit: (segment: number, distanceMm: number) => void,
  ): void {
    const { points } = this;
    this.visitBox(x - withinMm, y - withinMm, x + withinMm, y + withinMm, (s) => {
      const i = 2 * s;
      const d = pointToSegment(x, y, points[i], points[i + 1], points[i + 2], points[i + 3]);
      if (d <= withinMm) visit(s, d);
    });
  }

  /** Calls `visit` with every other segment at most `withinMm` from `segment`, and their distance, mm. */
  visitNearSegment(
    segment: number,
    withinMm: number,
    visit: (segment: number, distanceMm: number) => void,
  ): void {
    const { points } = this;
    const [ax, ay, bx, by] = points.subarray(2 * segment, 2 * segment + 4);
    this.visitBox(
      Math.min(ax, bx) - withinMm,
      Math.min(ay, by) - withinMm,
      Math.max(ax, bx) + withinMm,
      Math.max(ay, by) + withinMm,
      (s) => {
        if (s === segment) return;
        const i = 2 * s;
        const d = segmentToSegment(ax, ay, bx, by, points[i], points[i + 1], points[i + 2], points[i + 3]);
        if (d <= withinMm) visit(s, d);
      },
    );
  }

  /** Calls `visit` with every chain whose box touches the box given, and perhaps some beside it. */
  visitChains(minX: number, minY: number, maxX: number, maxY: number, visit: (chain: number) => void): void {
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
  visitChainsNear(chain: number, withinMm: number, visit: (chain: number) => void, dx = 0, dy = 0): void {
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

function oneAfterTheOther(strokes: readonly Polyline[]) {
  const firstPoints = new Uint32Array(strokes.length + 1);
  strokes.forEach((line, k) => {
    firstPoints[k + 1] = firstPoints[k] + (line.length >> 1);
  });
  const total = firstPoints[strokes.length];
  const points = strokes.length === 1 ? strokes[0] : new Float64Array(2 * total);
  const strokeOf = new Uint32Array(total);
  if (strokes.length > 1) {
    strokes.forEach((line, k) => {
      points.set(line, 2 * firstPoints[k]);
      strokeOf.fill(k, firstPoints[k], firstPoints[k + 1]);
    });
  }
  return { points, firstPoints, strokeOf };
}

function runsOf(points: Float64Array, strokeOf: Uint32Array): Float64Array {
  const run = new Float64Array(strokeOf.length);
  for (let p = 1; p < run.length; p++) {
    if (strokeOf[p] !== strokeOf[p - 1]) continue;
    const i = 2 * p;
    run[p] = run[p - 1] + Math.hypot(points[i] - points[i - 2], points[i + 1] - points[i - 1]);
  }
  return run;
}

function endsWhereItStarts(line: Polyline): boolean {
  const n = line.length;
  return n >= 6 && line[0] === line[n - 2] && line[1] === line[n - 1];
}

/** Cuts the strokes into chains that run one way in x and in y. */
function chainsOf(points: Float64Array, firstPoints: Uint32Array) {
  const starts: number[] = [];
  const ends: number[] = [];
  for (let k = 0; k + 1 < firstPoints.length; k++) {
    const last = firstPoints[k + 1] - 1;
    let s = firstPoints[k];
    while (s < last) {
      const end = endOfChain(points, s, last);
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

function endOfChain(points: Float64Array, start: number, last: number): number {
  let signX = 0;
  let signY = 0;
  const stop = Math.min(last, start + chainLength);
  for (let s = start; s < stop; s++) {
    const dx = Math.sign(points[2 * s + 2] - points[2 * s]);
    const dy = Math.sign(points[2 * s + 3] - points[2 * s + 1]);
    if (dx * signX < 0 || dy * signY < 0) return s;
    if (dx !== 0) signX = dx;
    if (dy !== 0) signY = dy;
  }
  return stop;
}

/** The boxes of the chains in the frame, a little too large: turning rounds. */
function turnedBoxes(starts: Uint32Array, ends: Uint32Array, points: Float64Array, { cos, sin }: Frame) {
  const boxes = new Float64Array(4 * starts.length);
  for (let c = 0; c < starts.length; c++) {
    const box = emptyBox();
    for (let p = starts[c]; p <= ends[c]; p++) {
      const [x, y] = [points[2 * p], points[2 * p + 1]];
      extend(box, cos * x + sin * y, cos * y - sin * x);
    }
    const slack = 1e-12 * Math.max(box.maxX, box.maxY, -box.minX, -box.minY);
    boxes.set([box.minX - slack, box.minY - slack, box.maxX + slack, box.maxY + slack], 4 * c);
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
