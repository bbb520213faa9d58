/**
 * The ground a library stands on: which folder it is, and that it may be written to.
 *
 * A library is only ever written into a folder that is new, empty, or marked as a library by its own index; the index
 * is the first thing a build writes, so that also an interrupted build leaves a marked folder. Folders are told apart
 * by where they really lie, links followed: that keeps originals from being taken for outputs, and outputs for
 * originals, however the two lie to one another.
 */
import { lstat, open, readdir, readFile, realpath, stat } from 'node:fs/promises';
import { dirname, join, resolve, sep } from 'node:path';
import { Refusal } from '../../shared/refusal.js';
import { fileInTheWay, isUnfinished, noFolder, refusing } from '../files.js';
import { indexName, lockName, motifsFolder } from './contents/index-file.js';
import { isHolder } from './lock.js';

/**
 * Where the library's folder really lies; it need not exist yet.
 *
 * @throws Refusal where it cannot be a library's folder
 */
export async function libraryHome(folder: string): Promise<string> {
  const inTheWay = await fileInTheWay(folder);
  if (inTheWay !== null) throw noFolder(inTheWay);
  const home = await realPlace(folder);
  if (!(await isMarked(home))) await requireEmpty(home, folder);
  const motifs = await lstat(join(home, motifsFolder)).catch(() => null);
  if (motifs !== null && !motifs.isDirectory())
    throw new Refusal(
      `${join(folder, motifsFolder)} is ${motifs.isSymbolicLink() ? 'a link' : 'a file'}: a library keeps its motifs in a folder of its own; name another --out.`,
    );
  return home;
}

/** The path with all links followed, also where its last parts do not exist yet. */
async function realPlace(path: string): Promise<string> {
  const whole = resolve(path);
  const found = await realpath(whole).catch(() => null);
  if (found !== null) return found;
  if (await lstat(whole).catch(() => null))
    throw new Refusal(`${path}: this is a link that leads nowhere; name a folder.`);
  return join(await realPlace(dirname(whole)), whole.slice(dirname(whole).length));
}

/** Whether `index.json` in the folder says of itself that it is the index of a library. */
export async function isMarked(folder: string): Promise<boolean> {
  const path = join(folder, indexName);
  // Nothing but a regular file is opened: a pipe would wait for a writer.
  if (!(await stat(path).catch(() => null))?.isFile()) return false;
  const file = await open(path).catch(() => null);
  if (file === null) return false;
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(200), 0, 200, 0);
    return /^\s*\{\s*"format"\s*:\s*"linewright-library"/.test(buffer.toString('utf8', 0, bytesRead));
  } catch {
    return false;
  } finally {
    await file.close();
  }
}

/** Hidden files, which systems strew about, do not count, nor what a build leaves that was killed at its very start. */
async function requireEmpty(home: string, folder: string): Promise<void> {
  const found = await readdir(home).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return [];
    return refusing(folder, 'this cannot be used as a folder for the library')(error);
  });
  for (const name of found) {
    if (isUnfinished(name) || name.startsWith('.')) continue;
    if (name === lockName && (await isOwnLock(join(home, name)))) continue;
    throw new Refusal(
      `${folder} holds other things (such as ${name}) and no library: name a new folder or an empty one.`,
    );
  }
}

async function isOwnLock(path: string): Promise<boolean> {
  const text = await readFile(path, 'utf8').catch(() => null);
  return text !== null && (text === '' || isHolder(text));
}

/** Whether a real path is the folder or lies in it. */
export function liesIn(path: string, folder: string): boolean {
  return path === folder || path.startsWith(folder.endsWith(sep) ? folder : folder + sep);
}
