/** Which files a command line means. */
import { realpath, stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { Refusal } from '../../shared/refusal.js';
import type { Sources } from './sources.js';

/**
 * The files that a command line means, each once, in the order typed: a file stays as it is, also where it is missing; a folder or
 * pattern becomes the motifs it stands for, but for those in the folder `out`, which earlier runs wrote.
 */
export async function filesMeant(
  paths: readonly string[],
  out?: string,
): Promise<Pick<Sources, 'files' | 'complaints'>> {
  const except = out === undefined ? undefined : await realpath(out).catch(() => undefined);
  const files: string[] = [];
  const complaints: string[] = [];
  for (const path of paths) {
    const found = await stat(path).catch(() => null);
    if (found !== null && !found.isDirectory()) {
      files.push(path);
      continue;
    }
    // Seldom needed, and a small check would wait for it.
    const [{ findSources }, { isDynamicPattern }] = await Promise.all([
      import('./sources.js'),
      import('tinyglobby'),
    ]);
    if (found === null && !isDynamicPattern(path)) files.push(path);
    else {
      try {
        const meant = await findSources([path], except);
        for (const file of meant.files) files.push(file);
        for (const sentence of meant.complaints) complaints.push(sentence);
      } catch (error) {
        if (!(error instanceof Refusal)) throw error;
        complaints.push(error.message);
      }
    }
  }
  const named = new Set<string>();
  const isNew = (file: string) => named.size < named.add(resolve(file)).size;
  return { files: files.filter(isNew), complaints };
}
