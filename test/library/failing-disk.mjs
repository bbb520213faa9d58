/**
 * Preloaded into the program: the disk fails from the nth write on. `FAIL_AT` is n, counted over all threads that share
 * the process' environment, `FAIL_CODE` the system's error code. What takes away or reads goes on working, as it does
 * on a disk with nothing left.
 */
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { isMainThread } from 'node:worker_threads';

const code = process.env.FAIL_CODE;
// Each thread counts for itself; workers fail a little later than the main thread, so that both are met.
let left = Number(process.env.FAIL_AT) - (isMainThread ? 0 : 3);

function failing(name) {
  const original = fs.promises[name];
  fs.promises[name] = async (...args) => {
    if (name === 'open' && !/[wax+]/.test(String(args[1] ?? 'r'))) return original(...args);
    if (left-- > 0) return original(...args);
    throw Object.assign(new Error(`${code}: made to fail, ${name} '${args[0]}'`), {
      code,
      syscall: name,
      path: String(args[0]),
    });
  };
}

for (const name of ['writeFile', 'appendFile', 'mkdir', 'rename', 'link', 'open', 'truncate']) failing(name);
syncBuiltinESMExports();
