/**
 * Preloaded into the program: every thread tells what it holds, bytes, after a hundred files it wrote and after every
 * hundred more. Needs `--expose-gc`: what nobody holds any longer does not count.
 */
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { threadId } from 'node:worker_threads';

const every = 100;
let written = 0;
// A worker ends each file by a rename, the main thread notes each motif in the journal.
for (const name of ['rename', 'appendFile']) {
  const original = fs.promises[name];
  fs.promises[name] = async (...args) => {
    await original(...args);
    if (++written % every > 0) return;
    globalThis.gc();
    const { heapUsed, external } = process.memoryUsage();
    process._rawDebug(`thread ${threadId} holds ${heapUsed + external}`);
  };
}
syncBuiltinESMExports();
