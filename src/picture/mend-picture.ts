/** A motif before and after mending, side by side at one scale; what was added stands out by colour and by dash. */
import type { MendAccount } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import type { Polyline } from '../../shared/plane.js';
import { lastPoint } from '../geometry/polyline.js';
import { joinedStrokes } from '../measure/ends/strokes.js';
import { okabeIto } from './ink.js';
import { endMark, lineMark, startMark, tenth } from './line-mark.js';
import { overScan, scanUnder } from './scan-under.js';
import { layOn, picture, type SheetOfPaper } from './sheet-of-paper.js';

/** Between the two, as a share of the wider one. */
const gapShare = 0.2;
/** Each drawing has half the paper, so lines and marks are finer. */
const penShare = 0.6;
const addedStyle = { colour: okabeIto.vermilion, width: 2.8, dash: [3, 5] };

/** SVG text, `widthPx` wide: before on the left, after on the right, an arrow between. */
export function mendPicture(
  before: Motif,
  after: Motif,
  accounts: readonly MendAccount[],
  { widthPx }: { readonly widthPx: number },
): string {
  const widthMm = Math.max(before.widthMm, after.widthMm);
  const heightMm = Math.max(before.heightMm, after.heightMm);
  const gapMm = gapShare * widthMm;
  const paper = layOn({ minX: 0, minY: 0, maxX: 2 * widthMm + gapMm, maxY: heightMm }, widthPx);
  const sheet = { ...paper, pen: penShare * paper.pen };
  const leftMm = (widthMm - before.widthMm) / 2;
  const rightMm = widthMm + gapMm + (widthMm - after.widthMm) / 2;
  const added = accounts.flatMap((account) => account.added);
  return picture(sheet, [
    ...drawn(before, sheet, leftMm, (heightMm - before.heightMm) / 2, []),
    arrow(sheet, widthMm + gapMm / 2, heightMm / 2, gapMm / 5),
    ...drawn(after, sheet, rightMm, (heightMm - after.heightMm) / 2, added),
  ]);
}

function drawn(
  motif: Motif,
  sheet: SheetOfPaper,
  dxMm: number,
  dyMm: number,
  added: readonly Polyline[],
): string[] {
  const here: SheetOfPaper = { ...sheet, at: ({ x, y }) => sheet.at({ x: x + dxMm, y: y + dyMm }) };
  const { strokes } = joinedStrokes(motif.strokes);
  const under = scanUnder(motif.scan, here);
  return [
    ...under,
    lineMark(motif.strokes, here, under.length > 0 ? { width: overScan } : {}),
    ...(added.length > 0 ? [lineMark(added, here, addedStyle)] : []),
    ...(strokes.length === 1
      ? [startMark(strokes[0].line, here), endMark(lastPoint(strokes[0].line), here)]
      : []),
  ];
}

function arrow(sheet: SheetOfPaper, xMm: number, yMm: number, halfMm: number): string {
  const { x, y } = sheet.at({ x: xMm, y: yMm });
  const half = Math.max(4 * sheet.pen, halfMm * sheet.pxPerMm);
  const head = Math.min(half, 8 * sheet.pen);
  const shaft = `M${tenth(x - half)} ${tenth(y)}H${tenth(x + half)}`;
  const tip = `M${tenth(x + half - head)} ${tenth(y - head)}L${tenth(x + half)} ${tenth(y)}L${tenth(x + half - head)} ${tenth(y + head)}`;
  return `<path d="${shaft}${tip}" fill="none" stroke="${okabeIto.blue}" stroke-width="${tenth(2 * sheet.pen)}" stroke-linecap="round" stroke-linejoin="round"/>`;
}
