/**
 * Several files, all of them or none: nothing gets its name before everything lies on the disk under another, and what
 * has got it gives it up again, to what was there before, where another cannot.
 */
import { randomBytes } from 'node:crypto';
import { link, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { Refusal } from '../../shared/refusal.js';
import {
  existsAlready,
  fileInTheWay,
  makeFolder,
  noFolder,
  reason,
  requireFree,
  type WriteOptions,
} from '../files.js';

/** What is to lie under a path. */
export interface Output {
  readonly path: string;
  readonly data: Uint8Array | string;
}

interface Staged {
  readonly path: string;
  readonly temporary: string;
  /** A second name for what is overwritten, so that it can be put back. */
  readonly before: string;
}

/** @throws Refusal where a path is not free for it, or cannot be written */
export async function writeAllOrNone(outputs: readonly Output[], options: WriteOptions = {}): Promise<void> {
  for (const { path } of outputs) await requireFree(path, options);
  const staged: Staged[] = [];
  try {
    for (const { path, data } of outputs) {
      const each = { path, temporary: beside(path), before: beside(path) };
      await naming(path, async () => {
        await makeFolder(dirname(path));
        staged.push(each);
        await writeFile(each.temporary, data, { flag: 'wx' });
      });
    }
    await nameAll(staged, options.force ?? false);
  } finally {
    for (const { temporary, before } of staged)
      for (const left of [temporary, before]) await rm(left, { force: true }).catch(() => {});
  }
}

async function nameAll(staged: readonly Staged[], force: boolean): Promise<void> {
  const done: Staged[] = [];
  try {
    for (const each of staged) {
      await naming(each.path, () => give(each, force));
      done.push(each);
    }
  } catch (error) {
    for (const { path, before } of done)
      await rename(before, path).catch(() => rm(path, { force: true }).catch(() => {}));
    throw error;
  }
}

/** A link never replaces what is there, so that two runs at once cannot overwrite each other; some file systems know none. */
async function give({ path, temporary, before }: Staged, force: boolean): Promise<void> {
  if (force) await link(path, before).catch(() => {});
  else if (await link(temporary, path).then(isDone, (error) => isLinked(error, path))) return;
  await rename(temporary, path);
}

function isDone(): boolean {
  return true;
}

function isLinked(error: NodeJS.ErrnoException, path: string): boolean {
  if (error.code === 'EEXIST') throw existsAlready(path);
  return false;
}

function beside(path: string): string {
  return join(dirname(path), `.${randomBytes(8).toString('hex')}.part`);
}

/** The system's complaints about `path` become a Refusal. */
async function naming(path: string, work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    if (error instanceof Refusal) throw error;
    const inTheWay = await fileInTheWay(dirname(path));
    if (inTheWay !== null) throw noFolder(inTheWay);
    throw new Refusal(`${path}: cannot be written, ${reason(error)}.`);
  }
}
