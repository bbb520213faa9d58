/**
 * Self-crossings of a line of 200,000 segments beside the noder of `jsts`, a port of the JTS topology suite: both
 * find every crossing of the same line in this one warmed process, several rounds of the one and then of the other,
 * so that neither has to clear away the other's garbage, and again; the best round of each counts.
 * Making what each takes as input is not counted for either; building the spatial index is, for both.
 */
import { crossingsOf } from '../../src/measure/crossings/crossings.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { curve } from '../measure/lines.js';
import { nodedPieces, stringsOf } from '../measure/noder.js';
import type { BenchRow } from './row.js';

const segments = 200_000;
const turns = 6;
const rounds = 8;

export function crossingRows(): BenchRow[] {
  // A row of overlapping loops that wander up and down: as many passes meet as in a densely quilted motif.
  const loops = segments / 200;
  const line = curve(segments, (t) => {
    const angle = 2 * Math.PI * loops * t;
    const radius = 12 * (1 + 0.3 * Math.cos(0.37 * angle));
    return [3 * loops * t + radius * Math.cos(angle), radius * Math.sin(angle) + 20 * Math.sin(0.11 * angle)];
  });
  let ours = Infinity;
  let theirs = Infinity;
  let places = 0;
  const oursOnce = () => {
    places = crossingsOf(new SegmentIndex([line]), 0.01, 1_000_000).places.length;
  };
  for (let turn = 0; turn < turns; turn++) {
    for (let round = 0; round < rounds; round++) ours = Math.min(ours, timed(oursOnce));
    for (let round = 0; round < rounds; round++) {
      const strings = stringsOf([line]);
      const theirsOnce = () => nodedPieces(strings);
      theirs = Math.min(theirs, timed(theirsOnce));
    }
  }
  return [
    {
      work: `self-crossings of ${segments.toLocaleString('en-US')} segments (${places.toLocaleString('en-US')} places)`,
      measured: `${(theirs / ours).toFixed(1)} times as fast as the jsts noder (${ours.toFixed(0)} ms against ${theirs.toFixed(0)} ms)`,
      aim: 'at least 5 times as fast',
    },
  ];
}

function timed(job: () => unknown): number {
  const start = performance.now();
  job();
  return performance.now() - start;
}
