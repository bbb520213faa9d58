/**
 * Which cells of a grid of overlapping sheets hold line. Each step of the line is cut by the bands of rows it passes; in a
 * band it lies in the columns between its ends there. In time proportional to the steps and the cells they pass; a repeat
 * whose box lies in cells that are known to hold line is not walked.
 */
import type { Pair } from '../../shared/plan.js';
import type { Box, Polyline } from '../../shared/plane.js';
import type { Placement } from '../rows/layout.js';

export interface Grid {
  /** Upper left corner. */
  readonly fromMm: Pair;
  /** Of a cell. */
  readonly sizeMm: Pair;
  /** From a cell to its neighbour. */
  readonly pitchMm: Pair;
  readonly columns: number;
  readonly rows: number;
}

export interface Cell {
  readonly row: number;
  readonly column: number;
}

/** So little beyond a sheet is rounding, mm. */
const hairMm = 1e-6;

/** The grid over `box`; the size of a cell is more than the overlap. */
export function gridOver(box: Box, sizeMm: Pair, overlapMm: number): Grid {
  const pitchMm: Pair = [sizeMm[0] - overlapMm, sizeMm[1] - overlapMm];
  const needed = (lengthMm: number, i: 0 | 1) =>
    Math.max(1, Math.ceil((lengthMm - overlapMm - hairMm) / pitchMm[i]));
  return {
    fromMm: [box.minX, box.minY],
    sizeMm,
    pitchMm,
    columns: needed(box.maxX - box.minX, 0),
    rows: needed(box.maxY - box.minY, 1),
  };
}

/** The cells that a stretch between two places touches, first and last, along one side of the grid. */
function cellsBetween(grid: Grid, i: 0 | 1, from: number, to: number): Pair {
  const { fromMm, sizeMm, pitchMm, columns, rows } = grid;
  const last = (i === 0 ? columns : rows) - 1;
  const first = Math.floor((from - fromMm[i] - sizeMm[i] + hairMm) / pitchMm[i]) + 1;
  return [
    Math.min(Math.max(first, 0), last),
    Math.min(Math.max(Math.floor((to - fromMm[i]) / pitchMm[i]), 0), last),
  ];
}

export function cellsOfBox(grid: Grid, { minX, minY, maxX, maxY }: Box): { columns: Pair; rows: Pair } {
  return { columns: cellsBetween(grid, 0, minX, maxX), rows: cellsBetween(grid, 1, minY, maxY) };
}

export function placedBox({ minX, minY, maxX, maxY }: Box, { signX, signY, dx, dy }: Placement): Box {
  return {
    minX: (signX === 1 ? minX : -maxX) + dx,
    maxX: (signX === 1 ? maxX : -minX) + dx,
    minY: (signY === 1 ? minY : -maxY) + dy,
    maxY: (signY === 1 ? maxY : -minY) + dy,
  };
}

/** The cells with line in them, row by row from the upper left; null where there are more than `most`. */
export function cellsWithLine(
  grid: Grid,
  strokes: readonly Polyline[],
  box: Box,
  placements: readonly Placement[],
  most: number,
): Cell[] | null {
  const found = new FoundCells(grid, most);
  for (const placement of placements) {
    const { columns, rows } = cellsOfBox(grid, placedBox(box, placement));
    if (found.hasAll(columns, rows)) continue;
    for (const stroke of strokes) if (!found.walk(stroke, placement)) return null;
  }
  return found.inOrder();
}

class FoundCells {
  private readonly keys = new Set<number>();

  constructor(
    private readonly grid: Grid,
    private readonly most: number,
  ) {}

  hasAll([left, right]: Pair, [top, bottom]: Pair): boolean {
    for (let row = top; row <= bottom; row++)
      for (let column = left; column <= right; column++)
        if (!this.keys.has(this.key(row, column))) return false;
    return true;
  }

  /** False as soon as there are too many. */
  walk(line: Polyline, { signX, signY, dx, dy }: Placement): boolean {
    const { grid } = this;
    const { sizeMm, pitchMm, fromMm } = grid;
    let [x0, y0] = [signX * line[0] + dx, signY * line[1] + dy];
    for (let i = 2; i < line.length; i += 2) {
      const [x1, y1] = [signX * line[i] + dx, signY * line[i + 1] + dy];
      const [top, bottom] = cellsBetween(grid, 1, Math.min(y0, y1), Math.max(y0, y1));
      for (let row = top; row <= bottom; row++) {
        const bandMm = fromMm[1] + row * pitchMm[1];
        const [from, to] = [
          shareAt(y0, y1, bandMm, y0 < y1 ? 0 : 1),
          shareAt(y0, y1, bandMm + sizeMm[1], y0 < y1 ? 1 : 0),
        ];
        const [xa, xb] = [x0 + from * (x1 - x0), x0 + to * (x1 - x0)];
        const [left, right] = cellsBetween(grid, 0, Math.min(xa, xb), Math.max(xa, xb));
        for (let column = left; column <= right; column++) this.keys.add(this.key(row, column));
      }
      if (this.keys.size > this.most) return false;
      x0 = x1;
      y0 = y1;
    }
    return true;
  }

  inOrder(): Cell[] {
    const { columns } = this.grid;
    return [...this.keys]
      .sort((a, b) => a - b)
      .map((key) => ({ row: Math.floor(key / columns), column: key % columns }));
  }

  private key(row: number, column: number): number {
    return row * this.grid.columns + column;
  }
}

/** How far along a step that goes from `from` to `to` it passes `at`, within the step; `level` where it stays level. */
function shareAt(from: number, to: number, at: number, level: 0 | 1): number {
  return from === to ? level : Math.min(Math.max((at - from) / (to - from), 0), 1);
}
