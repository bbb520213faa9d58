/** Cells of a grid without edge that are taken, each once. */
import { blockHash } from './block-hash.js';

/** Rows of the grid are told apart up to this many. */
const mostRows = 2 ** 26;

export class TakenCells {
  private readonly table: Float64Array;

  /** With room for `most` cells. */
  constructor(most: number) {
    this.table = new Float64Array(2 ** Math.ceil(Math.log2(2 * most + 1))).fill(Number.NaN);
  }

  /** False where the cell was taken before. */
  take(column: number, row: number): boolean {
    const { table } = this;
    const cell = column * mostRows + row;
    let at = blockHash(column, row) & (table.length - 1);
    for (; !Number.isNaN(table[at]); at = (at + 1) & (table.length - 1)) if (table[at] === cell) return false;
    table[at] = cell;
    return true;
  }
}
