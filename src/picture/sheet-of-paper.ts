/**
 * The paper a drawing is laid on: where millimetres come to lie in pixels.
 *
 * The drawing fills the width, up to a height of `tallest` times it, so that a tall one shrinks instead of growing a
 * mile long; a flat one lies in the middle of a paper that is never lower than `lowest` times its width.
 */
import type { Box, Point } from '../../shared/plane.js';
import { numberText } from '../markup/number-text.js';
import { paper } from './ink.js';

const tallest = 1.6;
const lowest = 0.18;
const marginShare = 0.07;

export interface SheetOfPaper {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly pxPerMm: number;
  /** Of lines and marks: 1 on a picture 480 px wide. */
  readonly pen: number;
  at(place: Point): Point;
}

export function layOn(box: Box, widthPx: number): SheetOfPaper {
  const margin = widthPx * marginShare;
  const room = widthPx - 2 * margin;
  // A drawing without width or height has no scale of its own there.
  const width = Math.max(box.maxX - box.minX, 1e-6);
  const height = Math.max(box.maxY - box.minY, 1e-6);
  const pxPerMm = Math.min(room / width, (widthPx * tallest - 2 * margin) / height);
  const heightPx = Math.max(height * pxPerMm + 2 * margin, widthPx * lowest);
  const left = widthPx / 2 - (pxPerMm * (box.minX + box.maxX)) / 2;
  const top = heightPx / 2 - (pxPerMm * (box.minY + box.maxY)) / 2;
  return {
    widthPx,
    heightPx: Math.ceil(heightPx),
    pxPerMm,
    pen: widthPx / 480,
    at: ({ x, y }) => ({ x: left + pxPerMm * x, y: top + pxPerMm * y }),
  };
}

/** A whole picture: SVG text with `marks`, elements in pixels, on white. */
export function picture(sheet: SheetOfPaper, marks: readonly string[]): string {
  const [w, h] = [numberText(sheet.widthPx), numberText(sheet.heightPx)];
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${w}" height="${h}" viewBox="0 0 ${w} ${h}">` +
    `<rect width="${w}" height="${h}" fill="${paper}"/>${marks.join('')}</svg>\n`
  );
}
