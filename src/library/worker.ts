/** A worker thread of the pool: one job in, one answer out. */
import { parentPort } from 'node:worker_threads';
import { Refusal } from '../../shared/refusal.js';
import type { Entry } from './contents/index-file.js';
import { type MotifJob, workOnMotif } from './motif-work.js';

/** The entry of a source, or the sentence that says why the library cannot be written to. */
export type Answer = { readonly entry: Entry } | { readonly refused: string };

parentPort?.on('message', async (job: MotifJob) => parentPort?.postMessage(await answerTo(job)));

async function answerTo(job: MotifJob): Promise<Answer> {
  try {
    return { entry: await workOnMotif(job) };
  } catch (error) {
    if (error instanceof Refusal) return { refused: error.message };
    throw error;
  }
}
