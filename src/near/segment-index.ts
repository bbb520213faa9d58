/**
 * Every segment of every stroke, in a form in which "what lies near here?" is answered quickly.
 *
 * The points of all strokes stand one after the other in one array. A segment is named by the number of the point
 * it starts at, so segment s runs from point s to point s + 1; the last point of a stroke starts no segment.
 *
 * Indexed are not single segments but short chains of them (`chain-tree.ts`).
 */
import type { Point, Polyline } from '../../shared/plane.js';
import { isClosed } from '../geometry/polyline.js';
import { pointToSegment, segmentToSegment } from '../geometry/segment.js';
import { once } from '../once.js';
import { ChainTree } from './chain-tree.js';

/** Most segments in a chain. Measured on curves of 200,000 points: nearness costs the same from 12 to 64, crossings least at 64. */
const chainLength = 64;

/** A place on the line: on which segment, and how far along its stroke, mm. */
export interface Spot {
  readonly segment: number;
  readonly alongMm: number;
}

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

  private readonly chains: () => ChainTree;

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
    this.runMm = runMm ?? runsOf(points, firstPoints);
    this.closed = Uint8Array.from(strokes, (line) => Number(isClosed(line)));
    this.chains = once(() => new ChainTree(points, firstPoints, chainLength));
  }

  /** Chain c holds the segments chainStarts[c] up to chainEnds[c], exclusive. */
  get chainStarts(): Uint32Array {
    return this.chains().starts;
  }

  get chainEnds(): Uint32Array {
    return this.chains().ends;
  }

  /** minX, minY, maxX, maxY of each chain. */
  get chainBoxes(): Float64Array {
    return this.chains().boxes;
  }

  /** Where a share of a segment lies along its stroke, mm from the stroke's first point. */
  alongMm(segment: number, share: number): number {
    return this.runMm[segment] + share * (this.runMm[segment + 1] - this.runMm[segment]);
  }

  /** The place so far along a stroke: round and round a closed one, held within the ends of another. */
  segmentAt(stroke: number, alongMm: number): Spot {
    const first = this.firstPoints[stroke];
    const last = this.firstPoints[stroke + 1] - 1;
    const whole = this.runMm[last];
    const walked = this.closed[stroke]
      ? alongMm - whole * Math.floor(alongMm / whole)
      : Math.max(0, Math.min(alongMm, whole));
    let [segment, beyond] = [first, last];
    while (beyond - segment > 1) {
      const middle = (segment + beyond) >> 1;
      if (this.runMm[middle] <= walked) segment = middle;
      else beyond = middle;
    }
    return { segment, alongMm: walked };
  }

  /** Where on its segment a place lies, as a share from 0 to 1. */
  shareAt({ segment, alongMm }: Spot): number {
    const lengthMm = this.runMm[segment + 1] - this.runMm[segment];
    return lengthMm > 0 ? (alongMm - this.runMm[segment]) / lengthMm : 0;
  }

  placeOn(spot: Spot): Point {
    const { points } = this;
    const i = 2 * spot.segment;
    const share = this.shareAt(spot);
    return {
      x: points[i] + share * (points[i + 2] - points[i]),
      y: points[i + 1] + share * (points[i + 3] - points[i + 1]),
    };
  }

  /** How the line leads on there: from `withinMm` before the place to as much after it. */
  wayAt({ segment, alongMm }: Spot, withinMm: number): Point {
    const at = (mm: number) => this.placeOn(this.segmentAt(this.strokeOf[segment], mm));
    const [from, to] = [at(alongMm - withinMm), at(alongMm + withinMm)];
    return { x: to.x - from.x, y: to.y - from.y };
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
    this.visitChains(minX, minY, maxX, maxY, (chain) =>
      this.visitInChain(chain, minX, minY, maxX, maxY, visit),
    );
  }

  /** Calls `visit` with every segment of a chain whose box touches the box given. */
  visitInChain(
    chain: number,
    minX: number,
    minY: number,
    maxX: number,
    maxY: number,
    visit: (segment: number) => void,
  ): void {
    const { points } = this;
    const end = this.chainEnds[chain];
    for (let s = this.chainStarts[chain]; s < end; s++) {
      const i = 2 * s;
      const ax = points[i];
      const bx = points[i + 2];
      if ((ax < minX && bx < minX) || (ax > maxX && bx > maxX)) continue;
      const ay = points[i + 1];
      const by = points[i + 3];
      if ((ay < minY && by < minY) || (ay > maxY && by > maxY)) continue;
      visit(s);
    }
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
    const ax = points[2 * segment];
    const ay = points[2 * segment + 1];
    const bx = points[2 * segment + 2];
    const by = points[2 * segment + 3];
    this.visitBox(
      Math.min(ax, bx) - withinMm,
      Math.min(ay, by) - withinMm,
      Math.max(ax, bx) + withinMm,
      Math.max(ay, by) + withinMm,
      (s) => {
        if (s === segment) return;
        const d = this.apartMm(segment, s);
        if (d <= withinMm) visit(s, d);
      },
    );
  }

  /** The distance between two segments, mm. */
  apartMm(s: number, t: number): number {
    const p = this.points;
    const [i, j] = [2 * s, 2 * t];
    return segmentToSegment(p[i], p[i + 1], p[i + 2], p[i + 3], p[j], p[j + 1], p[j + 2], p[j + 3]);
  }

  /** Calls `visit` with every chain whose box touches the box given, and perhaps some beside it. */
  visitChains(minX: number, minY: number, maxX: number, maxY: number, visit: (chain: number) => void): void {
    this.chains().visitBox(minX, minY, maxX, maxY, visit);
  }

  /** Calls `visit` with the chains near a chain, as `ChainTree.visitNear` does. */
  visitChainsNear(chain: number, withinMm: number, visit: (chain: number) => void, dx = 0, dy = 0): void {
    this.chains().visitNear(chain, withinMm, visit, dx, dy);
  }

  /** Calls `visit` with each two chains that lie near each other, as `ChainTree.visitPairs` does. */
  visitChainPairs(withinMm: number, visit: (a: number, b: number) => boolean): boolean {
    return this.chains().visitPairs(withinMm, visit);
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

function runsOf(points: Float64Array, firstPoints: Uint32Array): Float64Array {
  const run = new Float64Array(points.length / 2);
  for (let k = 0; k + 1 < firstPoints.length; k++) {
    let sum = 0;
    let x = points[2 * firstPoints[k]];
    let y = points[2 * firstPoints[k] + 1];
    for (let p = firstPoints[k] + 1; p < firstPoints[k + 1]; p++) {
      const dx = points[2 * p] - x;
      const dy = points[2 * p + 1] - y;
      sum += Math.sqrt(dx * dx + dy * dy);
      run[p] = sum;
      x = points[2 * p];
      y = points[2 * p + 1];
    }
  }
  return run;
}
