/**
 * The turn that lays a drawing's long lines level, so that upright boxes round them are thin.
 *
 * A box round a slanting line is mostly empty. Where a drawing has many long lines that slant the same way, as in
 * cross-hatching or a steep zigzag, each would lie in the boxes of all others. The boxes round segments of length L
 * at angle a, turned by t, cover sum(L² |sin(a - t) cos(a - t)|); the turn with the least of it is found from a
 * histogram of directions and taken where it saves much. Two slants square to each other are both served; three are
 * not.
 */

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

/** Null where upright boxes do as they are. `isSegment` tells of a point whether a segment starts at it. */
export function levelFrame(points: Float64Array, isSegment: (point: number) => boolean): Frame | null {
  // Per bin the sum of L², and of the mean direction weighted by it (as cosine and sine of four times the angle,
  // which is the same for directions a quarter turn apart).
  const weights = new Float64Array(bins);
  const cosines = new Float64Array(bins);
  const sines = new Float64Array(bins);
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let p = 0; p < points.length / 2; p++) {
    const i = 2 * p;
    minX = Math.min(minX, points[i]);
    maxX = Math.max(maxX, points[i]);
    minY = Math.min(minY, points[i + 1]);
    maxY = Math.max(maxY, points[i + 1]);
    if (!isSegment(p)) continue;
    const dx = points[i + 2] - points[i];
    const dy = points[i + 3] - points[i + 1];
    const weight = dx * dx + dy * dy;
    const angle = Math.atan2(dy, dx) + Math.PI;
    const bin = Math.floor(angle / binAngle) % bins;
    weights[bin] += weight;
    cosines[bin] += weight * Math.cos(4 * angle);
    sines[bin] += weight * Math.sin(4 * angle);
  }
  const upright = covered(weights, 0);
  if (upright < coveredOften * (maxX - minX) * (maxY - minY)) return null;
  const angles = Array.from(weights, (_, bin) => Math.atan2(sines[bin], cosines[bin]) / 4);
  const best = angles.reduce((a, b) => (covered(weights, b) < covered(weights, a) ? b : a));
  if (covered(weights, best) * worthwhile > upright) return null;
  return { cos: Math.cos(best), sin: Math.sin(best) };
}

/** The area of all boxes in a frame turned by `turn`; bins stand for their middles. */
function covered(weights: Float64Array, turn: number): number {
  return weights.reduce(
    (sum, weight, bin) => sum + (weight * Math.abs(Math.sin(2 * ((bin + 0.5) * binAngle - turn)))) / 2,
    0,
  );
}
