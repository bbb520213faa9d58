/** A picture as this room wants it: how bright each pixel is, and what the file says of its size. */

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** 0 black to 255 white, row by row; what is transparent lies on white. */
  readonly grey: Uint8Array;
  /** Dots to the inch across and down as the file states them, or null. */
  readonly dpi: readonly [number, number] | null;
}

/** More pixels than this are refused before they are unpacked. */
export const mostPixels = 100_000_000;

/** Brightness of a colour on white paper, as the eye weighs it (ITU-R BT.601). */
export function greyOf(red: number, green: number, blue: number, alpha: number): number {
  // In parts of 65,536, rounded.
  if (alpha === 255) return (19_595 * red + 38_470 * green + 7_471 * blue + 32_768) >> 16;
  const grey = 0.299 * red + 0.587 * green + 0.114 * blue;
  return Math.round(255 + (alpha / 255) * (grey - 255));
}

/** Resolutions that no scanner means: what programs write when they know none. */
const meaningless: readonly number[] = [72, 96];

/** Dots to the inch, or null where that cannot be meant. */
export function statedDpi(across: number, down: number): readonly [number, number] | null {
  const isMeant = (dpi: number) => dpi >= 50 && dpi <= 4800;
  if (!isMeant(across) || !isMeant(down)) return null;
  return meaningless.includes(Math.round(across)) ? null : [across, down];
}
