/**
 * Work on many files, of which none can stop the others: each is done in a worker thread, over all cores, and one that
 * dies or never ends is told as such. A single file is done right here, which starts faster.
 */
import { Refusal } from '../../shared/refusal.js';
import type { FileCommand, FileDone, FileJob, Run } from './file-job.js';
import { plain } from './page.js';

/** The work of each command on one file. */
export const fileCommands = {
  check: async () => (await import('./check-file.js')).checkFile,
  convert: async () => (await import('./convert-file.js')).convertFile,
  mend: async () => (await import('./mend-file.js')).mendFile,
} as const satisfies Readonly<Record<FileCommand, unknown>>;

/** The work on one file; a Refusal becomes its sentence. */
export async function workOn(job: FileJob, run: Run): Promise<FileDone> {
  const work: (job: FileJob, run: Run) => Promise<FileDone> = await fileCommands[run.command]();
  try {
    return await work(job, run);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { refused: error.message };
  }
}

/**
 * Works on each file. `tell` is called for each in the order of the files; before it, the sentence of one that could
 * not be done has gone to stderr.
 */
export async function eachFile<T>(
  jobs: readonly FileJob[],
  run: Run,
  tell: (done: FileDone<T>, job: FileJob) => void,
): Promise<void> {
  const tellOne = (done: FileDone, job: FileJob) => {
    if (done.refused !== undefined) process.stderr.write(`${plain(done.refused)}\n`);
    tell(done as FileDone<T>, job);
  };
  if (jobs.length === 1) return tellOne(await workOn(jobs[0], run), jobs[0]);

  const [{ lanesFor, spread }, { Progress }] = await Promise.all([
    import('../pool.js'),
    import('./progress.js'),
  ]);
  const progress = new Progress(jobs.length, process.stderr);
  const lanes = lanesFor(jobs.length);
  const waiting = new Map<number, FileDone>();
  let told = 0;
  let done = 0;
  progress.show(0, plain(jobs[0]?.file ?? ''));
  await spread<Numbered, Answered>({
    worker: new URL('./file-worker.js', import.meta.url),
    data: run,
    jobs: jobs.map((job, number) => ({ ...job, number })),
    patienceMs: 1000 * run.setup.limits.secondsAFile,
    onResult: async ({ number, ...answer }) => {
      waiting.set(number, answer);
      for (let next = waiting.get(told); next !== undefined; next = waiting.get(told)) {
        waiting.delete(told);
        progress.clear();
        tellOne(next, jobs[told++]);
      }
      done++;
      progress.show(done, plain(jobs[Math.min(done + lanes, jobs.length) - 1].file));
    },
    onLost: ({ number, file }, reason) => ({ number, refused: `${file}: ${reason}.` }),
  });
  progress.clear();
}

export interface Numbered extends FileJob {
  readonly number: number;
}

export interface Answered extends FileDone {
  readonly number: number;
}
