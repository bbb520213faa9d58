/**
 * One build at a time in one folder, also after a crash.
 *
 * The lock is a file made at once with what it holds: the process and the machine that made it; the holder touches it
 * every few seconds. Who finds it waits, and takes it over once its process is gone (same machine) or it has not been
 * touched for a minute (another machine on a shared drive). Taking over is itself guarded by a second exclusive file,
 * so that of two that wait only one does it.
 */
import { randomBytes, randomUUID } from 'node:crypto';
import { link, open, readFile, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { dirname, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { refusing } from '../files.js';

const touchEveryMs = 5_000;
const abandonedAfterMs = 60_000;
/** On drives that know no links the lock is empty for a blink; after this long its maker died in that blink. */
const emptyForMs = 1_000;
const lookEveryMs = 100;

interface Holder {
  readonly pid: number;
  readonly host: string;
  readonly token: string;
}

export interface Lock {
  release(): Promise<void>;
}

/**
 * Waits until the lock at `path`, in a folder that is there, is ours. `onWait` is called once, where another build
 * holds it.
 *
 * @throws Refusal where it cannot be written
 */
export async function acquireLock(path: string, onWait: () => void): Promise<Lock> {
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
      if ((await holderOf(path))?.token === holder.token) await rm(path, { force: true }).catch(() => {});
    },
  };
}

/** Whether this text is that of a lock. */
export function isHolder(text: string): boolean {
  return parsedHolder(text) !== null;
}

/** False where the file is there already. Nothing is left where it cannot be written. */
async function createWhole(path: string, text: string): Promise<boolean> {
  const temporary = join(dirname(path), `.${randomBytes(8).toString('hex')}.part`);
  try {
    await writeFile(temporary, text, { flag: 'wx' });
    return await linked(temporary, path, text);
  } catch (error) {
    return refusing(path, 'cannot be written')(error);
  } finally {
    await rm(temporary, { force: true }).catch(() => {});
  }
}

async function linked(temporary: string, path: string, text: string): Promise<boolean> {
  try {
    await link(temporary, path);
    return true;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST') return false;
    if (code === 'ENOSPC' || code === 'EROFS') throw error;
    return createdInPlace(path, text);
  }
}

/** For drives that know no links. */
async function createdInPlace(path: string, text: string): Promise<boolean> {
  const file = await open(path, 'wx').catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'EEXIST') return null;
    throw error;
  });
  if (file === null) return false;
  try {
    await file.writeFile(text);
    return true;
  } catch (error) {
    await rm(path, { force: true }).catch(() => {});
    throw error;
  } finally {
    await file.close();
  }
}

async function holderOf(path: string): Promise<Holder | null> {
  return parsedHolder(await readFile(path, 'utf8').catch(() => ''));
}

function parsedHolder(text: string): Holder | null {
  try {
    const holder = JSON.parse(text) as Holder;
    return typeof holder?.pid === 'number' && typeof holder.host === 'string' ? holder : null;
  } catch {
    return null;
  }
}

async function isAbandoned(path: string): Promise<boolean> {
  const found = await stat(path).catch(() => null);
  if (found === null) return false;
  const ageMs = Date.now() - found.mtimeMs;
  if (ageMs > abandonedAfterMs) return true;
  if (found.size === 0) return ageMs > emptyForMs;
  const holder = await holderOf(path);
  return holder !== null && holder.host === hostname() && !isRunning(holder.pid);
}

async function takeAway(path: string): Promise<void> {
  const guard = `${path}.takeover`;
  if (!(await createWhole(guard, guardText))) {
    // Whoever is taking over needs a blink; a guard left by a crash must not block for ever.
    const since = await stat(guard).then(
      ({ mtimeMs }) => mtimeMs,
      () => Date.now(),
    );
    if (Date.now() - since > touchEveryMs)
      await rm(guard, { force: true }).catch(refusing(guard, 'cannot be taken away'));
    await pause(lookEveryMs);
    return;
  }
  try {
    // Seen again under the guard: another may have taken it over since we looked.
    if (await isAbandoned(path))
      await rm(path, { force: true }).catch(refusing(path, 'cannot be taken away'));
  } finally {
    await rm(guard, { force: true }).catch(() => {});
  }
}

const guardText = 'taking over\n';

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
