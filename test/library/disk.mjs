/**
 * Preloaded into the program: the disk as it is at the worst moment.
 *
 * `DISK_STOP` is an expression for a step, what is done to which file: `rename motifs/kelp.svg`. At the `DISK_NTH` step
 * of a thread that matches, the process is killed (`DISK_DOES` is `kill`), or from then on the disk takes nothing more
 * (`DISK_DOES` is the system's error code). What was being written then is there by half. Reading and taking away go on
 * where the disk is only full.
 */
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { basename, dirname, join } from 'node:path';

const stop = new RegExp(process.env.DISK_STOP);
const does = process.env.DISK_DOES;
let left = Number(process.env.DISK_NTH);
let isFull = false;

/** Steps whose file is their second argument. */
const puts = ['rename', 'link'];
const writes = ['writeFile', 'appendFile'];
const others = does === 'kill' ? ['mkdir', 'open', 'rm'] : ['mkdir', 'open'];

for (const name of [...puts, ...writes, ...others]) {
  const original = fs.promises[name];
  fs.promises[name] = async (...args) => {
    if (name === 'open' && !/[wax+]/.test(String(args[1] ?? 'r'))) return original(...args);
    const path = String(args[puts.includes(name) ? 1 : 0]);
    const step = `${name} ${join(basename(dirname(path)), basename(path))}`;
    if (!isFull && !(stop.test(step) && --left === 0)) return original(...args);
    if (!isFull && writes.includes(name)) {
      const [to, data, ...rest] = args;
      await original(to, data.slice(0, data.length / 2), ...rest);
    }
    if (does === 'kill') process.kill(process.pid, 'SIGKILL');
    isFull = true;
    throw Object.assign(new Error(`${does}: made to fail, ${name} '${path}'`), {
      code: does,
      syscall: name,
      path,
    });
  };
}
syncBuiltinESMExports();
