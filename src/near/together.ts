/** Places in an order in which neighbours stand together: what is looked at in turn then lies together in memory, too. */
import type { Polyline } from '../../shared/plane.js';
import { boundsOf } from '../geometry/polyline.js';
import { oncePer } from '../once.js';

/** The snake's bands are so many squares high, as a power of two: so a stretch of it lies in a box about as high as wide. */
const bandBits = 3;
const band = 1 << bandBits;

/** The numbers of the places [x0, y0, x1, y1, …] along a snake over a grid of about as many squares. */
export function neighboursTogether(places: Float64Array): Uint32Array {
  const count = places.length / 2;
  const { minX, minY, maxX, maxY } = boundsOf([places]);
  const cells = Math.ceil(Math.sqrt(count));
  const perMm = (from: number, to: number) => (to > from ? cells / (to - from) : 0);
  const [across, down] = [perMm(minX, maxX), perMm(minY, maxY)];
  const squares = new Uint32Array(count);
  const ends = new Uint32Array((cells + band) * cells + 1);
  for (let k = 0; k < count; k++) {
    const column = Math.min(cells - 1, Math.floor((places[2 * k] - minX) * across));
    const line = Math.min(cells - 1, Math.floor((places[2 * k + 1] - minY) * down));
    const bands = line >> bandBits;
    const along = bands % 2 === 0 ? column : cells - 1 - column;
    squares[k] = (bands * cells + along) * band + (along % 2 === 0 ? line % band : band - 1 - (line % band));
    ends[squares[k] + 1]++;
  }
  for (let square = 1; square < ends.length; square++) ends[square] += ends[square - 1];
  const order = new Uint32Array(count);
  for (let k = 0; k < count; k++) order[ends[squares[k]]++] = k;
  return order;
}

/** The numbers of the strokes so that those that begin near each other stand together. */
export const strokesTogether = oncePer((strokes: readonly Polyline[]): Uint32Array => {
  const starts = new Float64Array(2 * strokes.length);
  for (let k = 0; k < strokes.length; k++) {
    starts[2 * k] = strokes[k][0];
    starts[2 * k + 1] = strokes[k][1];
  }
  return neighboursTogether(starts);
});
