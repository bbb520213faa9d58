/**
 * What a check costs: as a whole process beside a bare `node -e 0`, and in a batch, in this one warmed process,
 * beside a bare `saxes` and `svg-pathdata` pass over the same bytes.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SaxesParser } from 'saxes';
import { SVGPathData } from 'svg-pathdata';
import { rules } from '../../rules/index.js';
import { defaultSetup } from '../../shared/setup.js';
import { lint } from '../../src/lint/index.js';
import { reportOf } from '../../src/lint/report.js';
import { studyOf } from '../../src/measure/index.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { loopingMotif } from './looping-motif.js';
import type { BenchRow } from './row.js';

const rounds = 7;
const curves = 1500;
const motifs = 20;

export async function checkRows(): Promise<BenchRow[]> {
  return [startUp(), await batch()];
}

function startUp() {
  const folder = mkdtempSync(join(tmpdir(), 'linewright-bench-'));
  const file = join(folder, 'motif.svg');
  writeFileSync(file, loopingMotif(1, curves));
  const cli = new URL('../../dist/main.js', import.meta.url).pathname;
  let bare = Infinity;
  let ours = Infinity;
  for (let round = 0; round < rounds; round++) {
    bare = Math.min(bare, processMs(['-e', '0']));
    ours = Math.min(ours, processMs([cli, 'check', file]));
  }
  rmSync(folder, { recursive: true });
  return {
    work: `check of one motif of ${curves.toLocaleString('en-US')} curves, as a process`,
    measured: `${(ours / bare).toFixed(2)} times node -e 0 (${ours.toFixed(0)} ms against ${bare.toFixed(0)} ms)`,
    aim: 'at most 4 times',
  };
}

/** Wall time of `node` with these arguments; a check may find errors, but must have run. */
function processMs(args: readonly string[]): number {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
  if (status !== 0 && status !== 1) throw new Error(`node ${args.join(' ')} ended with ${status}: ${stderr}`);
  return performance.now() - start;
}

async function batch() {
  const files = Array.from({ length: motifs }, (_, seed) => loopingMotif(seed, curves));
  const bytes = files.map((text) => new TextEncoder().encode(text));
  let bare = Infinity;
  let ours = Infinity;
  for (let round = 0; round < rounds; round++) {
    bare = Math.min(bare, await timed(async () => bytes.forEach(barePass)));
    ours = Math.min(ours, await timed(() => checkAll(bytes)));
  }
  return {
    work: `full check with rows, ${motifs} motifs of ${curves.toLocaleString('en-US')} curves in a batch`,
    measured: `${(ours / bare).toFixed(2)} times a bare pass (${(ours / motifs).toFixed(1)} ms against ${(bare / motifs).toFixed(1)} ms a motif)`,
    aim: 'at most 6 times',
  };
}

async function timed(job: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await job();
  return performance.now() - start;
}

function barePass(bytes: Uint8Array): void {
  const parser = new SaxesParser({ xmlns: true });
  parser.on('opentag', (tag) => {
    const d = tag.attributes.d?.value;
    if (d !== undefined) new SVGPathData(d);
  });
  parser.write(new TextDecoder().decode(bytes)).close();
}

async function checkAll(files: readonly Uint8Array[]): Promise<void> {
  for (const bytes of files) {
    const motif = toMotif(await readArtwork(bytes, 'bench.svg', defaultSetup), defaultSetup);
    const study = studyOf(motif, defaultSetup);
    reportOf('bench.svg', study, lint(study, rules));
  }
}
