/** Holds the files of a library against its index: what is missing, changed, or in the index twice. */
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { LibraryIndex } from './index-file.js';

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
    for (const { path, sha256 } of motif?.files ?? []) {
      if (seen.has(path)) flaws.push({ path, what: 'listed twice' });
      seen.add(path);
      const bytes = await readFile(join(folder, path)).catch(() => null);
      if (bytes === null) flaws.push({ path, what: 'missing' });
      else if (createHash('sha256').update(bytes).digest('hex') !== sha256)
        flaws.push({ path, what: 'changed' });
    }
  }
  return flaws;
}
