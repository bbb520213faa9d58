/** What an importer is. A new one is a file (or folder) beside `svg/` and one line in `importers.ts`. */
import type { Artwork, LineChoice, Take } from '../../../shared/artwork.js';
import type { Limits } from '../../../shared/setup.js';

/** Of lines all are read where nothing is said. */
export interface ReadOptions extends Partial<LineChoice> {
  readonly take: Take;
  readonly limits: Limits;
  /** Of pictures: dots to the inch, before what the file states. */
  readonly dpi?: number | null;
  /** Of pictures: ink is what is darker than this share of the way from paper to ink. */
  readonly ink?: number | null;
}

/** What an importer finds; the name comes from the file's own. */
export type Drawn = Omit<Artwork, 'name'>;

export interface Importer {
  /** In plain words, for the sentence about a file that none can read: "an SVG drawing". */
  readonly what: string;
  /** Endings of such files, with their dots; folders are searched for them. What a file is, its first bytes tell. */
  readonly endings: readonly string[];
  /** True where such files often lie beside the drawing they show, so that folders are not searched for them. */
  readonly onlyWhenNamed?: boolean;
  /** Whether the file is of this kind, told from its first bytes. */
  recognises(bytes: Uint8Array): boolean;
  /** Throws a Refusal that names `file` where the bytes cannot be read. */
  read(bytes: Uint8Array, file: string, options: ReadOptions): Promise<Drawn>;
}
