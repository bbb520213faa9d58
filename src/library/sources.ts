/** Which files a library is made from: those named, and those in the folders named that a motif may be in. */
import { type Dirent, promises as fs } from 'node:fs';
import { join, resolve } from 'node:path';
import { Refusal } from '../../shared/refusal.js';

export interface Sources {
  /** Absolute paths, sorted, each once. */
  readonly files: readonly string[];
  /** Files in the folders that are of other kinds. */
  readonly passedOver: number;
  /** Sentences about sources or folders that could not be looked into. */
  readonly complaints: readonly string[];
}

const motifFile = /\.(svg|svgz|motif\.json)$/i;

/** Links to folders are not followed (they can lead in circles), hidden folders and `except` are passed over. */
export async function findSources(paths: readonly string[], except: string): Promise<Sources> {
  const files = new Set<string>();
  const complaints: string[] = [];
  let passedOver = 0;
  const folders: string[] = [];
  for (const path of paths) {
    const found = await fs.stat(path).catch(() => null);
    if (found === null) complaints.push(`${path}: there is no such file or folder.`);
    else if (found.isDirectory()) folders.push(resolve(path));
    else files.add(resolve(path));
  }
  for (let folder = folders.pop(); folder !== undefined; folder = folders.pop()) {
    if (folder === except) continue;
    for (const entry of await entriesOf(folder, complaints)) {
      const path = join(folder, entry.name);
      if (entry.name.startsWith('.')) continue;
      if (entry.isDirectory()) folders.push(path);
      else if (motifFile.test(entry.name) && (await isFile(entry, path))) files.add(path);
      else passedOver++;
    }
  }
  if (files.size === 0) {
    throw new Refusal(complaints.join(' ') || `There is no SVG or motif file in ${paths.join(', ')}.`);
  }
  return { files: [...files].sort(), passedOver, complaints };
}

async function entriesOf(folder: string, complaints: string[]): Promise<Dirent[]> {
  try {
    return await fs.readdir(folder, { withFileTypes: true });
  } catch {
    complaints.push(`${folder}: the folder cannot be read.`);
    return [];
  }
}

/** A link to a file counts as the file; a pipe or device by a motif's name does not. */
async function isFile(entry: Dirent, path: string): Promise<boolean> {
  if (!entry.isSymbolicLink()) return entry.isFile();
  return fs.stat(path).then(
    (found) => found.isFile(),
    () => true,
  );
}
