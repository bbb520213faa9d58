/**
 * A number for a cell of a grid without edge, by which it is found in a table: mixed, but for the place within a block of
 * eight by eight cells, so that neighbours stand together in memory.
 */
export function blockHash(column: number, row: number): number {
  const mixed = Math.imul(column >> 3, 0x9e3779b1) ^ Math.imul(row >> 3, 0x85ebca6b);
  return mixed ^ (mixed >>> 15) ^ ((column & 7) | ((row & 7) << 3));
}
