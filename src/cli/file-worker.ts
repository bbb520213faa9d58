/** A worker thread of `file-work`: one file in, what came of it out. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Run } from './file-job.js';
import { type Answered, type Numbered, workOn } from './file-work.js';

parentPort?.on('message', async ({ number, ...job }: Numbered) => {
  const answer: Answered = { number, ...(await workOn(job, workerData as Run)) };
  parentPort?.postMessage(answer);
});
