/** How the pages lie together: the rows made small, with every page over them. */
import type { Pair } from '../../shared/plan.js';
import type { Box } from '../../shared/plane.js';
import { emptyBox, extend, extendByBox } from '../geometry/box.js';
import { ink, paper as paperColour } from '../picture/ink.js';
import type { PdfFile } from '../write/pdf.js';
import type { PdfPen } from '../write/pdf-pen.js';
import { drawEnd, placeRepeat, type RowsDrawing } from './drawing.js';
import type { Paper } from './lay-out.js';
import { rowLetters } from './letters.js';

const pale = '#a0a0a0';
const frame = '#6b6b6b';
/** On the page; at full size no wider than `widestPenMm`, so that many rows made small do not run into one another. */
const linePenMm = 0.3;
const widestPenMm = 2.5;
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
    pen.stroke({ widthMm: Math.min(linePenMm / scale, widestPenMm), colour: pale });
    for (const { repeats } of rows)
      for (const placement of repeats) placeRepeat(pen, drawing.line, placement);
    for (const mark of drawing.ends) drawEnd(pen, mark, Math.min(0.4 / scale, widestPenMm));
    pen.stroke({ widthMm: 0.2 / scale, colour: frame });
    for (const { fromMm } of tiles) pen.box(...fromMm, ...sizeMm, 'stroke');
    const sizeOfText = Math.min(mostLettersMm / scale, 0.25 * Math.min(...sizeMm));
    if (sizeOfText * scale < leastLettersMm) return;
    for (const { row, column, fromMm } of tiles) {
      const words = `${rowLetters(row)} ${column + 1}`;
      const wide = file.widthMm(words, sizeOfText, 'bold');
      const left = fromMm[0] + (sizeMm[0] - wide) / 2;
      const baseline = fromMm[1] + sizeMm[1] / 2 + 0.36 * sizeOfText;
      // On a white ground, since the rows run under it.
      pen.fill(paperColour);
      pen.box(
        left - 0.2 * sizeOfText,
        baseline - 0.92 * sizeOfText,
        wide + 0.4 * sizeOfText,
        1.12 * sizeOfText,
        'fill',
      );
      pen.text(words, left, baseline, { sizeMm: sizeOfText, font: 'bold', colour: ink });
    }
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
