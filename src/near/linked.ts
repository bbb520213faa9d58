/**
 * Points that hang together: two at most a reach apart do, and so does all that hangs together with either (single
 * linkage). In cells of which no two places lie farther apart than the reach, all points of a cell do; between cells
 * pairs are tried until one is near enough. In time linear in the points.
 *
 * Limits: of points nearer to each other than a sixteenth of the reach one may stand for all; and, rarely, of two that lie
 * millions of reaches apart.
 */
import { blockHash } from './block-hash.js';
import { Groups } from './groups.js';
import { TakenCells } from './taken-cells.js';
import { neighboursTogether } from './together.js';

const fineShare = 1 / 16;

/** Cells to a side of a block: cells up to two away lie in four blocks at the most, of which most hold none. */
const blockSide = 4;

/** Points are [x0, y0, x1, y1, …]. */
export function linkedWithin(points: Float64Array, reachMm: number): Groups {
  const count = points.length / 2;
  const cellMm = reachMm / Math.SQRT2;
  const fineMm = (fineShare * reachMm) / Math.SQRT2;
  const groups = new Groups(count);
  const taken = new TakenCells(count);
  /** Where each cell met so far lies, its latest point, and from each point the one of its cell met before. */
  const columns = new Float64Array(count);
  const rows = new Float64Array(count);
  const latest = new Int32Array(count);
  const earlier = new Int32Array(count);
  let cells = 0;
  /** For each hash of a block its latest cell, and from each cell the one of its block met before. */
  const mask = 2 ** Math.ceil(Math.log2(2 * count + 1)) - 1;
  const blocks = new Int32Array(mask + 1).fill(-1);
  const earlierCell = new Int32Array(count);
  const order = neighboursTogether(points);
  for (let k = 0; k < count; k++) {
    const p = order[k];
    const x = points[2 * p];
    const y = points[2 * p + 1];
    const column = Math.floor(x / cellMm);
    const row = Math.floor(y / cellMm);
    const lastI = Math.floor((column + 2) / blockSide);
    const lastJ = Math.floor((row + 2) / blockSide);
    let own = -1;
    for (let i = Math.floor((column - 2) / blockSide); i <= lastI; i++) {
      for (let j = Math.floor((row - 2) / blockSide); j <= lastJ; j++) {
        for (let cell = blocks[blockHash(i, j) & mask]; cell >= 0; cell = earlierCell[cell]) {
          if (Math.abs(columns[cell] - column) > 2 || Math.abs(rows[cell] - row) > 2) continue;
          const isOwn = columns[cell] === column && rows[cell] === row;
          if (isOwn) own = cell;
          for (let q = latest[cell]; q >= 0; q = earlier[q]) {
            const one = groups.of(p);
            const other = groups.of(q);
            if (one === other) break;
            const dx = points[2 * q] - x;
            const dy = points[2 * q + 1] - y;
            if (!isOwn && dx * dx + dy * dy > reachMm * reachMm) continue;
            groups.join(Math.max(one, other), Math.min(one, other));
            break;
          }
        }
      }
    }
    if (!taken.take(Math.floor(x / fineMm), Math.floor(y / fineMm))) continue;
    if (own < 0) {
      own = cells++;
      columns[own] = column;
      rows[own] = row;
      latest[own] = -1;
      const hash = blockHash(Math.floor(column / blockSide), Math.floor(row / blockSide)) & mask;
      earlierCell[own] = blocks[hash];
      blocks[hash] = own;
    }
    earlier[p] = latest[own];
    latest[own] = p;
  }
  return groups;
}
