/**
 * The squares of a grid that a segment runs through, in its order (J. Amanatides and A. Woo, "A Fast Voxel Traversal
 * Algorithm for Ray Tracing", Eurographics 1987). In time linear in their number.
 */

/**
 * Calls `enter` with each square that the segment comes into, its first left out, and the share of the segment that lies
 * before it. Places are in sides of a square.
 */
export function squaresEntered(
  x: number,
  y: number,
  endX: number,
  endY: number,
  enter: (column: number, row: number, share: number) => void,
): void {
  let column = Math.floor(x);
  let row = Math.floor(y);
  const endColumn = Math.floor(endX);
  const endRow = Math.floor(endY);
  // As many steps as there are squares between: rounding cannot lead past the end.
  let left = Math.abs(endColumn - column) + Math.abs(endRow - row);
  if (left === 0) return;
  const dx = endX - x;
  const dy = endY - y;
  // Of a level or an upright one not asked.
  let acrossAt = (dx > 0 ? column + 1 - x : x - column) / Math.abs(dx);
  let downAt = (dy > 0 ? row + 1 - y : y - row) / Math.abs(dy);
  for (; left > 0; left--) {
    let share = downAt;
    if (row === endRow || (column !== endColumn && acrossAt < downAt)) {
      share = acrossAt;
      column += Math.sign(endColumn - column);
      acrossAt += 1 / Math.abs(dx);
    } else {
      row += Math.sign(endRow - row);
      downAt += 1 / Math.abs(dy);
    }
    enter(column, row, share);
  }
}
