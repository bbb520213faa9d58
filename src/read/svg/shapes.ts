/** The basic shapes as SVG 2, chapter 10, draws them, given to the pen. */

import type { Pen } from '../intake/pen.js';
import { type Direction, type LengthContext, lengthIn } from './length.js';
import { NumberScanner } from './number-scanner.js';
import { drawPathData } from './path-data.js';

/** Attributes, or the CSS properties that stand for them. */
export type Geometry = Readonly<Record<string, string | undefined>>;

/** Draws one shape. Returns 0, or the character, counted from 1, at which its path data or point list breaks off. */
export type DrawShape = (shape: Geometry, pen: Pen, context: LengthContext) => number;

export const shapes: ReadonlyMap<string, DrawShape> = new Map<string, DrawShape>([
  ['path', path],
  ['line', line],
  ['polyline', ({ points }, pen) => polyline(points ?? '', pen, false)],
  ['polygon', ({ points }, pen) => polyline(points ?? '', pen, true)],
  ['rect', rect],
  ['circle', circle],
  ['ellipse', ellipse],
]);

function known(text: string | undefined, context: LengthContext, direction: Direction): number | null {
  return text === undefined ? null : lengthIn(text, context, direction);
}

/** `d` is an attribute, or the CSS property that writes it as `path("…")` (SVG 2, 9.3.2). */
function path({ d }: Geometry, pen: Pen): number {
  if (d === undefined) return 0;
  const property = /^path\(\s*(["'])([^"']*)\1\s*\)$/.exec(d);
  return drawPathData(property ? property[2] : d, pen);
}

function line({ x1, y1, x2, y2 }: Geometry, pen: Pen, context: LengthContext): number {
  pen.moveTo(known(x1, context, 'x') ?? 0, known(y1, context, 'y') ?? 0);
  pen.lineTo(known(x2, context, 'x') ?? 0, known(y2, context, 'y') ?? 0);
  return 0;
}

/** Points up to the first error are drawn; a number without its partner is one. */
function polyline(points: string, pen: Pen, closed: boolean): number {
  const scan = new NumberScanner(points);
  let broken = 0;
  let drawn = 0;
  scan.skipSpaces();
  while (!scan.atEnd) {
    const x = scan.number();
    if (!Number.isNaN(x)) scan.skipSeparator();
    const y = Number.isNaN(x) ? x : scan.number();
    if (Number.isNaN(y)) {
      broken = Math.min(scan.at + 1, points.length);
      break;
    }
    if (drawn++ === 0) pen.moveTo(x, y);
    else pen.lineTo(x, y);
    if (scan.skipSeparator() && scan.atEnd) broken = points.length;
  }
  if (broken > 0) pen.breakOff();
  if (closed) pen.close();
  return broken;
}

function rect(shape: Geometry, pen: Pen, context: LengthContext): number {
  const x = known(shape.x, context, 'x') ?? 0;
  const y = known(shape.y, context, 'y') ?? 0;
  const width = known(shape.width, context, 'x') ?? 0;
  const height = known(shape.height, context, 'y') ?? 0;
  if (!(width > 0 && height > 0)) return 0;
  const [rx, ry] = cornerRadii(shape, context, width, height);
  if (rx === 0 || ry === 0) {
    pen.moveTo(x, y);
    pen.lineTo(x + width, y);
    pen.lineTo(x + width, y + height);
    pen.lineTo(x, y + height);
    pen.close();
    return 0;
  }
  const right = x + width;
  const bottom = y + height;
  const quarter = (cx: number, cy: number, start: number, toX: number, toY: number) =>
    pen.arc(cx, cy, rx, 0, 0, ry, start, Math.PI / 2, toX, toY);
  pen.moveTo(x + rx, y);
  if (right - rx > x + rx) pen.lineTo(right - rx, y);
  quarter(right - rx, y + ry, -Math.PI / 2, right, y + ry);
  if (bottom - ry > y + ry) pen.lineTo(right, bottom - ry);
  quarter(right - rx, bottom - ry, 0, right - rx, bottom);
  if (right - rx > x + rx) pen.lineTo(x + rx, bottom);
  quarter(x + rx, bottom - ry, Math.PI / 2, x, bottom - ry);
  if (bottom - ry > y + ry) pen.lineTo(x, y + ry);
  quarter(x + rx, y + ry, Math.PI, x + rx, y);
  pen.close();
  return 0;
}

/** A missing or negative radius takes the other's value; neither may be more than half its side. */
function cornerRadii(
  shape: Geometry,
  context: LengthContext,
  width: number,
  height: number,
): [rx: number, ry: number] {
  const rx = radius(shape.rx, context, 'x');
  const ry = radius(shape.ry, context, 'y');
  return [Math.min(rx ?? ry ?? 0, width / 2), Math.min(ry ?? rx ?? 0, height / 2)];
}

/** Null for a radius that is missing, `auto`, or in error since it is negative (SVG 2, 10.4). */
function radius(text: string | undefined, context: LengthContext, direction: Direction): number | null {
  const value = known(text, context, direction);
  return value !== null && value >= 0 ? value : null;
}

function circle(shape: Geometry, pen: Pen, context: LengthContext): number {
  const r = known(shape.r, context, 'both') ?? 0;
  return fullEllipse(shape, r, r, pen, context);
}

function ellipse(shape: Geometry, pen: Pen, context: LengthContext): number {
  const rx = radius(shape.rx, context, 'x');
  const ry = radius(shape.ry, context, 'y');
  return fullEllipse(shape, rx ?? ry ?? 0, ry ?? rx ?? 0, pen, context);
}

/** One arc, clockwise on the page from three o'clock. */
function fullEllipse(shape: Geometry, rx: number, ry: number, pen: Pen, context: LengthContext): number {
  if (!(rx > 0 && ry > 0)) return 0;
  const cx = known(shape.cx, context, 'x') ?? 0;
  const cy = known(shape.cy, context, 'y') ?? 0;
  pen.moveTo(cx + rx, cy);
  pen.arc(cx, cy, rx, 0, 0, ry, 0, 2 * Math.PI, cx + rx, cy);
  pen.close();
  return 0;
}
