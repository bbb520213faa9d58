/** The rows as they are drawn on every page: the line and its marks. */
import type { Box, Point } from '../../shared/plane.js';
import type { Study } from '../../shared/study.js';
import { thinnedLine } from '../geometry/thinning.js';
import { endColour, ink, paper as paperColour, startColour } from '../picture/ink.js';
import type { Placement } from '../rows/layout.js';
import type { PdfFile } from '../write/pdf.js';
import type { PdfForm, PdfPen, PdfStroke } from '../write/pdf-pen.js';
import type { Paper } from './lay-out.js';
import { arrowHeads, type EndMark, endMarks } from './marks.js';

export const lineStroke: PdfStroke = { widthMm: 0.6, colour: ink };
export const nextStroke: PdfStroke = { widthMm: 0.25, colour: ink, dashMm: [3, 2] };

/** What a point left out moves the line at most, mm: a hundredth of what a printer does. */
const thinMm = 0.005;
/** Heads and pens reach so far beyond the line, mm. */
const reachMm = 5;

export interface RowsDrawing {
  /** One repeat, in the pen that is set. */
  readonly line: PdfForm;
  readonly arrows: PdfForm;
  readonly ends: readonly EndMark[];
}

export function drawRows(file: PdfFile, study: Study, { row, rows }: Paper): RowsDrawing {
  const strokes = row.strokes.map((stroke) => thinnedLine(stroke, thinMm));
  const box = around(row.box, reachMm);
  return {
    line: file.form(box, (pen) => {
      for (const stroke of strokes) pen.line(stroke);
    }),
    arrows: file.form(box, (pen) => {
      for (const corners of arrowHeads(strokes)) pen.area(corners);
    }),
    ends: rows.flatMap((each) => endMarks(study, each)),
  };
}

export function placeRepeat(pen: PdfPen, form: PdfForm, { signX, signY, dx, dy }: Placement): void {
  pen.within(() => {
    pen.map([signX, 0, 0, signY, dx, dy]);
    pen.place(form);
  });
}

/** `size` is 1 at full size. */
export function drawEnd(pen: PdfPen, { kind, at, dx, dy }: EndMark, size = 1): void {
  const arm = 2.6 * size;
  if (kind === 'end') {
    pen.stroke({ widthMm: 0.7 * size, colour: endColour });
    pen.box(at.x - arm, at.y - arm, 2 * arm, 2 * arm, 'stroke');
    return;
  }
  const corner = (along: number, across: number): Point => ({
    x: at.x + arm * (along * dx - across * dy),
    y: at.y + arm * (along * dy + across * dx),
  });
  pen.fill(startColour);
  const corners = [corner(1.3, 0), corner(-0.9, 1), corner(-0.9, -1)];
  pen.area(corners);
  pen.stroke({ widthMm: 0.3 * size, colour: paperColour });
  pen.line(Float64Array.from([...corners, corners[0]].flatMap(({ x, y }) => [x, y])));
}

function around({ minX, minY, maxX, maxY }: Box, mm: number): Box {
  return { minX: minX - mm, minY: minY - mm, maxX: maxX + mm, maxY: maxY + mm };
}
