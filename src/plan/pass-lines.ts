/** Rows linked to the strokes of their passes. */
import type { LinkRange, Quilt, Runs } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';
import { chained, lengthOf, pointCount } from '../geometry/polyline.js';
import { fieldOf } from './field.js';
import type { Fitted } from './fit.js';
import { type Extent, type Split, splitIntoPasses } from './passes.js';
import type { Machine } from './roll.js';
import {
  type LinePart,
  linkBetween,
  linkPart,
  meetMm,
  type StitchedRow,
  stitchedRow,
  sum,
} from './stitch-line.js';

export interface PassLine extends Split, Extent {
  readonly rows: readonly StitchedRow[];
  /** Before each row; null where it begins a stroke. */
  readonly linksBefore: readonly (Polyline | null)[];
  readonly strokes: readonly Polyline[];
  readonly links: readonly LinkRange[];
  readonly lengthMm: number;
  readonly linkMm: number;
}

/** The passes of a choice that fits the throat, from the top down. */
export function passLines(way: Fitted, quilt: Quilt, runs: Runs, machine: Machine | null): PassLine[] {
  const field = fieldOf(quilt);
  const rows: StitchedRow[] = [];
  const extents: Extent[] = [];
  for (const extent of way.laid.rows) {
    const row = stitchedRow(way, quilt, runs, extent.index, rows.length);
    if (row === null) continue;
    rows.push(row);
    extents.push(extent);
  }
  const splits = splitIntoPasses(extents, field.minY, machine);
  if (!Array.isArray(splits)) return [];
  return splits.map((split) => {
    const own = rows.slice(split.from, split.to);
    const linksBefore = own.map((row, i) =>
      i === 0 || runs === 'one-way' ? null : linkBetween(field, own[i - 1].pieces.at(-1)!, row.pieces[0]),
    );
    const linkMm = sum(linksBefore.map((link) => (link ? lengthOf(link) : 0)));
    return {
      ...split,
      topMm: extents[split.from].topMm,
      bottomMm: Math.max(...extents.slice(split.from, split.to).map(({ bottomMm }) => bottomMm)),
      rows: own,
      linksBefore,
      ...strokesOf(own, linksBefore),
      lengthMm: sum(own.map(({ lengthMm }) => lengthMm)) + linkMm,
      linkMm: sum(own.map((row) => row.linkMm)) + linkMm,
    };
  });
}

function strokesOf(
  rows: readonly StitchedRow[],
  linksBefore: readonly (Polyline | null)[],
): Pick<PassLine, 'strokes' | 'links'> {
  const strokes: LinePart[][] = [];
  rows.forEach(({ parts }, i) => {
    const link = linksBefore[i];
    if (link === null) strokes.push([...parts]);
    else strokes[strokes.length - 1].push(...linkPart(link), ...parts);
  });
  return {
    strokes: strokes.map((parts) =>
      chained(
        parts.map(({ line }) => line),
        meetMm,
      ),
    ),
    links: strokes.flatMap(linkRanges),
  };
}

/** Counted as `chained` leaves out the first point of a part that meets the one before. */
function linkRanges(parts: readonly LinePart[], stroke: number): LinkRange[] {
  const ranges: LinkRange[] = [];
  let points = 0;
  for (const { line, isLink } of parts) {
    const from = Math.max(0, points - 1);
    points = from + pointCount(line);
    if (isLink) ranges.push([stroke, from, points - 1]);
  }
  return ranges;
}
