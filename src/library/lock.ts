/**
 * One build at a time in one folder, also after a crash.
 *
 * The lock is a file made with the exclusive flag, holding the process and the machine that made it; the holder
 * touches it every few seconds. Who finds it waits, and takes it over once its process is gone (same machine) or it
 * has not been touched for a minute (another machine on a shared drive). Taking over is itself guarded by a second
 * exclusive file, so that of two that wait only one does it.
 */
import { randomUUID } from 'node:crypto';
import { mkdir, open, readFile, rm, stat, utimes } from 'node:fs/promises';
import { hostname } from 'node:os';
import { dirname } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

const touchEveryMs = 5_000;
const abandonedAfterMs = 60_000;
const lookEveryMs = 100;

interface Holder {
  readonly pid: number;
  readonly host: string;
  readonly token: string;
}

export interface Lock {
  release(): Promise<void>;
}

/** Waits until the lock at `path` is ours. `onWait` is called once, where another build holds it. */
export async function acquireLock(path: string, onWait: () => void): Promise<Lock> {
  await mkdir(dirname(path), { recursive: true });
  const holder: Holder = { pid: process.pid, host: hostname(), token: randomUUID() };
  for (let waited = false; !(await createWhole(path, JSON.stringify(holder))); ) {
    if (await isAbandoned(path)) {
      await takeAway(path);
      continue;
    }
    if (!waited) onWait();
    waited = true;
    await pause(lookEveryMs);
  }
  const touching = setInterval(() => {
    const now = new Date();
    utimes(path, now, now).catch(() => {});
  }, touchEveryMs);
  touching.unref();
  return {
    async release() {
      clearInterval(touching);
      if ((await holderOf(path))?.token === holder.token) await rm(path, { force: true });
    },
  };
}

/** False where the file is there already. */
async function createWhole(path: string, text: string): Promise<boolean> {
  try {
    const file = await open(path, 'wx');
    await file.writeFile(text);
    await file.close();
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
}

async function holderOf(path: string): Promise<Holder | null> {
  try {
    return JSON.parse(await readFile(path, 'utf8')) as Holder;
  } catch {
    return null;
  }
}

async function isAbandoned(path: string): Promise<boolean> {
  const touched = await stat(path).then(
    ({ mtimeMs }) => mtimeMs,
    () => null,
  );
  if (touched === null) return false;
  if (Date.now() - touched > abandonedAfterMs) return true;
  const holder = await holderOf(path);
  // A lock that cannot be read is being written just now, or its writer died in between: the minute decides.
  return holder !== null && holder.host === hostname() && !isRunning(holder.pid);
}

async function takeAway(path: string): Promise<void> {
  const guard = `${path}.takeover`;
  if (!(await createWhole(guard, ''))) {
    // Whoever is taking over needs a blink; a guard left by a crash must not block for ever.
    const since = await stat(guard).then(
      ({ mtimeMs }) => mtimeMs,
      () => Date.now(),
    );
    if (Date.now() - since > touchEveryMs) await rm(guard, { force: true });
    await pause(lookEveryMs);
    return;
  }
  // Seen again under the guard: another may have taken it over since we looked.
  if (await isAbandoned(path)) await rm(path, { force: true });
  await rm(guard, { force: true });
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
