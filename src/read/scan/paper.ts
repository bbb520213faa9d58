/**
 * Which is the paper, the light or the dark: white chalk on a slate is a drawing, too, and a sheet may lie on a dark table,
 * a slate in a light frame.
 *
 * The line is what is narrow against what it lies on. Across and down the picture, light and dark come in runs, and each
 * that is less than half as wide as its neighbour counts as line; a frame or a table has few neighbours, a line many.
 * Spaces about as wide as a broad pen's line say nothing, and what surrounds them decides.
 *
 * Limits: what is drawn with spaces less than half as wide as the line is taken for the spaces.
 */
import { blurred, levelsOf } from './darkness.js';
import type { Picture } from './picture.js';

/** Light and dark changed about where the drawing is light on dark, as ink on paper. */
export function asInkOnPaper(picture: Picture): {
  readonly picture: Picture;
  readonly isLightOnDark: boolean;
} {
  const { width, height, grey } = picture;
  const turned = new Uint8ClampedArray(grey.length);
  for (let i = 0; i < grey.length; i++) turned[i] = 255 - grey[i];
  const dark = blurred(turned, width, height);
  const levels = levelsOf(dark);
  const isLightOnDark = levels !== null && isLightNarrower(dark, width, height, levels.threshold);
  return {
    picture: isLightOnDark ? { ...picture, grey: new Uint8Array(turned.buffer) } : picture,
    isLightOnDark,
  };
}

function isLightNarrower(dark: Uint8Array, width: number, height: number, threshold: number): boolean {
  let lightLessDark = 0;
  const count = (start: number, step: number, length: number) => {
    let isDark = dark[start] > threshold;
    let before = 0;
    let run = 0;
    for (let k = 0, i = start; k <= length; k++, i += step) {
      if (k < length && dark[i] > threshold === isDark) {
        run++;
        continue;
      }
      if (before > 0 && isNarrow(run, before)) lightLessDark += isDark === run > before ? 1 : -1;
      before = run;
      run = 1;
      isDark = !isDark;
    }
  };
  for (let y = 0; y < height; y++) count(y * width, 1, width);
  for (let x = 0; x < width; x++) count(x, width, height);
  return lightLessDark > 0;
}

function isNarrow(one: number, other: number): boolean {
  return 2 * Math.min(one, other) < Math.max(one, other);
}
