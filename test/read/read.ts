/** Reading text in tests. */
import type { Artwork, IntakeNote, Take } from '../../shared/artwork.js';
import { Refusal } from '../../shared/refusal.js';
import { defaultLimits, type Limits } from '../../shared/setup.js';
import { readArtwork } from '../../src/read/index.js';

interface Options {
  readonly take?: Take;
  readonly limits?: Partial<Limits>;
}

export function read(
  source: string | Uint8Array,
  { take = 'auto', limits = {} }: Options = {},
): Promise<Artwork> {
  const bytes = typeof source === 'string' ? new TextEncoder().encode(source) : source;
  return readArtwork(bytes, 'folder/swell.svg', { take, limits: { ...defaultLimits, ...limits } });
}

/** The sentence the file is refused with. Anything else that happens is an error. */
export async function refusal(source: string | Uint8Array, options: Options = {}): Promise<string> {
  try {
    await read(source, options);
  } catch (error) {
    if (error instanceof Refusal) return error.message;
    throw error;
  }
  throw new Error('It was read.');
}

/** An SVG document one of whose user units is a millimetre. */
export function inMm(inner: string, attributes = ''): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100" fill="none" stroke="#000" ${attributes}>${inner}</svg>`;
}

/** Ends of all segments: [x, y] each, rounded to a thousandth of a millimetre. */
export function corners(artwork: Artwork): number[][][] {
  return artwork.lines.map(({ ops, coords }) => {
    const sizes = [2, 4, 6, 10];
    const places = [[coords[0], coords[1]]];
    let i = 2;
    for (const op of ops) {
      i += sizes[op];
      places.push([coords[i - 2], coords[i - 1]]);
    }
    return places.map((place) => place.map((value) => Math.round(value * 1000) / 1000 + 0));
  });
}

export function notesOf(artwork: Artwork, kind: IntakeNote['kind']): readonly IntakeNote[] {
  return artwork.notes.filter((note) => note.kind === kind);
}
