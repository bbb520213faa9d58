/** A worker thread of the pool: one job in, one entry out. */
import { parentPort } from 'node:worker_threads';
import { type MotifJob, workOnMotif } from './motif-work.js';

parentPort?.on('message', async (job: MotifJob) => {
  parentPort?.postMessage(await workOnMotif(job));
});
