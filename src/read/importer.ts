/** What an importer is. A new one is a file (or folder) beside `svg/` and one line in `index.ts`. */
import type { Artwork, LineChoice, Take } from '../../shared/artwork.js';
import type { Limits } from '../../shared/setup.js';

/** Of lines all are read where nothing is said. */
export interface ReadOptions extends Partial<LineChoice> {
  readonly take: Take;
  readonly limits: Limits;
}

export interface Importer {
  /** Whether the file is of this kind, told from its first bytes. */
  recognises(bytes: Uint8Array): boolean;
  /** Throws a Refusal that names `file` where the bytes cannot be read. */
  read(bytes: Uint8Array, file: string, options: ReadOptions): Promise<Artwork>;
}
