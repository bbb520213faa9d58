/**
 * Lays the rows of a choice on the field: the stack of rows goes on above and below, and those that enter the top are
 * stitched. Row 1 is as drawn.
 */
import type { Layout } from '../../shared/layout.js';
import type { Quilt } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';
import { reversed } from '../geometry/polyline.js';
import { placementOf, type Row } from '../rows/index.js';
import { fieldOf, topOf } from './field.js';
import type { Extent } from './passes.js';
import { trimmedRow } from './trim.js';

/** The row of one stroke that starts on the left, and where that stroke starts and ends. */
export interface LeveledRow {
  readonly row: Row;
  readonly line: Polyline;
}

export interface Laid {
  readonly layout: Layout;
  readonly spacingMm: number;
  readonly repeats: number;
  /** Where the motif's own coordinates have their origin on the top, in row 1. */
  readonly dx: number;
  readonly dy: number;
  readonly rows: readonly LaidRow[];
}

export interface LaidRow extends Extent {
  /** In the stack, from row 1 at 0. */
  readonly index: number;
}

/** So little over the edge is rounding, mm. */
const hairMm = 1e-6;

/** So many rows, or the fewest that cover, centred on the field; repeats across as well. */
export function layOut(
  leveled: LeveledRow,
  layout: Layout,
  spacingMm: number,
  quilt: Quilt,
  rowsDown: number | null,
): Laid {
  const { row, line } = leveled;
  const field = fieldOf(quilt);
  const [width, height] = [field.maxX - field.minX, field.maxY - field.minY];
  const repeats = Math.max(1, Math.ceil((width - hairMm) / row.repeatMm));
  const startX = field.minX - (repeats * row.repeatMm - width) / 2;
  const covering = rowsDown ?? Math.max(1, Math.ceil((height - row.heightMm - hairMm) / spacingMm) + 1);
  const above = field.minY - ((covering - 1) * spacingMm + row.heightMm - height) / 2;
  const stackFrom = (topMm: number) => ({
    layout,
    spacingMm,
    repeats,
    dx: startX - line[0],
    dy: topMm - row.box.minY,
  });
  // The first row of the stack whose box reaches into the top, and then the first that does so as drawn.
  let topMm = above + (Math.floor((hairMm - above - row.heightMm) / spacingMm) + 1) * spacingMm;
  const isAbove = () => topMm < quilt.heightMm - hairMm;
  while (isAbove() && !enters(leveled, stackFrom(topMm), 0, quilt)) topMm += spacingMm;
  const stack = stackFrom(topMm);
  const rows: LaidRow[] = [];
  for (let index = 0; isAbove(); index++, topMm = stack.dy + row.box.minY + index * spacingMm) {
    if (!enters(leveled, stack, index, quilt)) continue;
    const bottomMm = Math.min(field.maxY, topMm + row.heightMm);
    rows.push({ index, topMm: Math.max(field.minY, topMm), bottomMm });
  }
  // Rows farther apart than the top is high may lie to both sides of it: then the fewer, in its middle, cover more.
  if (rows.length === 0 && covering > 1) return layOut(leveled, layout, spacingMm, quilt, covering - 1);
  return { ...stack, rows };
}

/**
 * Whether a row whose box reaches into the top does so itself. Where a whole repeat is beside the top, all heights of
 * the row are; narrower tops it may pass by, above or below.
 */
function enters(leveled: LeveledRow, stack: Omit<Laid, 'rows'>, index: number, quilt: Quilt): boolean {
  const { row } = leveled;
  const topMm = stack.dy + row.box.minY + index * stack.spacingMm;
  const isInside = topMm >= 0 && topMm + row.heightMm <= quilt.heightMm;
  if (isInside || quilt.widthMm >= row.repeatMm) return true;
  return trimmedRow(unitOf(leveled, stack, index), row.repeatMm, fieldOf(quilt), topOf(quilt)).length > 0;
}

/** One repeat of row `index` (from 0), in the top's coordinates, running from the left. */
export function unitOf(
  { row, line }: LeveledRow,
  { layout, spacingMm, dx, dy }: Omit<Laid, 'rows'>,
  index: number,
): Polyline {
  const place = placementOf(row, layout, spacingMm, index);
  const out = new Float64Array(line.length);
  for (let i = 0; i < line.length; i += 2) {
    out[i] = place.signX * line[i] + place.dx + dx;
    out[i + 1] = place.signY * line[i + 1] + place.dy + dy;
  }
  return place.signX < 0 ? reversed(out) : out;
}
