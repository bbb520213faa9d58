/**
 * How thick the line lies: how many passes run through each small square of the cloth.
 *
 * Each segment is walked from square to square (`squares-entered.ts`); a stretch that stays in a square is one pass, however many points it has,
 * and a stroke shorter than a square's side is the part of one. In time
 * linear in the points and the squares walked.
 *
 * Limits: squares are larger on drawings of more than two metres by two, so that their number stays bounded.
 */
import type { Point, Polyline } from '../../shared/plane.js';
import { boundsOf, lengthOf } from '../geometry/polyline.js';
import { squaresEntered } from './squares-entered.js';

export interface Density {
  /** The square most passes run through: its middle, and how many. */
  readonly at: Point;
  readonly passes: number;
  /** Pairs of passes in the same square, over all that are counted: what holding line against line has to do there. */
  readonly pairs: number;
}

const leastSideMm = 1;
const mostSquares = 4_000_000;

/** Pairs are counted in squares with more passes than `overPasses`. */
export function densityOf(lines: readonly Polyline[], overPasses = 0): Density {
  const box = boundsOf(lines);
  const width = box.maxX - box.minX;
  const height = box.maxY - box.minY;
  const side = Math.max(
    leastSideMm,
    Math.sqrt((width * height) / mostSquares),
    (width + height) / mostSquares,
  );
  const columns = Math.floor(width / side) + 1;
  const passes = new Float32Array(columns * (Math.floor(height / side) + 1));
  for (const line of lines) {
    // A line in a thousand pieces is no thousand passes.
    const share = Math.min(1, lengthOf(line) / side);
    let last = -1;
    walk(line, box.minX, box.minY, side, (column, row) => {
      const square = row * columns + column;
      if (square === last) return;
      last = square;
      passes[square] += share;
    });
  }
  let most = 0;
  let pairs = 0;
  for (let square = 0; square < passes.length; square++) {
    if (passes[square] > overPasses) pairs += passes[square] * passes[square];
    if (passes[square] > passes[most]) most = square;
  }
  const middle = (n: number) => (n + 0.5) * side;
  return {
    at: { x: box.minX + middle(most % columns), y: box.minY + middle(Math.floor(most / columns)) },
    passes: Math.round(passes[most]),
    pairs,
  };
}

/** Calls `enter` with each square the line comes into, in its order. A line that turns back in a square enters it anew. */
function walk(
  line: Polyline,
  minX: number,
  minY: number,
  side: number,
  enter: (column: number, row: number) => void,
): void {
  enter(Math.floor((line[0] - minX) / side), Math.floor((line[1] - minY) / side));
  for (let i = 2; i < line.length; i += 2)
    squaresEntered(
      (line[i - 2] - minX) / side,
      (line[i - 1] - minY) / side,
      (line[i] - minX) / side,
      (line[i + 1] - minY) / side,
      enter,
    );
}
