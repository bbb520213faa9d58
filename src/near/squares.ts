/**
 * Which segments run through each small square of the cloth, in the order of the line.
 *
 * Each segment is walked from square to square (`squares-entered.ts`), once to count and once to fill. Squares are hashed into a table, so that the plane has
 * no edge; two that share a place in it are looked at together. In time linear in the segments and the squares walked.
 *
 * Limits: lines of many kilometres are walked in larger squares, so that their number stays bounded.
 */

import { oncePer } from '../once.js';
import { blockHash } from './block-hash.js';
import type { SegmentIndex } from './segment-index.js';
import { squaresEntered } from './squares-entered.js';

const mostSteps = 8_000_000;

export class Squares {
  readonly sideMm: number;
  /** The segments in place p of the table are `segments[starts[p]]` up to `starts[p + 1]`, exclusive, ascending. */
  readonly starts: Uint32Array;
  readonly segments: Uint32Array;
  private readonly mask: number;

  constructor(index: SegmentIndex, leastSideMm: number) {
    let lengthMm = 0;
    for (let stroke = 0; stroke < index.strokes.length; stroke++) lengthMm += index.strokeLengthMm(stroke);
    this.sideMm = Math.max(leastSideMm, lengthMm / mostSteps);
    const expected = index.strokeOf.length + (1.5 * lengthMm) / this.sideMm;
    this.mask = 2 ** Math.max(4, Math.ceil(Math.log2(expected))) - 1;
    const starts = new Uint32Array(this.mask + 2);
    this.walk(index, (place) => {
      starts[place + 1]++;
    });
    for (let p = 1; p < starts.length; p++) starts[p] += starts[p - 1];
    const filled = starts.slice();
    this.segments = new Uint32Array(starts[this.mask + 1]);
    this.walk(index, (place, segment) => {
      this.segments[filled[place]++] = segment;
    });
    this.starts = starts;
  }

  /** The place in the table of a square, by its column and row. */
  placeOf(column: number, row: number): number {
    return blockHash(column, row) & this.mask;
  }

  /** Calls `visit` with every segment within `withinMm` of (x, y), perhaps more than once, and with some farther off. */
  visitNear(x: number, y: number, withinMm: number, visit: (segment: number) => void): void {
    const { sideMm: side, starts, segments } = this;
    const lastColumn = Math.floor((x + withinMm) / side);
    const lastRow = Math.floor((y + withinMm) / side);
    for (let column = Math.floor((x - withinMm) / side); column <= lastColumn; column++) {
      for (let row = Math.floor((y - withinMm) / side); row <= lastRow; row++) {
        const place = this.placeOf(column, row);
        for (let n = starts[place]; n < starts[place + 1]; n++) visit(segments[n]);
      }
    }
  }

  private walk({ points, firstPoints }: SegmentIndex, enter: (place: number, segment: number) => void): void {
    const side = this.sideMm;
    let segment = 0;
    const enterSquare = (column: number, row: number) => enter(this.placeOf(column, row), segment);
    for (let stroke = 0; stroke + 1 < firstPoints.length; stroke++) {
      for (segment = firstPoints[stroke]; segment + 1 < firstPoints[stroke + 1]; segment++) {
        const x = points[2 * segment] / side;
        const y = points[2 * segment + 1] / side;
        enterSquare(Math.floor(x), Math.floor(y));
        squaresEntered(x, y, points[2 * segment + 2] / side, points[2 * segment + 3] / side, enterSquare);
      }
    }
  }
}

/** Facts at the usual distances (0.1 mm, 0.8 mm) share one set of squares. */
const sharedMm = 1.2;

export const squaresOf = oncePer((index: SegmentIndex) => new Squares(index, sharedMm));
