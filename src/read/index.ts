/** Reading: the bytes of a file to Artwork, by the importer that knows its kind. */
import type { Artwork } from '../../shared/artwork.js';
import { defaultLimits, defaultSetup } from '../../shared/setup.js';
import type { Importer, ReadOptions } from './importer.js';
import { unknownKind } from './kind.js';
import { looksLikeMotifFile, readMotifFile } from './motif/index.js';
import { svgImporter } from './svg/index.js';

export type { ReadOptions } from './importer.js';

const motifImporter: Importer = {
  recognises: looksLikeMotifFile,
  read: (bytes, file, { limits }) => readMotifFile(bytes, file, limits),
};

const importers: readonly Importer[] = [motifImporter, svgImporter];

/**
 * What the file draws, in millimetres, as its own kind has it.
 *
 * `bytes` are the whole file, unpacked; `file` is its name, for the artwork's name and for complaints. A file that
 * cannot be read, or that passes one of the limits, ends in a Refusal. Options left out are as in `defaultSetup`.
 */
export async function readArtwork(
  bytes: Uint8Array,
  file: string,
  options: Partial<ReadOptions> = {},
): Promise<Artwork> {
  const importer = importers.find((each) => each.recognises(bytes));
  if (!importer) throw unknownKind(bytes, file);
  return importer.read(bytes, file, { take: defaultSetup.take, limits: defaultLimits, ...options });
}
