/** Points in square cells, to ask which of them lie near a place. Cells are hashed, so the plane has no edge. */
export class PointGrid {
  /** The point added last to each cell; `earlier` leads on from it to the others there. */
  private readonly cells = new Map<number, number>();
  private readonly earlier: number[] = [];
  private readonly depth: number[] = [];
  private readonly xs: number[] = [];
  private readonly ys: number[] = [];

  /** Points at most `reachMm` apart are found; of the points in one cell only the first `cellLimit` are. */
  constructor(
    private readonly reachMm: number,
    private readonly cellLimit = Infinity,
  ) {}

  /** Adds a point; points are numbered in the order in which they are added. False where its cell is full. */
  add(x: number, y: number): boolean {
    const id = this.xs.length;
    this.xs.push(x);
    this.ys.push(y);
    const key = hashed(Math.floor(x / this.reachMm), Math.floor(y / this.reachMm));
    const last = this.cells.get(key) ?? -1;
    this.earlier.push(last);
    this.depth.push(last < 0 ? 1 : this.depth[last] + 1);
    if (this.depth[id] > this.cellLimit) return false;
    this.cells.set(key, id);
    return true;
  }

  /** Calls `visit` with every point at most the reach from (x, y). */
  visitNear(x: number, y: number, visit: (id: number) => void): void {
    const { xs, ys, reachMm } = this;
    const column = Math.floor(x / reachMm);
    const row = Math.floor(y / reachMm);
    for (let i = column - 1; i <= column + 1; i++) {
      for (let j = row - 1; j <= row + 1; j++) {
        for (let id = this.cells.get(hashed(i, j)) ?? -1; id >= 0; id = this.earlier[id]) {
          // Two cells may share a hash: only the cell that is meant counts, or a point would be visited twice.
          if (Math.floor(xs[id] / reachMm) !== i || Math.floor(ys[id] / reachMm) !== j) continue;
          if ((xs[id] - x) ** 2 + (ys[id] - y) ** 2 <= reachMm ** 2) visit(id);
        }
      }
    }
  }
}

function hashed(column: number, row: number): number {
  return (Math.imul(column | 0, 0x9e3779b1) ^ Math.imul(row | 0, 0x85ebca6b)) | 0;
}
