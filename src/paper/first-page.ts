/** Page 1: how the pages lie together, the numbers to set, two squares to measure, credits and cautions. */
import type { Pair } from '../../shared/plan.js';
import { sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import type { PdfFile } from '../write/pdf.js';
import type { PdfPen } from '../write/pdf-pen.js';
import { type Column, flow, heightOf, type TextLine, wrapped } from './column.js';
import type { RowsDrawing } from './drawing.js';
import { marginMm, type Paper } from './lay-out.js';
import { drawOverview, overviewShare } from './overview.js';
import { careLines, creditLines, numberLines, printLines, togetherLines } from './words.js';

/** Wider columns are hard to read, mm. */
const widestMm = 190;
const gutterMm = 8;
const leastOverviewMm = 34;
/** Larger it could be taken for the pattern itself, mm. */
const mostOverviewMm: Pair = [260, 200];

/** Draws it and returns the lines that found no room on it. */
export function firstPage(
  file: PdfFile,
  study: Study,
  paper: Paper,
  drawing: RowsDrawing,
): readonly TextLine[] {
  let left: readonly TextLine[] = [];
  file.page(...paper.paperMm, (pen) => {
    const [width, height] = paper.paperMm;
    const whole = {
      x: marginMm,
      topMm: marginMm,
      bottomMm: height - marginMm,
      widthMm: width - 2 * marginMm,
    };
    const isWide = width > height && whole.widthMm >= 2 * (squaresMm + gutterMm);
    left = isWide
      ? inTwoColumns(file, pen, study, paper, drawing, whole)
      : inOneColumn(file, pen, study, paper, drawing, whole);
  });
  return left;
}

function inOneColumn(
  file: PdfFile,
  pen: PdfPen,
  study: Study,
  paper: Paper,
  drawing: RowsDrawing,
  whole: Column,
): readonly TextLine[] {
  const column = { ...whole, widthMm: Math.min(whole.widthMm, widestMm) };
  const { y } = flow(pen, titleLines(file, study, paper, column.widthMm), column);
  const squaresTop = y + 4;
  drawSquares(file, pen, column.x, squaresTop);
  const beside = { ...column, x: column.x + squaresMm + gutterMm, topMm: squaresTop };
  const besideMm = column.widthMm - squaresMm - gutterMm;
  const hasRoom = besideMm >= 40;
  const print = printLines(file, hasRoom ? besideMm : column.widthMm);
  const squaresBottom = squaresTop + squareInchesMm;
  const printBottom = flow(pen, print, hasRoom ? beside : { ...column, topMm: squaresBottom + 3 }).y;
  const top = Math.max(squaresBottom, printBottom) + 4;
  const below = textBelow(file, study, paper, column.widthMm);
  const room = Math.max(leastOverviewMm, column.bottomMm - top - heightOf(below) - 3);
  const overviewMm = overviewSize(paper, [whole.widthMm, room]);
  drawOverview(file, pen, paper, drawing, [column.x, top], overviewMm);
  return flow(pen, below, { ...column, topMm: top + overviewMm[1] + 3 }).left;
}

function inTwoColumns(
  file: PdfFile,
  pen: PdfPen,
  study: Study,
  paper: Paper,
  drawing: RowsDrawing,
  whole: Column,
): readonly TextLine[] {
  const rightMm = Math.min(Math.max(squaresMm, (whole.widthMm - gutterMm) / 2), widestMm);
  const leftMm = Math.min(whole.widthMm - gutterMm - rightMm, mostOverviewMm[0]);
  const left = { ...whole, widthMm: leftMm };
  const { y } = flow(pen, titleLines(file, study, paper, leftMm), left);
  const numbers = numberLines(file, study, paper, Math.min(leftMm, widestMm));
  const room = Math.max(leastOverviewMm, left.bottomMm - y - 4 - heightOf(numbers) - 3);
  const overviewMm = overviewSize(paper, [leftMm, room]);
  drawOverview(file, pen, paper, drawing, [left.x, y + 4], overviewMm);
  const after = flow(pen, numbers, { ...left, topMm: y + 4 + overviewMm[1] + 3 });
  const right = { ...whole, x: whole.x + leftMm + gutterMm, widthMm: rightMm };
  drawSquares(file, pen, right.x, right.topMm);
  const text = [
    ...printLines(file, rightMm),
    ...togetherLines(file, paper, rightMm),
    ...careLines(file, rightMm),
    ...creditLines(file, study, rightMm),
  ];
  const { left: more } = flow(pen, text, { ...right, topMm: right.topMm + squareInchesMm + 3 });
  return [...after.left, ...more];
}

function textBelow(file: PdfFile, study: Study, paper: Paper, widthMm: number): TextLine[] {
  return [
    ...numberLines(file, study, paper, widthMm),
    ...togetherLines(file, paper, widthMm),
    ...careLines(file, widthMm),
    ...creditLines(file, study, widthMm),
  ];
}

/** The overview keeps its proportions. */
function overviewSize(paper: Paper, room: Pair): Pair {
  const share = overviewShare(paper);
  const [widthMm, roomMm] = [0, 1].map((i) => Math.min(room[i], mostOverviewMm[i]));
  return share * widthMm <= roomMm ? [widthMm, share * widthMm] : [roomMm / share, roomMm];
}

function titleLines(file: PdfFile, { motif, setup }: Study, paper: Paper, widthMm: number): TextLine[] {
  const say = sayIn(setup.unit);
  const title = wrapped(file, motif.credit.title ?? motif.name, widthMm, { sizeMm: 6, font: 'bold' });
  const rows = say.count(paper.rows.length, `${paper.layout} row`);
  return [
    ...title.slice(0, 2),
    ...wrapped(
      file,
      `A pattern on paper, full size: ${rows} of ${say.count(paper.repeats, 'repeat')}`,
      widthMm,
      {
        sizeMm: 3.8,
      },
    ),
  ];
}

const squareInchesMm = 50.8;
const squareMm = 50;
/** Both, and the space between. */
const squaresMm = squareInchesMm + squareMm + 5;

function drawSquares(file: PdfFile, pen: PdfPen, x: number, y: number): void {
  pen.stroke({ widthMm: 0.2, colour: '#000000' });
  for (const [left, side, words] of [
    [x, squareInchesMm, '2 in'],
    [x + squareInchesMm + 5, squareMm, '50 mm'],
  ] as const) {
    pen.box(left, y, side, side, 'stroke');
    const size = 5;
    pen.text(words, left + (side - file.widthMm(words, size)) / 2, y + side / 2 + 1.8, { sizeMm: size });
  }
}
