/** The whole quilt to scale: its passes in turns of two inks, links dashed, where each pass starts, and the places to check. */
import type { Pass, Plan } from '../../shared/plan.js';
import type { Box, Polyline } from '../../shared/plane.js';
import { numberMark } from './digits.js';
import { endColour, ink, okabeIto, paper } from './ink.js';
import { endMark, lineMark, startMark, tenth } from './line-mark.js';
import { layOn, picture, type SheetOfPaper } from './sheet-of-paper.js';

/** A pass as it is drawn: the rows' own line apart from what links it. */
export interface DrawnPass {
  readonly lines: readonly Polyline[];
  readonly links: readonly Polyline[];
}

/** SVG text, `widthPx` wide. */
export function planPicture(
  { quilt, passes }: Pick<Plan, 'quilt' | 'passes'>,
  drawn: readonly DrawnPass[],
  { widthPx }: { readonly widthPx: number },
): string {
  const { widthMm, heightMm, marginMm } = quilt;
  const field = { minX: -marginMm, minY: -marginMm, maxX: widthMm + marginMm, maxY: heightMm + marginMm };
  const sheet = layOn(field, widthPx);
  const pen = widthPx / 1200;
  const fine = { ...sheet, pen };
  const marks = [
    frame({ minX: 0, minY: 0, maxX: widthMm, maxY: heightMm }, sheet, '#f4f1ea'),
    frame(field, sheet, 'none'),
    ...drawn.flatMap(({ lines, links }, i) => [
      lineMark(links, fine, { colour: okabeIto.vermilion, width: 1.6, dash: [4, 3] }),
      lineMark(lines, fine, { colour: i % 2 === 0 ? ink : okabeIto.blue, width: 1.4 }),
    ]),
    ...passes.flatMap((pass) => passMarks(pass, sheet, { ...sheet, pen: widthPx / 900 })),
  ];
  return picture(sheet, marks);
}

/** What is done in grey, and the rest with its start and end. */
export function restPicture(
  quilt: Plan['quilt'],
  done: readonly Polyline[],
  rest: readonly Polyline[],
  { widthPx }: { readonly widthPx: number },
): string {
  const { widthMm, heightMm, marginMm } = quilt;
  const sheet = layOn(
    { minX: -marginMm, minY: -marginMm, maxX: widthMm + marginMm, maxY: heightMm + marginMm },
    widthPx,
  );
  const fine = { ...sheet, pen: widthPx / 900 };
  const last = rest[rest.length - 1];
  return picture(sheet, [
    frame({ minX: 0, minY: 0, maxX: widthMm, maxY: heightMm }, sheet, '#f4f1ea'),
    lineMark(done, fine, { colour: '#b5b5b5', width: 1.4 }),
    lineMark(rest, fine, { colour: ink, width: 1.6 }),
    endMark({ x: last[last.length - 2], y: last[last.length - 1] }, fine),
    startMark(rest[0], fine),
  ]);
}

/** Number of the pass beside it, a triangle where it starts, crosses in rings where the needle is checked. */
function passMarks(pass: Pass, sheet: SheetOfPaper, small: SheetOfPaper): string[] {
  const letters = sheet.widthPx * 0.026;
  const { y } = sheet.at({ x: 0, y: (pass.topMm + pass.bottomMm) / 2 });
  const [first] = pass.strokes;
  return [
    numberMark(pass.pass, sheet.widthPx * 0.033, y, letters, pass.pass % 2 === 1 ? ink : okabeIto.blue),
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

function frame({ minX, minY, maxX, maxY }: Box, sheet: SheetOfPaper, fill: string): string {
  const from = sheet.at({ x: minX, y: minY });
  const to = sheet.at({ x: maxX, y: maxY });
  return `<rect x="${tenth(from.x)}" y="${tenth(from.y)}" width="${tenth(to.x - from.x)}" height="${tenth(to.y - from.y)}" fill="${fill}" stroke="${endColour}" stroke-opacity="0.5" stroke-width="${tenth(sheet.pen * 0.5)}"/>`;
}
