/**
 * The turn that lays a drawing's long lines level, so that upright boxes round them are thin.
 *
 * A box round a slanting line is mostly empty. Where a drawing has many long lines that slant the same way, as in
 * cross-hatching or a steep zigzag, each would lie in the boxes of all others. The boxes round segments of length L
 * at angle a, turned by t, cover sum(L² |sin(a - t) cos(a - t)|); the turn with the least of it is found from a
 * histogram of directions and taken where it saves much. Two slants square to each other are both served; three are
 * not.
 */
import { emptyBox, extend } from '../geometry/box.js';

/** Turned coordinates are u = cos x + sin y, v = cos y - sin x. */
export interface Frame {
  readonly cos: number;
  readonly sin: number;
}

/** Bins of direction, over the quarter turn after which boxes repeat. */
const bins = 180;
const binAngle = Math.PI / 2 / bins;
/** Boxes may cover the drawing so many times over before a turn is thought of; */
const coveredOften = 20;
/** and it must save this factor. */
const worthwhile = 4;

/**
 * Null where upright boxes do as they are. Line k begins at point firstPoints[k]; `boxes` are the upright ones, minX,
 * minY, maxX, maxY each.
 */
export function levelFrame(
  points: Float64Array,
  firstPoints: Uint32Array,
  boxes: Float64Array,
): Frame | null {
  if (!coverOften(boxes)) return null;
  // Per bin the sum of L², and of the mean direction weighted by it (as cosine and sine of four times the angle,
  // which is the same for directions a quarter turn apart).
  const weights = new Float64Array(bins);
  const cosines = new Float64Array(bins);
  const sines = new Float64Array(bins);
  for (let k = 0; k + 1 < firstPoints.length; k++) {
    for (let i = 2 * firstPoints[k]; i < 2 * firstPoints[k + 1] - 2; i += 2) {
      const dx = points[i + 2] - points[i];
      const dy = points[i + 3] - points[i + 1];
      const weight = dx * dx + dy * dy;
      const angle = Math.atan2(dy, dx) + Math.PI;
      const bin = Math.floor(angle / binAngle) % bins;
      weights[bin] += weight;
      cosines[bin] += weight * Math.cos(4 * angle);
      sines[bin] += weight * Math.sin(4 * angle);
    }
  }
  const angles = Array.from(weights, (_, bin) => Math.atan2(sines[bin], cosines[bin]) / 4);
  const best = angles.reduce((a, b) => (covered(weights, b) < covered(weights, a) ? b : a));
  if (covered(weights, best) * worthwhile > covered(weights, 0)) return null;
  return { cos: Math.cos(best), sin: Math.sin(best) };
}

/** Do the boxes cover the box round them all many times over? */
function coverOften(boxes: Float64Array): boolean {
  const all = emptyBox();
  let area = 0;
  for (let i = 0; i < boxes.length; i += 4) {
    extend(all, boxes[i], boxes[i + 1]);
    extend(all, boxes[i + 2], boxes[i + 3]);
    area += (boxes[i + 2] - boxes[i]) * (boxes[i + 3] - boxes[i + 1]);
  }
  return area >= coveredOften * (all.maxX - all.minX) * (all.maxY - all.minY) && area > 0;
}

/** The area of all boxes in a frame turned by `turn`; bins stand for their middles. */
function covered(weights: Float64Array, turn: number): number {
  return weights.reduce(
    (sum, weight, bin) => sum + (weight * Math.abs(Math.sin(2 * ((bin + 0.5) * binAngle - turn)))) / 2,
    0,
  );
}
