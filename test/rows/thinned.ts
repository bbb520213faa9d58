/** Fewer points, for references that are slow: Douglas and Peucker, Cartographica 10 (1973). */
import { pointToSegment } from '../../src/geometry/segment.js';

export function thinned(line: Float64Array, withinMm: number): Float64Array {
  const kept: number[] = [0];
  const keep = (from: number, to: number): void => {
    let worst = withinMm;
    let at = -1;
    for (let i = from + 1; i < to; i++) {
      const [x, y] = [line[2 * i], line[2 * i + 1]];
      const far = pointToSegment(x, y, line[2 * from], line[2 * from + 1], line[2 * to], line[2 * to + 1]);
      if (far > worst) {
        worst = far;
        at = i;
      }
    }
    if (at < 0) return void kept.push(to);
    keep(from, at);
    keep(at, to);
  };
  keep(0, line.length / 2 - 1);
  return Float64Array.from(kept.flatMap((i) => [line[2 * i], line[2 * i + 1]]));
}
