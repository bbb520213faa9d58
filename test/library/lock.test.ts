/** The lock keeps two builds apart, and one that was killed keeps nobody out. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { acquireLock } from '../../src/library/lock.js';

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'linewright-lock-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

it('lets one at a time do its work, whatever the number of those that wait', async () => {
  const path = join(folder, 'build.lock');
  let inside = 0;
  let most = 0;
  let waited = 0;
  await Promise.all(
    Array.from({ length: 6 }, async () => {
      const lock = await acquireLock(path, () => waited++);
      most = Math.max(most, ++inside);
      await pause(20);
      inside--;
      await lock.release();
    }),
  );
  expect(most).toBe(1);
  expect(waited).toBe(5);
});

it('takes over from a process that is gone, by one of those that wait only', async () => {
  const path = join(folder, 'build.lock');
  const gone = spawn(process.execPath, ['-e', '0']);
  await once(gone, 'exit');
  await writeFile(path, JSON.stringify({ pid: gone.pid, host: hostname(), token: 'gone' }));
  let inside = 0;
  let most = 0;
  await Promise.all(
    Array.from({ length: 4 }, async () => {
      const lock = await acquireLock(path, () => {});
      most = Math.max(most, ++inside);
      await pause(10);
      inside--;
      await lock.release();
    }),
  );
  expect(most).toBe(1);
});

it('waits for a process that is alive, and leaves its lock alone', async () => {
  const path = join(folder, 'build.lock');
  const text = JSON.stringify({ pid: process.pid, host: hostname(), token: 'another' });
  await writeFile(path, text);
  let isIn = false;
  const lock = acquireLock(path, () => {}).then((held) => {
    isIn = true;
    return held;
  });
  await pause(400);
  expect(isIn).toBe(false);
  expect(await readFile(path, 'utf8')).toBe(text);
  await rm(path);
  await (await lock).release();
});
