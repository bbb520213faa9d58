/**
 * Rows of a motif laid on sheets of paper: which repeats there are, how the sheets lie over them, and which sheets are
 * needed. Places are told from the first repeat's upper left corner, millimetres, y down.
 */

import { grouped } from '../../shared/grouped.js';
import type { Pair } from '../../shared/plan.js';
import type { Box } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { type Say, sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import { emptyBox, extendByBox } from '../geometry/box.js';
import { requireStitchable } from '../measure/index.js';
import { type Row, repeatsOf, rowOfMotif } from '../rows/index.js';
import type { Placement } from '../rows/layout.js';
import { type Cell, cellsWithLine, type Grid, gridOver, placedBox } from './cells.js';
import { type PaperRows, paperRows } from './rows.js';

export interface PaperWanted {
  /** Of a sheet, either way round. */
  readonly sheetMm: Pair;
  readonly repeats: number;
  readonly rows: number;
  /** Shown on both of two neighbouring sheets. */
  readonly overlapMm: number;
}

export interface PlacedRow {
  readonly index: number;
  /** From left to right in the motif's own coordinates. */
  readonly repeats: readonly Placement[];
}

export interface Tile extends Cell {
  /** Upper left corner of what it shows. */
  readonly fromMm: Pair;
}

export interface Paper extends PaperRows {
  readonly row: Row;
  readonly repeats: number;
  readonly rows: readonly PlacedRow[];
  /** The row below, to line up by. */
  readonly next: PlacedRow;
  /** Round the rows, without the one below. */
  readonly box: Box;
  /** As the sheet is turned. */
  readonly paperMm: Pair;
  readonly overlapMm: number;
  /** What a tile shows, and where on its page its upper left corner lies. */
  readonly sizeMm: Pair;
  readonly atMm: Pair;
  readonly grid: Grid;
  readonly tiles: readonly Tile[];
}

/** Round a tile. */
export const marginMm = 12.7;
const mostTiles = 2000;

/**
 * @throws Refusal where the line lies on itself in a lump, the overlap leaves too little of a sheet, or more than 2,000
 * pages would be needed
 */
export function layOnPaper(study: Study, wanted: PaperWanted): Paper {
  requireStitchable(study);
  const { sheetMm, repeats, overlapMm } = wanted;
  const say = sayIn(study.setup.unit);
  requireRoom(sheetMm, overlapMm, say);
  const { useCopies } = study.setup.limits;
  if (repeats * wanted.rows > useCopies)
    throw new Refusal(
      `${grouped(wanted.rows)} rows of ${grouped(repeats)} repeats are more than ${grouped(useCopies)} repeats, the limit: ask for fewer --repeats or --rows.`,
    );
  const chosen = paperRows(study);
  const row = rowOfMotif(study);
  const placed = (index: number): PlacedRow => ({
    index,
    repeats: repeatsOf(row, chosen.layout, chosen.spacingMm, index, repeats),
  });
  const rows = Array.from({ length: wanted.rows }, (_, index) => placed(index));
  const placements = rows.flatMap((each) => each.repeats);
  const box = emptyBox();
  for (const placement of placements) extendByBox(box, placedBox(row.box, placement));
  const [first, second] = [sheetMm, [sheetMm[1], sheetMm[0]] as const].map((paperMm) =>
    tilesOn(paperMm, overlapMm, box, row, placements),
  );
  const least = [first, second]
    .filter((each) => each !== null)
    .reduce<Sheets | null>(
      (best, each) => (best && best.cells.length <= each.cells.length ? best : each),
      null,
    );
  if (least === null)
    throw new Refusal(
      `The motif on paper of this size needs more than 2,000 pages: ask for fewer --repeats or --rows, a larger --paper, or a smaller motif.`,
    );
  const { paperMm, grid, cells } = least;
  return {
    ...chosen,
    row,
    repeats,
    rows,
    next: placed(wanted.rows),
    box,
    paperMm,
    overlapMm,
    sizeMm: grid.sizeMm,
    grid,
    atMm: [marginMm, marginMm],
    tiles: cells.map((cell) => ({
      ...cell,
      fromMm: [grid.fromMm[0] + cell.column * grid.pitchMm[0], grid.fromMm[1] + cell.row * grid.pitchMm[1]],
    })),
  };
}

interface Sheets {
  readonly paperMm: Pair;
  readonly grid: Grid;
  readonly cells: readonly Cell[];
}

function tilesOn(
  paperMm: Pair,
  overlapMm: number,
  box: Box,
  row: Row,
  placements: readonly Placement[],
): Sheets | null {
  const grid = gridOver(box, [paperMm[0] - 2 * marginMm, paperMm[1] - 2 * marginMm], overlapMm);
  const cells = cellsWithLine(grid, row.strokes, row.box, placements, mostTiles - 1);
  return cells && { paperMm, grid, cells };
}

function requireRoom(sheetMm: Pair, overlapMm: number, say: Say): void {
  const mostMm = (Math.min(...sheetMm) - 2 * marginMm) / 2;
  if (overlapMm > mostMm)
    throw new Refusal(
      `--overlap cannot be ${say.length(overlapMm)}: on this paper it can be ${say.atMost(mostMm)} at most.`,
    );
}
