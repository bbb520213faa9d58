/** A page with a tile: the part of the rows that it shows, its place, cut marks, and the overlap with its neighbours. */
import type { Box } from '../../shared/plane.js';
import type { Placement } from '../rows/layout.js';
import type { PdfFile } from '../write/pdf.js';
import type { PdfPen } from '../write/pdf-pen.js';
import { drawEnd, lineStroke, nextStroke, placeRepeat, type RowsDrawing } from './drawing.js';
import { marginMm, type Paper, type Tile } from './lay-out.js';
import { rowLetters } from './letters.js';

export const grey = '#6b6b6b';
/** Where nothing joins on, marks at the edge of the rows may reach into the margin, mm. */
const outMm = 4;

export interface TileRepeats {
  readonly stitched: readonly Placement[];
  readonly next: readonly Placement[];
}

/** The sides on which another tile joins on. */
interface Neighbours {
  readonly left: boolean;
  readonly right: boolean;
  readonly above: boolean;
  readonly below: boolean;
}

export function tilePage(
  file: PdfFile,
  paper: Paper,
  index: number,
  { stitched, next }: TileRepeats,
  drawing: RowsDrawing,
  name: string,
): void {
  const tile = paper.tiles[index];
  const [x, y] = paper.atMm;
  const [width, height] = paper.sizeMm;
  const joins = neighboursOf(paper, tile);
  file.page(...paper.paperMm, (pen) => {
    pen.within(() => {
      const [left, top] = [joins.left ? 0 : outMm, joins.above ? 0 : outMm];
      const [right, bottom] = [joins.right ? 0 : outMm, joins.below ? 0 : outMm];
      pen.clip(x - left, y - top, width + left + right, height + top + bottom);
      overlapMarks(pen, paper, tile, joins);
      pen.map([1, 0, 0, 1, x - tile.fromMm[0], y - tile.fromMm[1]]);
      pen.stroke(nextStroke);
      for (const placement of next) placeRepeat(pen, drawing.line, placement);
      pen.stroke(lineStroke);
      pen.fill(lineStroke.colour);
      for (const placement of stitched) {
        placeRepeat(pen, drawing.line, placement);
        placeRepeat(pen, drawing.arrows, placement);
      }
      for (const mark of drawing.ends) if (isOn(tile, paper, mark.at)) drawEnd(pen, mark);
    });
    cutMarks(pen, { minX: x, minY: y, maxX: x + width, maxY: y + height });
    footer(file, pen, paper, index, name);
  });
}

export function placeOf({ row, column }: Pick<Tile, 'row' | 'column'>): string {
  return `row ${rowLetters(row)}, page ${column + 1}`;
}

function neighboursOf({ tiles }: Paper, { row, column }: Tile): Neighbours {
  const has = (down: number, right: number) =>
    tiles.some((each) => each.row === row + down && each.column === column + right);
  return { left: has(0, -1), right: has(0, 1), above: has(-1, 0), below: has(1, 0) };
}

function isOn({ fromMm }: Tile, { sizeMm }: Paper, { x, y }: { x: number; y: number }): boolean {
  const [dx, dy] = [x - fromMm[0], y - fromMm[1]];
  return dx > -outMm && dy > -outMm && dx < sizeMm[0] + outMm && dy < sizeMm[1] + outMm;
}

/** From the corners of the tile outwards. */
const cutMm = { from: 1.5, to: 6 };

function cutMarks(pen: PdfPen, { minX, minY, maxX, maxY }: Box): void {
  pen.stroke({ widthMm: 0.2, colour: '#000000' });
  for (const [x, out] of [
    [minX, -1],
    [maxX, 1],
  ] as const)
    for (const [y, down] of [
      [minY, -1],
      [maxY, 1],
    ] as const) {
      pen.line(Float64Array.of(x + out * cutMm.from, y, x + out * cutMm.to, y));
      pen.line(Float64Array.of(x, y + down * cutMm.from, x, y + down * cutMm.to));
    }
}

/** A dotted line as far from each shared edge as the neighbour reaches, and two crosses in the middle of what is shared. */
function overlapMarks(pen: PdfPen, { atMm, sizeMm, overlapMm }: Paper, _tile: Tile, joins: Neighbours): void {
  if (overlapMm === 0) return;
  const [x, y] = atMm;
  const [width, height] = sizeMm;
  const upright = (at: number) => edge(pen, at, y, at, y + height);
  const level = (at: number) => edge(pen, x, at, x + width, at);
  if (joins.left) upright(x + overlapMm);
  if (joins.right) upright(x + width - overlapMm);
  if (joins.above) level(y + overlapMm);
  if (joins.below) level(y + height - overlapMm);
  const arm = Math.min(2.5, 0.35 * overlapMm);
  const middles = [
    ...(joins.left ? [x + overlapMm / 2] : []),
    ...(joins.right ? [x + width - overlapMm / 2] : []),
  ].flatMap((at) => [0.25, 0.75].map((share) => [at, y + share * height]));
  const levels = [
    ...(joins.above ? [y + overlapMm / 2] : []),
    ...(joins.below ? [y + height - overlapMm / 2] : []),
  ].flatMap((at) => [0.25, 0.75].map((share) => [x + share * width, at]));
  pen.stroke({ widthMm: 0.2, colour: grey });
  for (const [cx, cy] of [...middles, ...levels]) {
    pen.line(Float64Array.of(cx - arm, cy, cx + arm, cy));
    pen.line(Float64Array.of(cx, cy - arm, cx, cy + arm));
  }
}

function edge(pen: PdfPen, x0: number, y0: number, x1: number, y1: number): void {
  pen.stroke({ widthMm: 0.25, colour: grey, dashMm: [0.1, 1.6] });
  pen.line(Float64Array.of(x0, y0, x1, y1));
}

const footerMm = 3;

/** In the lower margin, clear of what printers cannot print. */
function footer(file: PdfFile, pen: PdfPen, paper: Paper, index: number, name: string): void {
  const { paperMm, tiles } = paper;
  const baseline = paperMm[1] - marginMm + 5.2;
  const place = capital(placeOf(tiles[index]));
  const left = marginMm + 3;
  pen.text(place, left, baseline, { sizeMm: footerMm, font: 'bold' });
  const besideX = left + file.widthMm(place, footerMm, 'bold') + 4;
  const sheet = `sheet ${index + 2} of ${tiles.length + 1}, full size`;
  const sheetX = paperMm[0] - marginMm - 3 - file.widthMm(sheet, footerMm);
  pen.text(sheet, sheetX, baseline, { sizeMm: footerMm, colour: grey });
  const room = sheetX - besideX - 4;
  const shown = fitted(file, name, room);
  pen.text(shown, besideX, baseline, { sizeMm: footerMm, colour: grey });
}

function fitted(file: PdfFile, text: string, roomMm: number): string {
  const letters = [...text.slice(0, 200)];
  if (text.length <= 200 && file.widthMm(text, footerMm) <= roomMm) return text;
  while (letters.length > 0 && file.widthMm(`${letters.join('')}…`, footerMm) > roomMm) letters.pop();
  return letters.length > 0 ? `${letters.join('')}…` : '';
}

function capital(text: string): string {
  return text[0].toUpperCase() + text.slice(1);
}
