/**
 * Linewright for programs that run in Node: files in and out, pictures as pixels, and libraries on disk. What needs no
 * Node is in the core, `linewright`.
 *
 *     const motif = await loadMotif('swell.svg');
 *     await writeWhole('ready/swell.motif.json', writeMotif(motif));
 */
import type { Motif } from '../shared/motif.js';
import { defaultSetup, type Setup } from '../shared/setup.js';
import { readRegularFile } from './files.js';
import { motifFrom } from './tasks/motif-from.js';

export { type InputFile, readRegularFile, type WriteOptions, writeWhole } from './files.js';
export { type BuildChoice, type BuildReport, type BuildResult, buildLibrary } from './library/build.js';
export type { Entry, FileEntry, LibraryIndex, MotifEntry, Tags } from './library/contents/index-file.js';
export { filesMeant } from './library/files-meant.js';
export { type TagChange, tagMotif } from './library/tag.js';
export { type Flaw, verifyLibrary } from './library/verify.js';
export { writePng } from './write/png.js';

/** @throws Refusal where the file cannot be read or holds nothing to stitch */
export async function loadMotif(file: string, setup: Setup = defaultSetup): Promise<Motif> {
  return motifFrom(await readRegularFile(file, setup.limits), setup);
}
