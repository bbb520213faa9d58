/** The whole quilt to scale: its passes in turns of two inks, links dashed, where each pass starts, and the places to check. */
import type { Pass, Plan } from '../../shared/plan.js';
import type { Box } from '../../shared/plane.js';
import { fieldOf, topOf } from '../plan/field.js';
import { layersOf } from '../plan/line-layers.js';
import { numberMark } from './digits.js';
import { endColour, ink, okabeIto, paper } from './ink.js';
import { endMark, lineMark, startMark, tenth } from './line-mark.js';
import { layOn, picture, type SheetOfPaper } from './sheet-of-paper.js';

/** Finer than this is not seen in a line of two pixels. */
export const leastStepPx = 1;

/** SVG text, `widthPx` wide. */
export function planPicture(
  { quilt, passes }: Pick<Plan, 'quilt' | 'passes'>,
  { widthPx }: { readonly widthPx: number },
): string {
  const field = fieldOf(quilt);
  const sheet = layOn(field, widthPx);
  const pen = widthPx / 1200;
  const fine = { ...sheet, pen };
  const marks = [
    frame(topOf(quilt), sheet, cloth),
    frame(field, sheet, 'none'),
    ...passes.flatMap(({ strokes, links }, i) => {
      const { link, stitch } = layersOf(strokes, links);
      return [
        lineMark(link, fine, { colour: okabeIto.vermilion, width: 1.6, dash: [4, 3] }),
        lineMark(stitch, fine, { colour: i % 2 === 0 ? ink : okabeIto.blue, width: 1.4, leastStepPx }),
      ];
    }),
    ...passes.flatMap((pass) => passMarks(pass, field.minX, sheet, { ...sheet, pen: widthPx / 900 })),
  ];
  return picture(sheet, marks);
}

/** Number of the pass beside it, a triangle where it starts, crosses in rings where the needle is checked. */
function passMarks(pass: Pass, fieldLeftMm: number, sheet: SheetOfPaper, small: SheetOfPaper): string[] {
  const letters = sheet.widthPx * 0.026;
  const { x, y } = sheet.at({ x: fieldLeftMm, y: (pass.topMm + pass.bottomMm) / 2 });
  const [first] = pass.strokes;
  return [
    numberMark(pass.pass, x - sheet.widthPx * 0.037, y, letters, pass.pass % 2 === 1 ? ink : okabeIto.blue),
    startMark(first, small),
    endMark({ x: pass.endMm[0], y: pass.endMm[1] }, small),
    ...(pass.checkMm ?? []).map(([x, py]) => checkMark(sheet.at({ x, y: py }), small.pen)),
  ];
}

function checkMark({ x, y }: { readonly x: number; readonly y: number }, pen: number): string {
  const radius = 6 * pen;
  return (
    `<circle cx="${tenth(x)}" cy="${tenth(y)}" r="${tenth(radius)}" fill="${paper}" fill-opacity="0.8" stroke="${okabeIto.vermilion}" stroke-width="${tenth(1.6 * pen)}"/>` +
    `<path d="M${tenth(x - radius)} ${tenth(y)}H${tenth(x + radius)}M${tenth(x)} ${tenth(y - radius)}V${tenth(y + radius)}" stroke="${okabeIto.vermilion}" stroke-width="${tenth(1.6 * pen)}"/>`
  );
}

/** Of the top. */
export const cloth = '#f4f1ea';

export function frame({ minX, minY, maxX, maxY }: Box, sheet: SheetOfPaper, fill: string): string {
  const from = sheet.at({ x: minX, y: minY });
  const to = sheet.at({ x: maxX, y: maxY });
  return `<rect x="${tenth(from.x)}" y="${tenth(from.y)}" width="${tenth(to.x - from.x)}" height="${tenth(to.y - from.y)}" fill="${fill}" stroke="${endColour}" stroke-opacity="0.5" stroke-width="${tenth(sheet.pen * 0.5)}"/>`;
}
