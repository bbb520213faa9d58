import type { Polyline } from '../../shared/plane.js';
import { Op, opSize, type Subpath } from '../../shared/subpath.js';
import { NumberSheet } from './number-sheet.js';
import { toMicron } from './number-text.js';

/** About so many. */
const signsPerNumber = 10;

/** SVG path data of a polyline, moved by (dx, dy), to 0.001 of a unit. */
export function pathData(line: Polyline, dx = 0, dy = 0): string {
  const sheet = new NumberSheet(signsPerNumber * line.length);
  for (let i = 0; i < line.length; i += 2) {
    sheet.text(i === 0 ? 'M' : 'L');
    sheet.number(line[i] + dx);
    sheet.text(' ');
    sheet.number(line[i + 1] + dy);
  }
  return sheet.toString();
}

/**
 * SVG path data of lines and cubic curves, moved by (dx, dy): places to 0.001 of a unit, handles to 0.00001, and as far
 * from their rounded places as they were: a level one stays level.
 */
export function curveData({ ops, coords }: Subpath, dx = 0, dy = 0): string {
  const x = (i: number) => toMicron(coords[i] + dx);
  const y = (i: number) => toMicron(coords[i + 1] + dy);
  const handle = (i: number, of: number) =>
    `${fine(x(of) + coords[i] - coords[of])} ${fine(y(of) + coords[i + 1] - coords[of + 1])}`;
  const parts = [`M${x(0)} ${y(0)}`];
  let at = 2;
  for (const op of ops) {
    if (op === Op.cubic)
      parts.push(`C${handle(at, at - 2)} ${handle(at + 2, at + 4)} ${x(at + 4)} ${y(at + 4)}`);
    else parts.push(`L${x(at)} ${y(at)}`);
    at += opSize[op];
  }
  return parts.join('');
}

/** A handle rounded to 0.001 would turn a short one by degrees. */
function fine(value: number): number {
  return Math.round(value * 1e5) / 1e5 || 0;
}
