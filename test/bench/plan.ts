/**
 * The plan of a whole quilt. As a process of its own: 100 rows of 20 repeats of 1,500 points, choices and all, and how
 * it grows with the rows; going on with it after a break, and lining a pass up, beside a process that only parses its
 * JSON; every pass in every form. In this one process: the line of the plan alone, beside a bare pass that copies its points.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { defaultSetup } from '../../shared/setup.js';
import { moved } from '../../src/geometry/polyline.js';
import { fieldOf, topOf } from '../../src/plan/field.js';
import { trimmedRow } from '../../src/plan/trim.js';
import { motifOf } from '../../src/size/motif-of.js';
import { writeSvg } from '../../src/write/index.js';
import { curve } from '../measure/lines.js';
import type { BenchRow } from './row.js';

const points = 1500;
const repeatMm = 250;
const spacingMm = 57;
const across = 20;
const rounds = 5;
/** Has a process say its greatest memory, in KiB, when it ends. */
const sayMemory = `data:text/javascript,process.on('exit',()=>process._rawDebug('maxRSS '+process.resourceUsage().maxRSS))`;

/** Loops that wander up and down, with pockets, overhangs and bays; about 82 mm high. */
const motif = curve(points - 1, (t) => [
  repeatMm * t - 18 * Math.sin(22 * Math.PI * t),
  25 * Math.sin(4 * Math.PI * t) + 16 * Math.cos(22 * Math.PI * t),
]);

export function planRows(): BenchRow[] {
  return [growth(), ...afterwards(), trimming()];
}

function growth(): BenchRow {
  return inFolder((folder) => {
    const runs = [10, 100].map((rows) => run(planned(rows, '--json'), folder));
    const [few, many] = runs;
    return {
      work: 'plan of 10 and of 100 rows of 20 repeats of 1,500 points, all choices, as JSON',
      measured: `${(many.ms / few.ms).toFixed(1)} times for ten times the rows (${runs.map(({ ms }) => `${(ms / 1000).toFixed(1)} s`).join(', ')}), ${many.megabytes.toFixed(0)} MB`,
      aim: 'at most 12 times, in seconds, under 1000 MB',
    };
  });
}

/** With the plan of 3 million points on disk. */
function afterwards(): BenchRow[] {
  return inFolder((folder) => {
    const all = run(planned(100, '--out', 'quilt', '--to', 'svg,motif,csv,dxf,png'), folder);
    const files = readdirSync(join(folder, 'quilt')).map(
      (name) => statSync(join(folder, 'quilt', name)).size,
    );
    const bytes = files.reduce((sum, each) => sum + each, 0);
    const bare = run(['-e', "JSON.parse(require('fs').readFileSync('quilt/plan.json', 'utf8'))"], folder);
    const half = `${across * repeatMm - 60}mm`;
    const found = `--found=-20mm, 300mm; ${half}, 301mm`;
    const expected = `--expected=-20mm, 300mm; ${half}, 300mm`;
    const jobs = {
      resume: ['resume', 'quilt', '--pass', '3', '--at', '2000mm; 950mm', '--which', '1', '--out', 'rest'],
      align: ['align', 'quilt', '--pass', '3', found, expected, '--out', 'aligned'],
    };
    return [
      {
        work: 'plan of 3 million points with every pass in every form',
        measured: `${(all.ms / 1000).toFixed(1)} s for ${(bytes / 2 ** 20).toFixed(0)} MB in ${files.length} files, ${all.megabytes.toFixed(0)} MB of memory`,
        aim: 'under 60 s and 1000 MB',
      },
      ...Object.entries(jobs).map(([name, words]) => {
        const { ms, megabytes } = run([cli, ...words], folder);
        return {
          work: `${name} of a pass of that plan, written as SVG`,
          measured: `${(ms / bare.ms).toFixed(1)} times a process that parses its JSON (${ms.toFixed(0)} ms against ${bare.ms.toFixed(0)} ms), ${megabytes.toFixed(0)} MB against ${bare.megabytes.toFixed(0)} MB`,
          aim: 'at most 3 times, in no more memory',
        };
      }),
    ];
  });
}

const cli = new URL('../../dist/main.js', import.meta.url).pathname;

function planned(rows: number, ...words: string[]): string[] {
  const top = `${across * repeatMm - 50}mm x ${rows * spacingMm}mm`;
  return [cli, 'plan', 'motif.svg', '--quilt', top, '--throat', '450mm', ...words];
}

/** A folder with the motif, gone afterwards. */
function inFolder<T>(job: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'linewright-bench-'));
  try {
    writeFileSync(join(folder, 'motif.svg'), writeSvg(motifOf([motif])));
    return job(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function run(words: readonly string[], folder: string): { ms: number; megabytes: number } {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, ['--import', sayMemory, ...words], {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 2 ** 30,
  });
  const ms = performance.now() - start;
  if (status !== 0) throw new Error(`${words.join(' ')} ended with ${status}: ${stderr}`);
  return { ms, megabytes: Number(/maxRSS (\d+)/.exec(stderr)?.[1]) / 1024 };
}

/** The rows of 3 million points, trimmed to their field, against each repeat copied to its place. */
function trimming(): BenchRow {
  const rows = 100;
  const quilt = {
    widthMm: across * repeatMm - 50,
    heightMm: rows * spacingMm,
    marginMm: defaultSetup.marginMm,
  };
  const [field, top] = [fieldOf(quilt), topOf(quilt)];
  let [ours, bare] = [Infinity, Infinity];
  for (let round = 0; round < rounds; round++) {
    ours = Math.min(
      ours,
      timed(() => {
        for (let row = 0; row < rows; row++)
          trimmedRow(moved(motif, 0, row * spacingMm), repeatMm, field, top);
      }),
    );
    bare = Math.min(
      bare,
      timed(() => {
        for (let row = 0; row < rows; row++)
          for (let repeat = 0; repeat < across; repeat++) moved(motif, repeat * repeatMm, row * spacingMm);
      }),
    );
  }
  return {
    work: '3 million points of a plan trimmed to the field',
    measured: `${(ours / bare).toFixed(1)} times a bare pass that copies them (${ours.toFixed(0)} ms against ${bare.toFixed(0)} ms)`,
    aim: 'at most 10 times',
  };
}

function timed(job: () => unknown): number {
  const start = performance.now();
  job();
  return performance.now() - start;
}
