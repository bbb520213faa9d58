/**
 * Points in square cells, to ask which of them lie near a place. Cells are hashed into a table that grows with the
 * points, so the plane has no edge.
 */
import { blockHash } from './block-hash.js';

/** With as many hashes as points, a look would meet the points of other cells half the time. */
const hashesPerPoint = 4;

export class PointGrid {
  private count = 0;
  private xs = new Float64Array(0);
  private ys = new Float64Array(0);
  /** For each hash the point added last; `earlier` leads on from it to the others of that hash. */
  private table = new Int32Array(0);
  private earlier = new Int32Array(0);
  /** How many points of its hash a point is, with itself, counted from the first. */
  private depth = new Int32Array(0);

  /**
   * Points at most `reachMm` apart are found; of the points of one hash only the first `cellLimit` are. There is `room` at
   * first. In cells twice the reach wide or more a look takes four at the most.
   */
  constructor(
    private readonly reachMm: number,
    private readonly cellLimit = Infinity,
    room = 16,
    private readonly cellMm = 2 * reachMm,
  ) {
    this.grow(2 ** Math.ceil(Math.log2(Math.max(room, 16))));
  }

  /** Adds a point; points are numbered in the order in which they are added. False where its cell is full. */
  add(x: number, y: number): boolean {
    if (this.count === this.xs.length) this.grow(2 * this.count);
    const id = this.count++;
    this.xs[id] = x;
    this.ys[id] = y;
    return this.enter(id);
  }

  /** Calls `visit` with every point at most the reach from (x, y). */
  visitNear(x: number, y: number, visit: (id: number) => void): void {
    const { xs, ys, reachMm, cellMm, table, earlier } = this;
    const reachSquared = reachMm * reachMm;
    const lastColumn = Math.floor((x + reachMm) / cellMm);
    const lastRow = Math.floor((y + reachMm) / cellMm);
    for (let i = Math.floor((x - reachMm) / cellMm); i <= lastColumn; i++) {
      for (let j = Math.floor((y - reachMm) / cellMm); j <= lastRow; j++) {
        for (let id = table[this.hash(i, j)]; id >= 0; id = earlier[id]) {
          const dx = xs[id] - x;
          const dy = ys[id] - y;
          if (dx * dx + dy * dy > reachSquared) continue;
          // Two cells may share a hash: only the cell that is meant counts, or a point would be visited twice.
          if (Math.floor(xs[id] / cellMm) === i && Math.floor(ys[id] / cellMm) === j) visit(id);
        }
      }
    }
  }

  private enter(id: number): boolean {
    const key = this.hash(Math.floor(this.xs[id] / this.cellMm), Math.floor(this.ys[id] / this.cellMm));
    const last = this.table[key];
    const depth = last < 0 ? 1 : this.depth[last] + 1;
    if (depth > this.cellLimit) return false;
    this.depth[id] = depth;
    this.earlier[id] = last;
    this.table[key] = id;
    return true;
  }

  private hash(column: number, row: number): number {
    return blockHash(column, row) & (this.table.length - 1);
  }

  private grow(size: number): void {
    const [xs, ys] = [new Float64Array(size), new Float64Array(size)];
    xs.set(this.xs);
    ys.set(this.ys);
    this.xs = xs;
    this.ys = ys;
    this.table = new Int32Array(hashesPerPoint * size).fill(-1);
    this.earlier = new Int32Array(size);
    this.depth = new Int32Array(size);
    for (let id = 0; id < this.count; id++) this.enter(id);
  }
}
