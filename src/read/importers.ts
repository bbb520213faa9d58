/** The importers, and what follows from the list: which files may hold a motif, and what a motif is called. */
import { dxfImporter } from './dxf/index.js';
import type { Importer } from './intake/importer.js';
import { motifImporter } from './motif/index.js';
import { scanImporter } from './scan/index.js';
import { svgImporter } from './svg/index.js';

/** A new importer is a file (or folder) and a line here; the first that recognises the bytes reads them. */
export const importers: readonly Importer[] = [svgImporter, dxfImporter, scanImporter, motifImporter];

/** Longest first, so that `.motif.json` goes before `.json`. */
const endings = importers
  .flatMap(({ endings, onlyWhenNamed = false }) => endings.map((ending) => ({ ending, onlyWhenNamed })))
  .sort((a, b) => b.ending.length - a.ending.length);

/** Whether a file in a folder is taken for a motif, told from its name. */
export function isMotifFile(file: string): boolean {
  return endingOf(file)?.onlyWhenNamed === false;
}

/** The base name of a file without its ending, or the file's whole name where nothing would be left. */
export function bareName(file: string): string {
  const last = file.split(/[\\/]/).at(-1) ?? file;
  const ending = endingOf(last)?.ending ?? (/.\.json$/i.test(last) ? '.json' : '');
  return ending.length < last.length ? last.slice(0, last.length - ending.length) : last;
}

function endingOf(file: string) {
  const lower = file.toLowerCase();
  return endings.find(({ ending }) => lower.endsWith(ending));
}
