/** Text that flows down a column of a page: wrapped, and what has no room left over for another. */
import type { PdfFile } from '../write/pdf.js';
import type { PdfPen, PdfText } from '../write/pdf-pen.js';

export interface TextLine extends PdfText {
  readonly text: string;
  /** From the foot of the line before, mm. */
  readonly gapMm: number;
  /** To the right of the column's edge, mm. */
  readonly indentMm?: number;
}

export interface Column {
  readonly x: number;
  readonly topMm: number;
  readonly bottomMm: number;
  readonly widthMm: number;
}

/** What a line needs of its letters' size, with the space to the next one. */
const leading = 1.32;

export function heightOf(lines: readonly TextLine[]): number {
  return lines.reduce((sum, { sizeMm, gapMm }) => sum + gapMm + leading * sizeMm, 0);
}

/** Draws from the top of the column; returns where it ends, and the lines that found no room. */
export function flow(
  pen: PdfPen,
  lines: readonly TextLine[],
  { x, topMm, bottomMm }: Column,
): { y: number; left: readonly TextLine[] } {
  let y = topMm;
  for (const [i, line] of lines.entries()) {
    const below = y + (i === 0 ? 0 : line.gapMm) + leading * line.sizeMm;
    if (below > bottomMm) return { y, left: lines.slice(i) };
    pen.text(line.text, x + (line.indentMm ?? 0), below - 0.3 * line.sizeMm, line);
    y = below;
  }
  return { y, left: [] };
}

export interface Paragraph extends PdfText {
  readonly gapMm?: number;
}

/** More signs than four pages hold; the rest of a text so long stands in the file's properties. */
const mostSigns = 30_000;

/** A paragraph in lines; words that are too long for the column are cut. */
export function wrapped(
  file: PdfFile,
  text: string,
  widthMm: number,
  { gapMm = 0, ...style }: Paragraph,
): TextLine[] {
  const wide = (part: string) => file.widthMm(part, style.sizeMm, style.font);
  const lines: string[] = [];
  let line = '';
  const shown = text.length > mostSigns ? `${text.slice(0, mostSigns)}…` : text;
  for (const word of shown.split(/\s+/).filter(Boolean)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (wide(longer) <= widthMm) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    const pieces = cut(word, widthMm, wide);
    lines.push(...pieces.slice(0, -1));
    line = pieces[pieces.length - 1];
  }
  if (line !== '') lines.push(line);
  return lines.map((each, i) => ({ ...style, text: each, gapMm: i === 0 ? gapMm : 0 }));
}

function cut(word: string, widthMm: number, wide: (text: string) => number): string[] {
  if (wide(word) <= widthMm) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const letter of word) {
    if (piece !== '' && wide(piece + letter) > widthMm) {
      pieces.push(piece);
      piece = '';
    }
    piece += letter;
  }
  return [...pieces, piece];
}
