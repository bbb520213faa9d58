/** Reading: the bytes of a file to Artwork, by the importer that knows its kind. */
import type { Artwork } from '../../shared/artwork.js';
import { defaultLimits, defaultSetup } from '../../shared/setup.js';
import { bareName, importers, isMotifFile } from './importers.js';
import type { ReadOptions } from './intake/importer.js';
import { unknownKind } from './intake/kind.js';

export type { ReadOptions } from './intake/importer.js';
export { bareName, isMotifFile };

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
  if (!importer)
    throw unknownKind(
      bytes,
      file,
      importers.map(({ what }) => what),
    );
  return {
    name: bareName(file) || 'motif',
    ...(await importer.read(bytes, file, { take: defaultSetup.take, limits: defaultLimits, ...options })),
  };
}
