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

/** Points are [x0, y0, x1, y1, …]. */
export function linkedWithin(points: Float64Array, reachMm: number): Groups {
  const count = points.length / 2;
  const cellMm = reachMm / Math.SQRT2;
  const mask = 2 ** Math.ceil(Math.log2(4 * count + 1)) - 1;
  const columnOf = (p: number) => Math.floor(points[2 * p] / cellMm);
  const rowOf = (p: number) => Math.floor(points[2 * p + 1] / cellMm);
  const groups = new Groups(count);
  const taken = new TakenCells(count);
  const fineMm = (fineShare * reachMm) / Math.SQRT2;
  /** For each hash the point met last, and from each point the one of its hash met before. */
  const table = new Int32Array(mask + 1).fill(-1);
  const earlier = new Int32Array(count);
  for (const p of neighboursTogether(points)) {
    const [column, row] = [columnOf(p), rowOf(p)];
    for (let i = column - 2; i <= column + 2; i++) {
      for (let j = row - 2; j <= row + 2; j++) {
        const isOwn = i === column && j === row;
        for (let q = table[blockHash(i, j) & mask]; q >= 0; q = earlier[q]) {
          if (columnOf(q) !== i || rowOf(q) !== j) continue;
          const one = groups.of(p);
          const other = groups.of(q);
          if (one === other) break;
          const dx = points[2 * q] - points[2 * p];
          const dy = points[2 * q + 1] - points[2 * p + 1];
          if (!isOwn && dx * dx + dy * dy > reachMm * reachMm) continue;
          groups.join(Math.max(one, other), Math.min(one, other));
          break;
        }
      }
    }
    if (!taken.take(Math.floor(points[2 * p] / fineMm), Math.floor(points[2 * p + 1] / fineMm))) continue;
    const hash = blockHash(column, row) & mask;
    earlier[p] = table[hash];
    table[hash] = p;
  }
  return groups;
}
