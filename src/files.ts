/**
 * The thin file layer: whole regular files in, whole files out.
 *
 * Only regular files are opened: a pipe would hang, a device never ends. What is written appears under its name at
 * once and complete, or not at all: it is written beside it under another name and renamed.
 *
 * Hashing and unpacking are loaded when needed: they would cost a small check a tenth of its time.
 */
import { constants } from 'node:fs';
import { access, link, mkdir, open, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { Refusal } from '../shared/refusal.js';

export interface InputFile {
  /** The path as given. */
  readonly file: string;
  /** Unpacked, where the file was gzipped. */
  readonly bytes: Uint8Array;
  /** Of the file as it lies on disk, hexadecimal. */
  readonly sha256: string;
}

/**
 * A regular file, and what tells it from others.
 *
 * @throws Refusal as `readBytes` does
 */
export async function readRegularFile(file: string, limits: { fileBytes: number }): Promise<InputFile> {
  const raw = await rawBytes(file, limits.fileBytes);
  const { createHash } = await import('node:crypto');
  const sha256 = createHash('sha256').update(raw).digest('hex');
  return { file, sha256, bytes: await unpacked(raw, file, limits.fileBytes) };
}

/**
 * The bytes of a regular file, unpacked where they are gzipped (`.svgz`).
 *
 * @throws Refusal where it is missing, no regular file, not readable, or larger than `fileBytes`, packed or unpacked
 */
export async function readBytes(file: string, limits: { fileBytes: number }): Promise<Uint8Array> {
  return unpacked(await rawBytes(file, limits.fileBytes), file, limits.fileBytes);
}

async function rawBytes(file: string, most: number): Promise<Uint8Array> {
  await requireRegular(file);
  // Not blocking: should the file have become a pipe since it was looked at, opening it must not wait for a writer.
  const handle = await open(file, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0)).catch((error) => {
    throw unread(file, error);
  });
  try {
    const found = await handle.stat();
    if (!found.isFile()) throw new Refusal(`${file}: not a regular file.`);
    if (found.size > most) throw tooLarge(file, most);
    return await handle.readFile();
  } catch (error) {
    throw error instanceof Refusal ? error : unread(file, error);
  } finally {
    await handle.close();
  }
}

async function requireRegular(file: string): Promise<void> {
  const found = await stat(file).catch((error) => {
    throw unread(file, error);
  });
  if (found.isFile()) return;
  const kind = found.isDirectory() ? 'a folder' : found.isFIFO() ? 'a pipe' : 'a device';
  throw new Refusal(`${file}: this is ${kind}, not a file.`);
}

function unread(file: string, error: unknown): Refusal {
  const isMissing = (error as NodeJS.ErrnoException).code === 'ENOENT';
  return new Refusal(`${file}: ${isMissing ? '' : 'cannot be read, '}${reason(error)}.`);
}

async function unpacked(raw: Uint8Array, file: string, most: number): Promise<Uint8Array> {
  if (raw[0] !== 0x1f || raw[1] !== 0x8b) return raw;
  const { gunzip } = await import('node:zlib');
  try {
    return await promisify(gunzip)(raw, { maxOutputLength: most });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ERR_BUFFER_TOO_LARGE') throw tooLarge(file, most);
    throw new Refusal(`${file}: the packed file is damaged or cut short.`);
  }
}

function tooLarge(file: string, most: number): Refusal {
  const megabytes = Math.round((10 * most) / 2 ** 20) / 10;
  return new Refusal(`${file}: larger than ${megabytes} MB, the most that is read.`);
}

export interface WriteOptions {
  /** Whether what exists may be overwritten. */
  readonly force?: boolean;
  /** Files that are never overwritten. */
  readonly inputs?: readonly string[];
  /** Whether the path stands as it was typed, so that another can be typed instead. */
  readonly typed?: boolean;
}

/** @throws Refusal where the path exists and `force` is not set, or is one of `inputs` */
export async function requireFree(
  path: string,
  { force = false, inputs = [], typed = false }: WriteOptions,
): Promise<void> {
  await requireNoInput(path, inputs);
  const isFolder = /[\\/]$/.test(path) || (await stat(path).catch(() => null))?.isDirectory();
  if (isFolder && typed) throw new Refusal(`${path}: this is a folder; name a file in it.`);
  if (isFolder) throw new Refusal(`${path}: cannot be written, this is a folder.`);
  if (!force && (await exists(path))) throw existsAlready(path);
}

/**
 * Writes `data` to `path` whole, making its folder where that is missing.
 *
 * @throws Refusal where the path is not free for it, or cannot be written
 */
