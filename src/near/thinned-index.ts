/**
 * An index of the same strokes with fewer points, for questions about what lies near: a line drawn with a point
 * every hundredth of a millimetre has a thousand times as many pairs of segments near each other as it needs.
 *
 * Lengths walked are still those of the full strokes, so that answers hold for them as they are.
 */
import { neededPoints } from '../geometry/thinning.js';
import { onceFor, oncePer } from '../once.js';
import { SegmentIndex } from './segment-index.js';

/** Where the steps are longer than this on average there is little to gain, mm. */
const sparseMm = 0.25;

const thinnedTo = oncePer((index: SegmentIndex) =>
  onceFor((toleranceMm: number) => (isSparse(index) ? index : thin(index, toleranceMm))),
);

/** No point left out lies farther than `toleranceMm` from the line without it. */
export function thinnedIndex(index: SegmentIndex, toleranceMm: number): SegmentIndex {
  return thinnedTo(index)(toleranceMm);
}

function isSparse(index: SegmentIndex): boolean {
  let lengthMm = 0;
  for (let stroke = 0; stroke < index.strokes.length; stroke++) lengthMm += index.strokeLengthMm(stroke);
  return lengthMm >= sparseMm * index.strokeOf.length;
}

function thin(index: SegmentIndex, toleranceMm: number): SegmentIndex {
  const runs: Float64Array[] = [];
  const strokes = index.strokes.map((line, stroke) => {
    const keep = neededPoints(line, toleranceMm);
    runs.push(
      index.runMm
        .subarray(index.firstPoints[stroke], index.firstPoints[stroke + 1])
        .filter((_, p) => keep[p] === 1),
    );
    return line.filter((_, i) => keep[i >> 1] === 1);
  });
  const runMm = new Float64Array(runs.reduce((sum, run) => sum + run.length, 0));
  let at = 0;
  for (const run of runs) {
    runMm.set(run, at);
    at += run.length;
  }
  return new SegmentIndex(strokes, runMm);
}
