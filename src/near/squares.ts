/**
 * Which segments run through each small square of the cloth, in the order of the line.
 *
 * Each segment is walked from square to square (J. Amanatides and A. Woo, "A Fast Voxel Traversal Algorithm for Ray
 * Tracing", Eurographics 1987), once to count and once to fill. Squares are hashed into a table, so that the plane has
 * no edge; two that share a place in it are looked at together. In time linear in the segments and the squares walked.
 *
 * Limits: lines of many kilometres are walked in larger squares, so that their number stays bounded.
 */
import type { SegmentIndex } from './segment-index.js';

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
    const mixed = Math.imul(column | 0, 0x9e3779b1) ^ Math.imul(row | 0, 0x85ebca6b);
    return (mixed ^ (mixed >>> 15)) & this.mask;
  }

  private walk({ points, firstPoints }: SegmentIndex, enter: (place: number, segment: number) => void): void {
    const side = this.sideMm;
    for (let stroke = 0; stroke + 1 < firstPoints.length; stroke++) {
      for (let s = firstPoints[stroke]; s + 1 < firstPoints[stroke + 1]; s++) {
        const x = points[2 * s] / side;
        const y = points[2 * s + 1] / side;
        const dx = points[2 * s + 2] / side - x;
        const dy = points[2 * s + 3] / side - y;
        let column = Math.floor(x);
        let row = Math.floor(y);
        enter(this.placeOf(column, row), s);
        const endColumn = Math.floor(x + dx);
        const endRow = Math.floor(y + dy);
        // As many steps as there are squares between: rounding cannot lead past the end.
        let left = Math.abs(endColumn - column) + Math.abs(endRow - row);
        if (left === 0) continue;
        let acrossAt = dx === 0 ? Infinity : (dx > 0 ? column + 1 - x : x - column) / Math.abs(dx);
        let downAt = dy === 0 ? Infinity : (dy > 0 ? row + 1 - y : y - row) / Math.abs(dy);
        for (; left > 0; left--) {
          if (row === endRow || (column !== endColumn && acrossAt < downAt)) {
            column += Math.sign(endColumn - column);
            acrossAt += 1 / Math.abs(dx);
          } else {
            row += Math.sign(endRow - row);
            downAt += 1 / Math.abs(dy);
          }
          enter(this.placeOf(column, row), s);
        }
      }
    }
  }
}

const kept = new WeakMap<SegmentIndex, Squares>();

/** Facts at the usual distances (0.1 mm, 0.8 mm) share one set of squares. */
const sharedMm = 1.2;

export function squaresOf(index: SegmentIndex): Squares {
  const squares = kept.get(index) ?? new Squares(index, sharedMm);
  kept.set(index, squares);
  return squares;
}
