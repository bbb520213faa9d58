/** Every two of many points that lie near each other, asked of a grid once. */
import { Growing } from '../geometry/growing.js';
import { boundsOf } from '../geometry/polyline.js';
import { PointGrid } from './point-grid.js';

/** So many points in a cell are found as fast as fewer in more cells. */
const fewInCell = 32;

/**
 * The numbers of the points of each pair at most `reachMm` apart, one after the other, the later one first; null where
 * there are more pairs than `most`. Points are [x0, y0, x1, y1, …]; those beyond the first `mostInCell` of a cell twice
 * the reach wide are in no pair.
 */
export function pairsWithin(
  points: Float64Array,
  reachMm: number,
  most = Infinity,
  mostInCell = Infinity,
): Uint32Array | null {
  // In wide cells neighbours stand together in memory; where too many lie in one, narrower ones are needed.
  for (let cellMm = usualApart(points); ; cellMm /= 8) {
    const isWide = cellMm > 2 * reachMm;
    const limit = isWide ? fewInCell : mostInCell;
    const grid = new PointGrid(reachMm, limit, points.length / 2, Math.max(cellMm, 2 * reachMm));
    const pairs = new Growing(new Uint32Array(512));
    let point = 0;
    let isFull = false;
    const pair = (earlier: number) => {
      if (earlier === point) return;
      pairs.push(point);
      pairs.push(earlier);
    };
    for (; 2 * point < points.length && pairs.length <= 2 * most && !isFull; point++) {
      const [x, y] = [points[2 * point], points[2 * point + 1]];
      if (grid.add(x, y)) grid.visitNear(x, y, pair);
      else isFull = isWide;
    }
    if (!isFull) return pairs.length > 2 * most ? null : pairs.taken();
  }
}

/** How far apart neighbours lie where points are spread evenly: so far, each has about one other near it, mm. */
export function usualApart(points: Float64Array): number {
  const { minX, minY, maxX, maxY } = boundsOf([points]);
  const [width, height, count] = [maxX - minX, maxY - minY, points.length / 2];
  return Math.max(Math.sqrt((2 * width * height) / (Math.PI * count)), (width + height) / count) || 1;
}
