/**
 * How long the line of a way to cover the quilt is, without drawing all of it: rows of one kind, as drawn or changed and
 * wholly inside the top, are the same but for how far down they lie. Each kind is trimmed once.
 */
import type { Quilt, Runs } from '../../shared/plan.js';
import type { Point } from '../../shared/plane.js';
import { firstPoint, lastPoint, lengthOf } from '../geometry/polyline.js';
import { alongBorder } from './border.js';
import { fieldOf } from './field.js';
import type { Fitted } from './fit.js';
import type { LaidRow } from './lay-out.js';
import { splitIntoPasses } from './passes.js';
import type { Machine } from './roll.js';
import { stitchedRow, sum } from './stitch-line.js';

export interface WaySums {
  readonly rows: number;
  readonly passes: number;
  readonly lengthMm: number;
  readonly linkMm: number;
}

interface Measured {
  readonly lengthMm: number;
  readonly linkMm: number;
  readonly start: Point;
  readonly end: Point;
}

/** As `passLines` would add up to. */
export function measuredWay(way: Fitted, quilt: Quilt, runs: Runs, machine: Machine | null): WaySums {
  const field = fieldOf(quilt);
  const known = new Map<string, Measured & { readonly index: number }>();
  const measuredAt = (laid: LaidRow): Measured | null => {
    const { index } = laid;
    const kind = kindOf(laid, way, quilt);
    const same = kind === null ? undefined : known.get(kind);
    if (same) return movedDown(same, (index - same.index) * way.spacingMm);
    const row = stitchedRow(way, quilt, 'one-way', index, 0);
    if (row === null) return null;
    const measured = {
      index,
      lengthMm: row.lengthMm,
      linkMm: row.linkMm,
      start: firstPoint(row.pieces[0]),
      end: lastPoint(row.pieces[row.pieces.length - 1]),
    };
    if (kind !== null) known.set(kind, measured);
    return measured;
  };
  const laidRows: LaidRow[] = [];
  const rows: Measured[] = [];
  for (const laid of way.laid.rows) {
    const row = measuredAt(laid);
    if (row === null) continue;
    laidRows.push(laid);
    const walksBack = runs === 'back-and-forth' && rows.length % 2 === 1;
    rows.push(walksBack ? { ...row, start: row.end, end: row.start } : row);
  }
  const splits = splitIntoPasses(laidRows, field.minY, machine);
  const linked = runs === 'one-way' || !Array.isArray(splits) ? [] : splits;
  const between = linked.flatMap(({ from, to }) =>
    rows.slice(from + 1, to).map((row, i) => lengthOf(alongBorder(field, rows[from + i].end, row.start))),
  );
  const linkMm = sum(between);
  return {
    rows: rows.length,
    passes: Array.isArray(splits) ? splits.length : 0,
    lengthMm: sum(rows.map(({ lengthMm }) => lengthMm)) + linkMm,
    linkMm: sum(rows.map((row) => row.linkMm)) + linkMm,
  };
}

/** Null for a row that may reach past the top above or below: what of it is left out depends on how far down it lies. */
function kindOf({ index, topMm, bottomMm }: LaidRow, { laid }: Fitted, { heightMm }: Quilt): string | null {
  if (topMm < hairMm || bottomMm > heightMm - hairMm) return null;
  return laid.layout === 'straight' || index % 2 === 0 ? 'drawn' : 'changed';
}

/** So near the edge of the top is on it, mm. */
const hairMm = 1e-6;

function movedDown(row: Measured, mm: number): Measured {
  const down = ({ x, y }: Point) => ({ x, y: y + mm });
  return { ...row, start: down(row.start), end: down(row.end) };
}
