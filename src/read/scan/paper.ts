/**
 * Which is the paper, the light or the dark: white chalk on a slate is a drawing, too.
 *
 * The paper is what most of the picture's border shows. Where that is dark, it may be a table beyond a pale sheet: a sheet
 * fills most of the place that it takes, a line does not.
 */
import { blurred, levelsOf } from './darkness.js';
import type { Picture } from './picture.js';

/** Of what is light, so much on each side of its place is left out: glints and dust. */
const strayShare = 0.01;

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
  const isLightOnDark =
    levels !== null &&
    isBorderDark(dark, width, height, levels.threshold) &&
    !fillsItsPlace(dark, width, height, levels.threshold);
  return {
    picture: isLightOnDark ? { ...picture, grey: new Uint8Array(turned.buffer) } : picture,
    isLightOnDark,
  };
}

function isBorderDark(dark: Uint8Array, width: number, height: number, threshold: number): boolean {
  let count = 0;
  const look = (i: number) => {
    if (dark[i] > threshold) count++;
  };
  for (let x = 0; x < width; x++) {
    look(x);
    look((height - 1) * width + x);
  }
  for (let y = 0; y < height; y++) {
    look(y * width);
    look(y * width + width - 1);
  }
  return count > width + height;
}

/** Whether most of the upright box round what is light is light. */
function fillsItsPlace(dark: Uint8Array, width: number, height: number, threshold: number): boolean {
  const columns = new Uint32Array(width);
  const rows = new Uint32Array(height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if (dark[y * width + x] > threshold) continue;
      columns[x]++;
      rows[y]++;
    }
  const light = rows.reduce((sum, count) => sum + count, 0);
  return light > 0.5 * extent(columns, light) * extent(rows, light);
}

/** How many pixels on lie between the strays on either side. */
function extent(counts: Uint32Array, all: number): number {
  const first = (from: number, step: number) => {
    let at = from;
    for (let sum = counts[at]; sum < strayShare * all; sum += counts[at]) at += step;
    return at;
  };
  return first(counts.length - 1, -1) - first(0, 1) + 1;
}
