import type { Polyline } from '../../shared/plane.js';
import { firstPoint, lastPoint } from '../geometry/polyline.js';

/**
 * The repeat vector of a motif that is this one line: end minus start, as stitched from left to right, where the
 * end lies more than half the width across from the start; else null, and (width, 0) has to be assumed.
 */
export function repeatAlong(line: Polyline, widthMm: number): { dx: number; dy: number } | null {
  const start = firstPoint(line);
  const end = lastPoint(line);
  const sign = end.x < start.x ? -1 : 1;
  const dx = sign * (end.x - start.x);
  if (!(dx > widthMm / 2)) return null;
  return { dx, dy: sign * (end.y - start.y) };
}
