/**
 * How thick the line lies: how many passes run through each small square of the cloth, and what of the line lies outside
 * the squares through which too many do.
 *
 * Each segment is walked from square to square (`squares-entered.ts`); a stretch that stays in a square is one pass, however
 * many points it has, and a stroke shorter than a square's side is the part of one. In time linear in the points and the
 * squares walked.
 *
 * Limits: squares are larger on drawings of more than two metres by two, so that their number stays bounded. A line that is
 * cut where it runs into a thick square looks as if it ended there: what it does with others beside the edge may be told a
 * little differently.
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
  /** The stretches of a line outside the squares that are counted; where that is all of it, the line itself. */
  outside(line: Polyline): Polyline[];
}

const leastSideMm = 1;
const mostSquares = 4_000_000;

/** Squares with more passes than `overPasses` are counted. */
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
  const eachSquare = (line: Polyline, enter: Enter) =>
    walk(line, box.minX, box.minY, side, (column, row, from, share) =>
      enter(row * columns + column, from, share),
    );
  for (const line of lines) {
    // A line in a thousand pieces is no thousand passes.
    const share = Math.min(1, lengthOf(line) / side);
    eachSquare(line, (square) => {
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
    outside: (line) => stretchesOf(line, eachSquare, (square) => passes[square] <= overPasses),
  };
}

/** Told the square that the line comes into, where the segment begins on which it does, and after what share of it. */
type Enter = (square: number, from: number, share: number) => void;

/** The stretches of the line in squares that are wanted, cut at their edges. */
function stretchesOf(
  line: Polyline,
  eachSquare: (line: Polyline, enter: Enter) => void,
  isWanted: (square: number) => boolean,
): Polyline[] {
  // Where stretches begin and end, in turn: on which segment, x and y.
  const cuts: number[] = [];
  const cutAt = (from: number, share: number) =>
    cuts.push(
      from,
      line[from] + share * (line[from + 2] - line[from]),
      line[from + 1] + share * (line[from + 3] - line[from + 1]),
    );
  let wanted = false;
  eachSquare(line, (square, from, share) => {
    if (isWanted(square) === wanted) return;
    wanted = !wanted;
    cutAt(from, share);
  });
  if (wanted && cuts.length === 3 && cuts[0] === 0 && cuts[1] === line[0] && cuts[2] === line[1])
    return [line];
  if (wanted) cutAt(line.length - 4, 1);
  const stretches: Polyline[] = [];
  for (let c = 0; c < cuts.length; c += 6) {
    const inside = line.subarray(cuts[c] + 2, cuts[c + 3] + 2);
    const stretch = new Float64Array(inside.length + 4);
    stretch.set([cuts[c + 1], cuts[c + 2]]);
    stretch.set(inside, 2);
    stretch.set([cuts[c + 4], cuts[c + 5]], inside.length + 2);
    if (lengthOf(stretch) > 0) stretches.push(stretch);
  }
  return stretches;
}

/** Calls `enter` with each square the line comes into, in its order: no two in turn are the same. */
function walk(
  line: Polyline,
  minX: number,
  minY: number,
  side: number,
  enter: (column: number, row: number, from: number, share: number) => void,
): void {
  enter(Math.floor((line[0] - minX) / side), Math.floor((line[1] - minY) / side), 0, 0);
  for (let i = 2; i < line.length; i += 2)
    squaresEntered(
      (line[i - 2] - minX) / side,
      (line[i - 1] - minY) / side,
      (line[i] - minX) / side,
      (line[i + 1] - minY) / side,
      (column, row, share) => enter(column, row, i - 2, share),
    );
}
