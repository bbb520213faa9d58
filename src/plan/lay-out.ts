/**
 * Lays the rows of a choice on the field: the stack of rows goes on above and below, and those that enter the top are
 * stitched. Row 1 is as drawn.
 */
import type { Layout } from '../../shared/layout.js';
import type { Quilt } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';
import { reversed } from '../geometry/polyline.js';
import { placementOf, type Row } from '../rows/index.js';
import { fieldOf } from './field.js';
import type { Extent } from './passes.js';

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
  readonly rows: readonly Extent[];
}

/** So little over the edge is rounding, mm. */
const hairMm = 1e-6;

/** `wholeDown` rows begin on the upper border; others, and all of them across, are centred. */
export function layOut(
  { row, line }: LeveledRow,
  layout: Layout,
  spacingMm: number,
  quilt: Quilt,
  wholeDownRows: number | null,
): Laid {
  const field = fieldOf(quilt);
  const [width, height] = [field.maxX - field.minX, field.maxY - field.minY];
  const repeats = Math.max(1, Math.ceil((width - hairMm) / row.repeatMm));
  const startX = field.minX - (repeats * row.repeatMm - width) / 2;
  const covering = wholeDownRows ?? Math.max(1, Math.ceil((height - row.heightMm - hairMm) / spacingMm) + 1);
  const above = field.minY - ((covering - 1) * spacingMm + row.heightMm - height) / 2;
  // The first row of the stack whose box reaches into the top.
  const index = Math.floor((hairMm - above - row.heightMm) / spacingMm) + 1;
  const topMm = above + index * spacingMm;
  const count = Math.max(0, Math.ceil((quilt.heightMm - hairMm - topMm) / spacingMm));
  const rows = Array.from({ length: count }, (_, i) => ({
    topMm: Math.max(field.minY, topMm + i * spacingMm),
    bottomMm: Math.min(field.maxY, topMm + i * spacingMm + row.heightMm),
  }));
  return { layout, spacingMm, repeats, dx: startX - line[0], dy: topMm - row.box.minY, rows };
}

/** One repeat of row `index` (from 0), in the top's coordinates, running from the left. */
export function unitOf(
  { row, line }: LeveledRow,
  { layout, spacingMm, dx, dy }: Laid,
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
