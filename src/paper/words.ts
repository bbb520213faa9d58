/** What page 1 says, in lines. */
import { creditWords } from '../../shared/credit-words.js';
import { sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import type { PdfFile } from '../write/pdf.js';
import { type TextLine, wrapped } from './column.js';
import type { Paper } from './lay-out.js';

const text = { sizeMm: 3.3 } as const;
const heading = { sizeMm: 3.7, font: 'bold', gapMm: 2.2 } as const;

function section(file: PdfFile, title: string, paragraphs: readonly string[], widthMm: number): TextLine[] {
  return [
    ...wrapped(file, title, widthMm, heading),
    ...paragraphs.flatMap((each) => wrapped(file, each, widthMm, { ...text, gapMm: 0.6 })),
  ];
}

export function printLines(file: PdfFile, widthMm: number): TextLine[] {
  return section(
    file,
    'Print at 100 %',
    [
      'Print every page at 100 % ("actual size"), not fitted to the page. Then measure the squares: 2 in and 50 mm on each side. Where they are not, the pattern is not full size: print it again.',
    ],
    widthMm,
  );
}

export function numberLines(file: PdfFile, study: Study, paper: Paper, widthMm: number): TextLine[] {
  const { setup, motif, repeat } = study;
  const { layout, spacingMm, spacingFrom, repeats, rows, box, tiles, overlapMm, paperMm } = paper;
  const say = sayIn(setup.unit);
  const assumed = motif.assumedSize ? ', assumed: the file states no size' : '';
  const shared = tiles.length > 1 ? ` each; neighbours share ${say.length(overlapMm)}` : '';
  return section(
    file,
    'Numbers',
    [
      `Motif: ${say.size(study.widthMm, study.heightMm)}${assumed}. Repeat: ${say.length(repeat.dx)}.`,
      `Rows: ${layout}, every ${say.spacing(spacingMm)}, ${spacingFrom}: from a point of one row to the same point of the next.`,
      `Here: ${say.count(rows.length, 'row')} of ${say.count(repeats, 'repeat')}, ${say.size(box.maxX - box.minX, box.maxY - box.minY)} in all.`,
      `Paper: ${say.count(tiles.length, 'sheet')} after this one, ${say.size(...paperMm)}${shared}.`,
    ],
    widthMm,
  );
}

export function togetherLines(file: PdfFile, { tiles, overlapMm, rows }: Paper, widthMm: number): TextLine[] {
  const joins =
    overlapMm > 0
      ? 'Cut each page along its cut marks on the left and above, where another joins on. Lay that edge on the dotted line of the other page, so that the crosses meet, and tape it down.'
      : 'Cut each page along its cut marks where another joins on, and tape them edge to edge.';
  return section(
    file,
    tiles.length > 1 ? 'Put the pages together' : 'Marks',
    [
      ...(tiles.length > 1 ? [joins] : []),
      'The triangle is where a row starts, the square where it ends; arrow heads point along the line.',
      `The thin dashed line is the row after ${rows.length === 1 ? 'this one' : 'these'}, to line the rows up by.`,
    ],
    widthMm,
  );
}

export function careLines(file: PdfFile, widthMm: number): TextLine[] {
  return section(
    file,
    'Before you stitch',
    [
      "Test on scrap first: the same batting, backing and thread. Keep hands, hair, sleeves and tools clear of the needle. The machine's manual decides how it is set up and run; the batting's label decides how far apart the quilting may be.",
    ],
    widthMm,
  );
}

export function creditLines(file: PdfFile, { motif }: Study, widthMm: number): TextLine[] {
  const { credit, source } = motif;
  return section(file, 'Credits', creditWords(credit, source?.file), widthMm);
}
