/**
 * The line round a corner, or a turn tighter than the pen: the outer border moved inward by half a pen. Round a
 * mitre that crosses itself, and the line turns where it does; round a round join it stays in one place; along a
 * tight curve it is the curve.
 */
import type { Polyline } from '../../shared/plane.js';
import { pointCount } from '../geometry/polyline.js';
import { segmentCrossing } from '../geometry/segment.js';
import { thinnedLine } from '../geometry/thinning.js';
import type { Border } from './border.js';
import type { Offsets } from './offsets.js';

/** The border from a point onward to another one; null where they lie on different rings. */
export function borderFrom(border: Border, from: number, to: number): readonly number[] | null {
  const ring = border.ringOf[from];
  if (border.ringOf[to] !== ring) return null;
  const first = border.first[ring];
  const count = border.first[ring + 1] - first;
  const steps = (to - from + count) % count;
  return Array.from({ length: steps + 1 }, (_, i) => first + ((from - first + i) % count));
}

/** Bends smaller than this are left out, in radii. */
const thinRadii = 0.02;

export function cornerLine(points: readonly number[], offsets: Offsets, radius: number): Polyline {
  const flat = new Float64Array(2 * points.length);
  points.forEach((point, i) => {
    flat[2 * i] = offsets.moved[2 * point];
    flat[2 * i + 1] = offsets.moved[2 * point + 1];
  });
  return thinnedLine(withoutLoop(flat), thinRadii * radius);
}

/** Most points of a corner that are held against one another. */
const mostPoints = 400;

/** The line without its outermost loop. */
function withoutLoop(line: Polyline): Polyline {
  const n = pointCount(line);
  if (n > mostPoints) return line;
  for (let gap = n - 2; gap >= 2; gap--) {
    for (let i = 0; i + gap < n - 1; i++) {
      const k = i + gap;
      const [ax, ay, bx, by] = line.subarray(2 * i, 2 * i + 4);
      const [cx, cy, dx, dy] = line.subarray(2 * k, 2 * k + 4);
      const at = segmentCrossing(ax, ay, bx, by, cx, cy, dx, dy);
      if (!at) continue;
      const out = [...line.subarray(0, 2 * i + 2), at.x, at.y, ...line.subarray(2 * k + 2)];
      return Float64Array.from(out);
    }
  }
  return line;
}
