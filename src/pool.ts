/**
 * Work spread over all cores: one worker thread a core, each given its next job when it has done its last.
 *
 * A job that ends its worker (out of memory, say) or takes longer than `patienceMs` is answered by `onLost`, and a new
 * worker takes the dead one's place, so that one file cannot stop a thousand others.
 */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';

export interface PoolWork<Job, Result> {
  readonly worker: URL;
  /** What every job needs, given to each worker once. */
  readonly data?: unknown;
  readonly patienceMs: number;
  readonly jobs: readonly Job[];
  /** Called in the order in which jobs end, one at a time. */
  readonly onResult: (result: Result) => Promise<void>;
  /** The result of a job whose worker died. */
  readonly onLost: (job: Job, reason: string) => Result;
}

/** Done when every job is; an error thrown by `onResult` stops the rest and is thrown again. */
export async function spread<Job, Result>(work: PoolWork<Job, Result>): Promise<void> {
  const waiting = [...work.jobs].reverse();
  let turn = Promise.resolve();
  const handOn = (result: Result) => {
    turn = turn.then(() => work.onResult(result));
    return turn;
  };
  const lanes = lanesFor(work.jobs.length);
  // All lanes come to their end, also where one failed: what another is writing just now is not cut off.
  const ended = await Promise.allSettled(Array.from({ length: lanes }, () => lane(work, waiting, handOn)));
  for (const end of ended) if (end.status === 'rejected') throw end.reason;
}

/** How many of so many jobs are done at once. */
export function lanesFor(jobs: number): number {
  return Math.min(availableParallelism(), jobs);
}

async function lane<Job, Result>(
  work: PoolWork<Job, Result>,
  waiting: Job[],
  handOn: (result: Result) => Promise<void>,
): Promise<void> {
  const start = () => new Worker(work.worker, { workerData: work.data });
  let worker = start();
  try {
    for (let job = waiting.pop(); job !== undefined; job = waiting.pop()) {
      const answer = await ask<Job, Result>(worker, job, work.patienceMs);
      if ('lost' in answer) {
        await worker.terminate();
        worker = start();
        await handOn(work.onLost(job, answer.lost));
      } else {
        await handOn(answer.result);
      }
    }
  } catch (error) {
    waiting.length = 0;
    throw error;
  } finally {
    await worker.terminate();
  }
}

function ask<Job, Result>(
  worker: Worker,
  job: Job,
  patienceMs: number,
): Promise<{ result: Result } | { lost: string }> {
  return new Promise((resolve) => {
    const tooLong = setTimeout(
      () => settle({ lost: `the work on it took longer than ${patienceMs / 1000} s` }),
      patienceMs,
    );
    const settle = (answer: { result: Result } | { lost: string }) => {
      clearTimeout(tooLong);
      worker.off('message', onMessage).off('error', onError).off('exit', onExit);
      resolve(answer);
    };
    const onMessage = (result: Result) => settle({ result });
    const onError = (error: unknown) => settle({ lost: lostBecause(error) });
    const onExit = () => settle({ lost: 'the work on it ended unexpectedly' });
    worker.on('message', onMessage).on('error', onError).on('exit', onExit);
    worker.postMessage(job);
  });
}

function lostBecause(error: unknown): string {
  const isMemory = (error as NodeJS.ErrnoException).code === 'ERR_WORKER_OUT_OF_MEMORY';
  return isMemory ? 'it needs more memory than there is' : `the work on it failed (${String(error)})`;
}
