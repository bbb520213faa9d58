/**
 * How the time and memory of a check grow with the points of a motif, as whole processes: a drawing that goes on
 * (ever more loops, ever wider) and one that gets finer (the same loops from ever more points).
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BenchRow } from './row.js';

const sizes = [10_000, 100_000, 1_000_000];
const rounds = 3;
/** Has a process say its greatest memory, in KiB, when it ends. */
const sayMemory = `data:text/javascript,process.on('exit',()=>process._rawDebug('maxRSS '+process.resourceUsage().maxRSS))`;

export function growthRows(): BenchRow[] {
  return [row('ever more loops', (points) => points / 250), row('ever finer points', () => 40)];
}

function row(kind: string, loopsFor: (points: number) => number): BenchRow {
  const folder = mkdtempSync(join(tmpdir(), 'linewright-bench-'));
  try {
    const runs = sizes.map((points) => {
      const file = join(folder, `${points}.svg`);
      writeFileSync(file, pointedMotif(points, loopsFor(points)));
      return best(Array.from({ length: rounds }, () => check(file)));
    });
    const tenfold = runs.slice(1).map(({ ms }, i) => ms / runs[i].ms);
    const growth = tenfold.map((times) => times.toFixed(1)).join(' and ');
    const times = runs.map(({ ms }) => `${(ms / 1000).toFixed(2)} s`).join(', ');
    const most = Math.max(...runs.map(({ megabytes }) => megabytes));
    return {
      work: `check of 10,000, 100,000 and 1,000,000 points, ${kind}`,
      measured: `${growth} times per tenfold (${times}), ${most.toFixed(0)} MB`,
      aim: 'at most 14 times, under 1500 MB',
    };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function best(runs: readonly { ms: number; megabytes: number }[]) {
  return {
    ms: Math.min(...runs.map(({ ms }) => ms)),
    megabytes: Math.max(...runs.map(({ megabytes }) => megabytes)),
  };
}

/** One check as a process; it may find errors, but must have run. */
function check(file: string): { ms: number; megabytes: number } {
  const cli = new URL('../../dist/main.js', import.meta.url).pathname;
  const start = performance.now();
  const { status, stderr } = spawnSync(
    process.execPath,
    ['--import', sayMemory, cli, 'check', '--json', file],
    {
      encoding: 'utf8',
      maxBuffer: 2 ** 30,
    },
  );
  const ms = performance.now() - start;
  if (status !== 0 && status !== 1) throw new Error(`check ended with ${status}: ${stderr}`);
  return { ms, megabytes: Number(/maxRSS (\d+)/.exec(stderr)?.[1]) / 1024 };
}

/** One line of so many points that loops its way across; a loop is 12 mm high and each reaches over the next. */
function pointedMotif(points: number, loops: number): string {
  const width = 8 * loops;
  const numbers = Array.from({ length: points }, (_, i) => {
    const t = i / (points - 1);
    const angle = 2 * Math.PI * loops * t;
    const y = 20 - 6 * Math.cos(angle) + 4 * Math.sin(0.21 * angle);
    return `${(width * t - 5 * Math.sin(angle)).toFixed(3)},${y.toFixed(3)}`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="40mm" viewBox="0 0 ${width} 40">
<polyline fill="none" stroke="#000" points="${numbers.join(' ')}"/></svg>`;
}
