/** What an importer is. A new one is a file (or folder) beside `svg/` and one line in `index.ts`. */
import type { Artwork, Take } from '../../shared/artwork.js';
import type { Limits } from '../../shared/setup.js';

export interface ReadOptions {
  readonly take: Take;
  readonly limits: Limits;
}

export interface Importer {
  /** Whether the file is of this kind, told from its first bytes. */
  recognises(bytes: Uint8Array): boolean;
  /** Throws a Refusal that names `file` where the bytes cannot be read. */
  read(bytes: Uint8Array, file: string, options: ReadOptions): Promise<Artwork>;
}
