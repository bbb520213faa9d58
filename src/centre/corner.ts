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
  return thinnedLine(withoutLoops(flat), thinRadii * radius);
}

/** Most points of a corner that are held against one another. */
const mostPoints = 2000;

/**
 * The line without the loops where it crosses itself: walked along, and where it meets what was walked before, what lies
 * between is left out. Of a mitre that is the swallowtail behind its tip; rough paper adds smaller ones.
 */
function withoutLoops(line: Polyline): Polyline {
  if (pointCount(line) > mostPoints) return line;
  const out = [line[0], line[1]];
  for (let k = 2; k < line.length; k += 2) {
    const n = out.length;
    const [cx, cy, dx, dy] = [out[n - 2], out[n - 1], line[k], line[k + 1]];
    for (let i = 0; i + 5 < n; i += 2) {
      const at = segmentCrossing(out[i], out[i + 1], out[i + 2], out[i + 3], cx, cy, dx, dy);
      if (!at) continue;
      out.length = i + 2;
      out.push(at.x, at.y);
      break;
    }
    out.push(dx, dy);
  }
  return Float64Array.from(out);
}
