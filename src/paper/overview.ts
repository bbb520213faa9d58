/** How the pages lie together: the rows made small, with every page over them. */
import type { Pair } from '../../shared/plan.js';
import type { Box } from '../../shared/plane.js';
import { emptyBox, extend, extendByBox } from '../geometry/box.js';
import { ink } from '../picture/ink.js';
import type { PdfFile } from '../write/pdf.js';
import type { PdfPen } from '../write/pdf-pen.js';
import { drawEnd, placeRepeat, type RowsDrawing } from './drawing.js';
import type { Paper } from './lay-out.js';
import { rowLetters } from './letters.js';

const pale = '#8c8c8c';
/** Smaller letters cannot be read, mm. */
const leastLettersMm = 1.2;
const mostLettersMm = 6;

/** Height over width. */
export function overviewShare(paper: Paper): number {
  const { minX, minY, maxX, maxY } = sheetsBox(paper);
  return (maxY - minY) / (maxX - minX);
}

export function drawOverview(
  file: PdfFile,
  pen: PdfPen,
  paper: Paper,
  drawing: RowsDrawing,
  [x, y]: Pair,
  [widthMm]: Pair,
): void {
  const { tiles, sizeMm, rows } = paper;
  const box = sheetsBox(paper);
  const scale = widthMm / (box.maxX - box.minX);
  pen.within(() => {
    pen.map([scale, 0, 0, scale, x - scale * box.minX, y - scale * box.minY]);
    pen.stroke({ widthMm: 0.15 / scale, colour: pale });
    const lettersMm = Math.min(mostLettersMm / scale, 0.3 * Math.min(...sizeMm));
    for (const { row, column, fromMm } of tiles) {
      pen.box(...fromMm, ...sizeMm, 'stroke');
      if (lettersMm * scale < leastLettersMm) continue;
      const words = `${rowLetters(row)} ${column + 1}`;
      const left = fromMm[0] + (sizeMm[0] - file.widthMm(words, lettersMm, 'bold')) / 2;
      pen.text(words, left, fromMm[1] + sizeMm[1] / 2 + 0.36 * lettersMm, {
        sizeMm: lettersMm,
        font: 'bold',
        colour: pale,
      });
    }
    pen.stroke({ widthMm: 0.3 / scale, colour: ink });
    for (const { repeats } of rows)
      for (const placement of repeats) placeRepeat(pen, drawing.line, placement);
    for (const mark of drawing.ends) drawEnd(pen, mark, 0.4 / scale);
  });
}

/** Round all pages, and the rows. */
function sheetsBox({ tiles, sizeMm, box }: Paper): Box {
  const all = emptyBox();
  extendByBox(all, box);
  for (const { fromMm } of tiles) {
    extend(all, fromMm[0], fromMm[1]);
    extend(all, fromMm[0] + sizeMm[0], fromMm[1] + sizeMm[1]);
  }
  return all;
}
