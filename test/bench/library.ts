/**
 * What a library of a thousand motifs costs, as whole processes: how far its first build keeps the cores busy, how
 * long a second one takes where nothing has changed, and how memory grows with the number of motifs.
 */
import { type SpawnSyncReturns, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { generate } from '../library/generated.js';
import type { BenchRow } from './row.js';

const motifs = 1000;
const fewer = motifs / 4;
/** Has a process say what it used, in KiB and microseconds, when it ends. */
const sayUse = `data:text/javascript,process.on('exit',()=>{
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  process._rawDebug('used '+maxRSS+' '+(userCPUTime+systemCPUTime));
})`;

interface Use {
  readonly seconds: number;
  readonly cpuSeconds: number;
  readonly megabytes: number;
}

export async function libraryRows(): Promise<BenchRow[]> {
  const folder = mkdtempSync(join(tmpdir(), 'linewright-bench-'));
  try {
    await generate(join(folder, 'few'), fewer, 1);
    await generate(join(folder, 'all'), motifs, 1);
    const few = build(folder, 'few');
    const first = build(folder, 'all');
    const second = Math.min(...Array.from({ length: 3 }, () => build(folder, 'all').seconds));
    const indexMb = statSync(join(folder, 'library of all', 'index.json')).size / 2 ** 20;
    const name = `library of ${motifs.toLocaleString('en-US')} motifs`;
    return [
      {
        work: `${name}, first build`,
        measured: `${(first.cpuSeconds / first.seconds).toFixed(2)} of ${availableParallelism()} cores busy (${first.seconds.toFixed(1)} s)`,
        aim: 'all cores busy',
      },
      {
        work: `${name}, second build with nothing changed`,
        measured: `${((100 * second) / first.seconds).toFixed(1)} % of the first (${second.toFixed(2)} s)`,
        aim: 'under 5 %',
      },
      {
        work: `memory of that first build, beside one of ${fewer} motifs`,
        measured: `${first.megabytes.toFixed(0)} MB against ${few.megabytes.toFixed(0)} MB; index.json has ${indexMb.toFixed(1)} MB`,
        aim: 'no growth beyond the index',
      },
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** One build as a process; some of the generated files cannot be read, so it ends with 2. */
function build(folder: string, sources: string): Use {
  const cli = new URL('../../dist/main.js', import.meta.url).pathname;
  const args = ['library', 'build', sources, '--out', `library of ${sources}`, '--json'];
  const start = performance.now();
  const { status, stderr }: SpawnSyncReturns<string> = spawnSync(
    process.execPath,
    ['--import', sayUse, cli, ...args],
    { cwd: folder, encoding: 'utf8', maxBuffer: 2 ** 30 },
  );
  const seconds = (performance.now() - start) / 1000;
  const used = /used (\d+) (\d+)/.exec(stderr);
  if (status !== 2 || used === null) throw new Error(`library build ended with ${status}: ${stderr}`);
  return { seconds, cpuSeconds: Number(used[2]) / 1e6, megabytes: Number(used[1]) / 1024 };
}
