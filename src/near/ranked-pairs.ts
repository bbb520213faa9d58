/**
 * Pairs of points in an order that does not hang on how they were found: by a number of each pair, and where these are
 * equal by which pair comes first in the drawing.
 *
 * Numbers sort ten times as fast by themselves as by a comparison. So the pairs are sorted as one number each first, and
 * then by their ranks, each of which brings its pair's place in that first order along in its last digits.
 */

/** Ranks, from 0 to 1, that differ by less than this are equal. */
const finest = 1e-9;

/** The pairs, one after the other and the lesser number of each first, by `rankOf`; what ranks over 1 ranks 1. */
export function rankedPairs(pairs: Uint32Array, rankOf: (a: number, b: number) => number): Uint32Array {
  const count = pairs.length / 2;
  const points = pairs.reduce((most, point) => Math.max(most, point), 0) + 1;
  const inDrawing = new Float64Array(count);
  for (let k = 0; k < count; k++)
    inDrawing[k] =
      Math.min(pairs[2 * k], pairs[2 * k + 1]) * points + Math.max(pairs[2 * k], pairs[2 * k + 1]);
  inDrawing.sort();
  const steps = Math.min(1 / finest, Math.floor(Number.MAX_SAFE_INTEGER / (count + 1)) - 1);
  const ranks = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const b = inDrawing[k] % points;
    ranks[k] = Math.round(Math.min(1, rankOf((inDrawing[k] - b) / points, b)) * steps) * count + k;
  }
  ranks.sort();
  const ranked = new Uint32Array(2 * count);
  for (let i = 0; i < count; i++) {
    const pair = inDrawing[ranks[i] % count];
    const b = pair % points;
    ranked[2 * i] = (pair - b) / points;
    ranked[2 * i + 1] = b;
  }
  return ranked;
}
