/**
 * How the rows of a motif nest, in all four layouts, beside one Delaunay triangulation (delaunator) of the motif's own
 * points: in this one warmed process, taking turns, the best of several rounds each. And a motif of 200,000 points.
 */
import Delaunator from 'delaunator';
import { layouts } from '../../shared/layout.js';
import { nest, rowOf } from '../../src/rows/index.js';
import { curve } from '../measure/lines.js';
import type { BenchRow } from './row.js';

const rounds = 25;
const repeatMm = 250;
const clearanceMm = 3;

export function nestingRows(): BenchRow[] {
  return [besideDelaunay(5_000), large(200_000)];
}

/** Loops that wander up and down, their outline broken by those in front: pockets, overhangs and bays. */
function motifLine(points: number): Float64Array {
  const turn = 2 * Math.PI;
  return curve(points - 1, (t) => [
    repeatMm * t - 18 * Math.sin(turn * 11 * t),
    25 * Math.sin(turn * 2 * t) + 16 * Math.cos(turn * 11 * t) + 2 * Math.sin(turn * 53 * t),
  ]);
}

function besideDelaunay(points: number): BenchRow {
  const line = motifLine(points);
  let ours = Infinity;
  let theirs = Infinity;
  for (let round = 0; round < rounds; round++) {
    ours = Math.min(
      ours,
      timed(() => nestAll(line)),
    );
    theirs = Math.min(
      theirs,
      timed(() => new Delaunator(line)),
    );
  }
  return {
    work: `rows of a motif of ${points.toLocaleString('en-US')} points, all four layouts`,
    measured: `${(ours / theirs).toFixed(1)} times one Delaunay triangulation of its points (${ours.toFixed(1)} ms against ${theirs.toFixed(1)} ms)`,
    aim: 'at most 10 times',
  };
}

function large(points: number): BenchRow {
  const ms = timed(() => nestAll(motifLine(points)));
  return {
    work: `rows of a motif of ${points.toLocaleString('en-US')} points, all four layouts`,
    measured: `${(ms / 1000).toFixed(2)} s`,
    aim: 'an answer',
  };
}

function nestAll(line: Float64Array): void {
  // A row is worked out anew each time: nothing is remembered from the round before.
  const row = rowOf([line], repeatMm);
  // Interlocks are looked for only when asked for.
  for (const layout of layouts) nest(row, layout, clearanceMm).interlocksMm.at(0);
}

function timed(job: () => unknown): number {
  const start = performance.now();
  job();
  return performance.now() - start;
}
