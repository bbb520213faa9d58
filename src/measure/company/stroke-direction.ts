/**
 * The direction of the line at a segment. A segment of a few hundredths of a millimetre points anywhere, so short
 * ones get the direction of a chord over their neighbours, on the side on which the line does not turn back.
 */
import { distanceBetween } from '../../geometry/point.js';
import type { SegmentIndex } from '../../near/segment-index.js';

/** Chords are at least this long along the line, mm: far below a stitch, far above the flattening tolerance. */
const overMm = 0.5;

export interface DirectionFinder {
  /** Sine of the angle from segment i's direction to segment j's; NaN where one has none. */
  sine(i: number, j: number): number;
  /** Its cosine: negative where segment j runs back beside segment i. */
  cosine(i: number, j: number): number;
}

/** Directions are worked out when first asked for and kept. */
export function directionFinder(index: SegmentIndex): DirectionFinder {
  const known = new Uint8Array(index.strokeOf.length);
  const directions = new Float64Array(2 * index.strokeOf.length);
  const learn = (segment: number) => {
    writeDirection(index, segment, directions);
    known[segment] = 1;
  };
  return {
    sine(i, j) {
      if (known[i] === 0) learn(i);
      if (known[j] === 0) learn(j);
      return directions[2 * i] * directions[2 * j + 1] - directions[2 * i + 1] * directions[2 * j];
    },
    cosine(i, j) {
      if (known[i] === 0) learn(i);
      if (known[j] === 0) learn(j);
      return directions[2 * i] * directions[2 * j] + directions[2 * i + 1] * directions[2 * j + 1];
    },
  };
}

function writeDirection(
  { points, runMm, strokeOf, firstPoints }: SegmentIndex,
  segment: number,
  out: Float64Array,
): void {
  const first = firstPoints[strokeOf[segment]];
  const last = firstPoints[strokeOf[segment] + 1] - 1;
  let from = segment;
  let to = segment + 1;
  while (runMm[to] - runMm[from] < overMm && (from > first || to < last)) {
    const behind = runMm[segment + 1] - runMm[from];
    const ahead = runMm[to] - runMm[segment];
    let isBack = from > first && (behind <= ahead || to === last);
    // Round a point at which the line turns back the chord would get shorter, and point anywhere.
    if (from > first && to < last) {
      const mm = chordMm(points, from, to);
      const isLonger = chordMm(points, from - 1, to) > mm;
      if (isLonger !== chordMm(points, from, to + 1) > mm) isBack = isLonger;
    }
    if (isBack) from--;
    else to++;
  }
  const dx = points[2 * to] - points[2 * from];
  const dy = points[2 * to + 1] - points[2 * from + 1];
  const length = Math.sqrt(dx * dx + dy * dy);
  out[2 * segment] = dx / length;
  out[2 * segment + 1] = dy / length;
}

function chordMm(points: Float64Array, from: number, to: number): number {
  return distanceBetween(points[2 * from], points[2 * from + 1], points[2 * to], points[2 * to + 1]);
}
