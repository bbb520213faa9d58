/** The line of a choice as it is stitched: rows trimmed and linked, and rows of a pass linked to strokes. */
import type { Quilt, Runs } from '../../shared/plan.js';
import type { Box, Polyline } from '../../shared/plane.js';
import { firstPoint, lastPoint, lengthOf, reversed } from '../geometry/polyline.js';
import { alongBorder } from './border.js';
import { fieldOf, topOf } from './field.js';
import type { Fitted } from './fit.js';
import { unitOf } from './lay-out.js';
import { trimmedRow } from './trim.js';

/** A stretch of the stitched line: of a row, or added along the border. */
export interface LinePart {
  readonly line: Polyline;
  readonly isLink: boolean;
}

/** A row as it is walked. */
export interface StitchedRow {
  /** In the field, without links, in the order and way of the walk. */
  readonly pieces: readonly Polyline[];
  /** Between the pieces. */
  readonly links: readonly Polyline[];
  /** Pieces and links in turn, end to start. */
  readonly parts: readonly LinePart[];
  readonly lengthMm: number;
  readonly linkMm: number;
}

/** The row at `index` in the stack, the `number`th that is stitched (both from 0), or null where none of it enters the top. */
export function stitchedRow(
  way: Fitted,
  quilt: Quilt,
  runs: Runs,
  index: number,
  number: number,
): StitchedRow | null {
  const field = fieldOf(quilt);
  const unit = unitOf(way.leveled, way.laid, index);
  const trimmed = trimmedRow(unit, way.leveled.row.repeatMm, field, topOf(quilt));
  if (trimmed.length === 0) return null;
  const walksBack = runs === 'back-and-forth' && number % 2 === 1;
  const pieces = walksBack ? trimmed.map(reversed).reverse() : trimmed;
  const links = pieces.slice(1).map((piece, i) => linkBetween(field, pieces[i], piece));
  const parts = pieces.flatMap((line, i) => [
    ...(i === 0 ? [] : linkPart(links[i - 1])),
    { line, isLink: false },
  ]);
  const linkMm = sum(links.map(lengthOf));
  return { pieces, links, parts, linkMm, lengthMm: sum(pieces.map(lengthOf)) + linkMm };
}

/** Ends nearer than this are one point, mm. */
export const meetMm = 1e-9;

/** None where both ends meet. */
export function linkPart(line: Polyline): LinePart[] {
  return lengthOf(line) > meetMm ? [{ line, isLink: true }] : [];
}

/** Along the border from the end of one line to the start of the next. */
export function linkBetween(field: Box, from: Polyline, to: Polyline): Polyline {
  return alongBorder(field, lastPoint(from), firstPoint(to));
}

export function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, each) => total + each, 0);
}
