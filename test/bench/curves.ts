/** How long `--curves` takes beside the full check of the same motifs, in this one warmed process, taking turns. */
import { readdirSync, readFileSync } from 'node:fs';
import { rules } from '../../rules/index.js';
import type { Motif } from '../../shared/motif.js';
import { defaultSetup } from '../../shared/setup.js';
import { curvesOf } from '../../src/curves/index.js';
import { lint } from '../../src/lint/index.js';
import { studyOf } from '../../src/measure/index.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import type { BenchRow } from './row.js';

const rounds = 3;
const folder = new URL('../../corpus/motifs/', import.meta.url);

export async function curvesRows(): Promise<BenchRow[]> {
  const motifs: Motif[] = [];
  for (const name of readdirSync(folder))
    motifs.push(
      toMotif(await readArtwork(readFileSync(new URL(name, folder)), name, defaultSetup), defaultSetup),
    );
  let [fitting, checking] = [Infinity, Infinity];
  for (let round = 0; round < rounds; round++) {
    fitting = Math.min(
      fitting,
      timed(() => {
        for (const { strokes } of motifs) curvesOf(strokes);
      }),
    );
    checking = Math.min(
      checking,
      timed(() => {
        for (const motif of motifs) lint(studyOf(motif, defaultSetup), rules);
      }),
    );
  }
  return [
    {
      work: `fitting curves to the ${motifs.length} motifs of the corpus`,
      measured: `${(fitting / checking).toFixed(2)} times the full check (${fitting.toFixed(0)} ms against ${checking.toFixed(0)} ms)`,
      aim: 'at most once',
    },
  ];
}

function timed(job: () => void): number {
  const start = performance.now();
  job();
  return performance.now() - start;
}
