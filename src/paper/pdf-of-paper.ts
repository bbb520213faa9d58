/** The whole PDF of a pattern on paper: page 1, the tiles, and what page 1 had no room for. */
import type { Study } from '../../shared/study.js';
import type { Placement } from '../rows/layout.js';
import { PdfFile } from '../write/pdf.js';
import { cellsOfBox, placedBox } from './cells.js';
import { flow, type TextLine } from './column.js';
import { drawRows } from './drawing.js';
import { firstPage } from './first-page.js';
import { marginMm, type Paper, type PlacedRow } from './lay-out.js';
import { type TileRepeats, tilePage } from './tile-page.js';

export function pdfOfPaper(study: Study, paper: Paper): Promise<Uint8Array> {
  const { motif } = study;
  const { credit } = motif;
  const title = credit.title ?? motif.name;
  const file = new PdfFile({
    title,
    author: credit.creator,
    subject: [credit.rights, credit.description].filter(Boolean).join('\n') || undefined,
  });
  const drawing = drawRows(file, study, paper);
  const left = firstPage(file, study, paper, drawing);
  const onTiles = repeatsOnTiles(paper);
  for (const [index, tile] of paper.tiles.entries())
    tilePage(file, paper, index, onTiles.get(tile) ?? { stitched: [], next: [] }, drawing, title);
  lastPages(file, paper, left);
  return file.bytes();
}

/** Which repeats show on which tile. */
function repeatsOnTiles(paper: Paper): Map<Paper['tiles'][number], TileRepeats> {
  const { tiles, grid, row, rows, next } = paper;
  const at = new Map(tiles.map((tile) => [`${tile.row} ${tile.column}`, tile]));
  const onTiles = new Map(
    tiles.map((tile) => [tile, { stitched: [] as Placement[], next: [] as Placement[] }]),
  );
  const put = ({ repeats }: PlacedRow, kind: keyof TileRepeats) => {
    for (const placement of repeats) {
      const cells = cellsOfBox(grid, placedBox(row.box, placement));
      const isOn = (r: number, c: number) =>
        r >= cells.rows[0] && r <= cells.rows[1] && c >= cells.columns[0] && c <= cells.columns[1];
      const count = (cells.rows[1] - cells.rows[0] + 1) * (cells.columns[1] - cells.columns[0] + 1);
      const touched =
        count > tiles.length
          ? tiles.filter((tile) => isOn(tile.row, tile.column))
          : cellList(cells).flatMap(([r, c]) => at.get(`${r} ${c}`) ?? []);
      for (const tile of touched) onTiles.get(tile)?.[kind].push(placement);
    }
  };
  for (const each of rows) put(each, 'stitched');
  put(next, 'next');
  return onTiles;
}

function cellList({ columns, rows }: ReturnType<typeof cellsOfBox>): [number, number][] {
  const list: [number, number][] = [];
  for (let r = rows[0]; r <= rows[1]; r++) for (let c = columns[0]; c <= columns[1]; c++) list.push([r, c]);
  return list;
}

/** So many pages of long credits are printed; all of them stand in the file's properties. */
const mostMore = 4;

function lastPages(file: PdfFile, { paperMm }: Paper, lines: readonly TextLine[]): void {
  const [width, height] = paperMm;
  let left = lines;
  for (let page = 0; left.length > 0 && page < mostMore; page++) {
    file.page(width, height, (pen) => {
      const column = {
        x: marginMm,
        topMm: marginMm,
        bottomMm: height - marginMm,
        widthMm: width - 2 * marginMm,
      };
      left = flow(pen, left, column).left;
    });
  }
}