export async function writeWhole(
  path: string,
  data: Uint8Array | string,
  options: WriteOptions = {},
): Promise<void> {
  await requireFree(path, options);
  const { randomBytes } = await import('node:crypto');
  const temporary = join(dirname(path), `.${randomBytes(8).toString('hex')}.part`);
  try {
    await makeFolder(dirname(path));
    await writeFile(temporary, data, { flag: 'wx' });
    await put(temporary, path, options.force ?? false);
  } catch (error) {
    if (error instanceof Refusal) throw error;
    const inTheWay = await fileInTheWay(dirname(path));
    if (inTheWay !== null) throw noFolder(inTheWay);
    throw new Refusal(`${path}: cannot be written, ${reason(error)}.`);
  } finally {
    await rm(temporary, { force: true }).catch(() => {});
  }
}

/**
 * Makes the folder, and those above it where they are missing. Node's own way of making them all never ends where the
 * system takes none and says that there is no such folder, as in `/proc`.
 *
 * @throws the system's error where a folder cannot be made
 */
export async function makeFolder(folder: string): Promise<void> {
  const make = () =>
    mkdir(folder).catch(async (error) => {
      if (!(await stat(folder).catch(() => null))?.isDirectory()) throw error;
    });
  try {
    await make();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT' || dirname(folder) === folder) throw error;
    await makeFolder(dirname(folder));
    await make();
  }
}

/** The file, if any, that stands where `folder` or one above it would be. */
export async function fileInTheWay(folder: string): Promise<string | null> {
  for (let here = folder; ; here = dirname(here)) {
    const found = await stat(here).catch(() => null);
    if (found !== null) return found.isDirectory() ? null : here;
    if (dirname(here) === here) return null;
  }
}

export function noFolder(file: string): Refusal {
  return new Refusal(`${file}: this is a file; name a folder.`);
}

const unfinished = /^\.[0-9a-f]{16}\.part$/;

/** Whether a file is what `writeWhole` leaves where it is killed between writing and renaming. */
export function isUnfinished(name: string): boolean {
  return unfinished.test(name);
}

/** Renaming replaces what is there; linking does not, so that two runs at once cannot overwrite each other. */
async function put(temporary: string, path: string, force: boolean): Promise<void> {
  if (!force) {
    try {
      await link(temporary, path);
      return;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'EEXIST') throw existsAlready(path);
      // Some file systems know no links: rename then, having looked a moment ago.
    }
  }
  await rename(temporary, path);
}

async function requireNoInput(path: string, inputs: readonly string[]): Promise<void> {
  if (inputs.length === 0) return;
  const real = await realpath(path).catch(() => null);
  if (real === null) return;
  for (const input of inputs) {
    if (real === (await realpath(input).catch(() => null)))
      throw new Refusal(
        `${path}: this is an input file, and inputs are never overwritten; choose another --out.`,
      );
  }
}

async function exists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}

export function existsAlready(path: string): Refusal {
  return new Refusal(`${path}: exists already; --force overwrites it.`);
}

/** For `catch`: what the system says against work on `path`, as a Refusal; a Refusal stays as it is. */
export function refusing(path: string, what: string): (error: unknown) => never {
  return (error) => {
    throw error instanceof Refusal ? error : new Refusal(`${path}: ${what}, ${reason(error)}.`);
  };
}

/** Whether the system, and no fault of ours, is why something failed. */
export function isSystemError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && 'syscall' in error && 'code' in error;
}

/** The system's error codes in words; the rest of its message names system calls and helps nobody. */
export function reason(error: unknown): string {
  const { code = '' } = error as NodeJS.ErrnoException;
  const words: Readonly<Record<string, string>> = {
    ENOENT: 'there is no such file or folder',
    // Of a folder to be made: what is there, and no folder, leads nowhere.
    EEXIST: 'there is a link that leads nowhere',
    EACCES: 'you are not allowed to',
    EPERM: 'you are not allowed to',
    EROFS: 'the disk is read-only',
    ENOSPC: 'the disk is full',
    EISDIR: 'this is a folder',
    ENOTDIR: 'there is a file where a folder should be',
    ENAMETOOLONG: 'the name is too long',
    ELOOP: 'the links lead in a circle',
    EMFILE: 'too many files are open',
    EDQUOT: 'no more may be stored there',
    EFBIG: 'the file would be too large for the disk',
    EIO: 'the disk does not answer',
    ENOTEMPTY: 'the folder is not empty',
    EBUSY: 'another program is using it',
  };
  return words[code] ?? `the system says ${code || String(error)}`;
}

/** The nearest file of this name in `folder` or a folder above it, or null. */
export async function findUpwards(name: string, folder: string): Promise<string | null> {
  for (let here = folder; ; here = dirname(here)) {
    const path = join(here, name);
    if (await exists(path)) return path;
    if (dirname(here) === here) return null;
  }
}
