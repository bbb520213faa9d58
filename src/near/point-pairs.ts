/** Every two of many points that lie near each other, asked of a grid once. */
import { Growing } from '../geometry/growing.js';
import { PointGrid } from './point-grid.js';

/**
 * The numbers of the points of each pair at most `reachMm` apart, one after the other, the later one first; null where
 * there are more pairs than `most`. Points are [x0, y0, x1, y1, …]; those beyond the first `mostInCell` of a cell of
 * the grid are in no pair.
 */
export function pairsWithin(
  points: Float64Array,
  reachMm: number,
  most = Infinity,
  mostInCell = Infinity,
): Uint32Array | null {
  const grid = new PointGrid(reachMm, mostInCell, points.length / 2);
  const pairs = new Growing(new Uint32Array(512));
  let point = 0;
  const pair = (earlier: number) => {
    if (earlier === point) return;
    pairs.push(point);
    pairs.push(earlier);
  };
  for (; 2 * point < points.length && pairs.length <= 2 * most; point++) {
    const [x, y] = [points[2 * point], points[2 * point + 1]];
    if (grid.add(x, y)) grid.visitNear(x, y, pair);
  }
  return pairs.length > 2 * most ? null : pairs.taken();
}
