/** Holds the files of a library against its index: what is missing, changed, or in the index twice. */
import { createHash } from 'node:crypto';
import { readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { FileEntry, LibraryIndex } from './contents/index-file.js';

export interface Flaw {
  /** Path from the library's folder. */
  readonly path: string;
  readonly what: 'missing' | 'changed' | 'listed twice';
}

/** The flaws, in the order of the index; none where every file is there as it was written. */
export async function verifyLibrary(folder: string, index: LibraryIndex): Promise<Flaw[]> {
  const flaws: Flaw[] = [];
  const seen = new Set<string>();
  for (const { motif } of index.entries) {
    for (const file of motif?.files ?? []) {
      const { path } = file;
      if (seen.has(path)) flaws.push({ path, what: 'listed twice' });
      seen.add(path);
      const what = await flawOf(folder, file);
      if (what !== null) flaws.push({ path, what });
    }
  }
  return flaws;
}

/** Null where it is. */
export async function flawOf(folder: string, file: FileEntry): Promise<'missing' | 'changed' | null> {
  const path = join(folder, file.path);
  // Nothing but a regular file is opened: a pipe would wait for a writer.
  const found = await stat(path).catch(() => null);
  if (found === null) return 'missing';
  if (!found.isFile() || found.size !== file.bytes) return 'changed';
  const bytes = await readFile(path).catch(() => null);
  if (bytes === null) return 'missing';
  return createHash('sha256').update(bytes).digest('hex') === file.sha256 ? null : 'changed';
}
