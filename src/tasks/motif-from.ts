import type { Motif } from '../../shared/motif.js';
import { naming } from '../../shared/refusal.js';
import type { Setup } from '../../shared/setup.js';
import { readArtwork } from '../read/index.js';
import { toMotif } from '../size/index.js';

/** A file that was brought, wherever from. */
export interface Brought {
  /** Its name, with or without a path. */
  readonly file: string;
  /** Unpacked, where the file was gzipped. */
  readonly bytes: Uint8Array;
  /** Of the file as it came, hexadecimal. */
  readonly sha256: string;
}

/**
 * The motif in a file, at its working size, for one who does not ask where it came from.
 *
 * @throws Refusal where the bytes cannot be read or hold nothing to stitch
 */
export async function motifIn(
  { file, bytes }: Pick<Brought, 'file' | 'bytes'>,
  setup: Setup,
): Promise<Motif> {
  const artwork = await readArtwork(bytes, file, setup);
  return naming(file, () => toMotif(artwork, setup));
}

/**
 * The motif in a file, at its working size, with a note of where it came from.
 *
 * @throws Refusal where the bytes cannot be read or hold nothing to stitch
 */
export async function motifFrom({ file, bytes, sha256 }: Brought, setup: Setup): Promise<Motif> {
  const motif = await motifIn({ file, bytes }, setup);
  if (motif.source) return motif;
  const name = file.split(/[\\/]/).at(-1) ?? file;
  return { ...motif, source: { file: name, sha256, statedSize: motif.statedSizeMm } };
}
