/**
 * The dark beyond the sheet: what a scanner sees where its lid or a table shows, and a strip of shadow along an edge.
 *
 * From each side of the picture it is looked how far in the dark reaches, row by row. A line that runs off the picture
 * is a narrow peak in that, the dark beyond is broad: so the depths are opened as mathematical morphology has it
 * (J. Serra, "Image Analysis and Mathematical Morphology", 1982), the least over a window and then the most of those,
 * which takes narrow peaks down and leaves slanting edges as they are.
 */
import type { Point } from '../../../shared/plane.js';

/** Narrower than this it is a line that runs off. */
const windowPx = 97;
/** Blur round the dark goes with it. */
const blurPx = 3;

/** Makes what is dark beyond the sheet as pale as paper, and gives the middles of the sides on which there was some. */
export function withoutBeyond(dark: Uint8Array, width: number, height: number, threshold: number): Point[] {
  const found: Point[] = [];
  const sides = [
    { start: 0, inward: 1, along: width, count: height, most: width },
    { start: width - 1, inward: -1, along: width, count: height, most: width },
    { start: 0, inward: width, along: 1, count: width, most: height },
    { start: (height - 1) * width, inward: -width, along: 1, count: width, most: height },
  ];
  const depths = sides.map(({ start, inward, along, count, most }) =>
    opened(
      Int32Array.from({ length: count }, (_, k) => {
        let depth = 0;
        for (let i = start + k * along; depth < most && dark[i] > threshold; i += inward) depth++;
        return depth;
      }),
    ),
  );
  sides.forEach(({ start, inward, along, count, most }, side) => {
    let deepest = -1;
    for (let k = 0; k < count; k++) {
      const depth = depths[side][k];
      if (depth === 0) continue;
      const from = start + k * along;
      for (let n = 0; n < Math.min(most, depth + blurPx); n++) dark[from + n * inward] = 0;
      if (deepest < 0 || depth > depths[side][deepest]) deepest = k;
    }
    if (deepest < 0) return;
    const at = start + deepest * along + (depths[side][deepest] >> 1) * inward;
    found.push({ x: at % width, y: Math.floor(at / width) });
  });
  return found;
}

function opened(depths: Int32Array): Int32Array {
  return over(over(depths, Math.min), Math.max);
}

/** The least, or the most, within half a window on either side. */
function over(values: Int32Array, pick: (a: number, b: number) => number): Int32Array {
  const half = windowPx >> 1;
  return values.map((value, k) => {
    let now = value;
    for (let i = Math.max(0, k - half); i <= Math.min(values.length - 1, k + half); i++)
      now = pick(now, values[i]);
    return now;
  });
}
