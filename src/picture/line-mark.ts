/** The stitched line on paper, and the marks at its two ends. */
import type { Point, Polyline } from '../../shared/plane.js';
import { pathData } from '../markup/path-data.js';
import { endColour, ink, paper, startColour } from './ink.js';
import type { SheetOfPaper } from './sheet-of-paper.js';

export interface LineStyle {
  readonly colour?: string;
  /** In pens. */
  readonly width?: number;
  /** Dash and gap, in pens. */
  readonly dash?: readonly number[];
  /** Points nearer than this to the one before are left out, in pixels; for pictures of millions of points. */
  readonly leastStepPx?: number;
}

/** Lines in one element, moved by (dxMm, dyMm): round ends, points that fall on the same tenth of a pixel left out. */
export function lineMark(
  lines: readonly Polyline[],
  sheet: SheetOfPaper,
  { colour = ink, width = 1.6, dash = [], leastStepPx = 0 }: LineStyle = {},
  dxMm = 0,
  dyMm = 0,
): string {
  const d = lines.map((line) => pathData(onPaper(line, sheet, dxMm, dyMm, leastStepPx))).join('');
  const dashes =
    dash.length > 0 ? ` stroke-dasharray="${dash.map((part) => tenth(part * sheet.pen)).join(' ')}"` : '';
  return (
    `<path d="${d}" fill="none" stroke="${colour}" stroke-width="${tenth(width * sheet.pen)}" ` +
    `stroke-linecap="round" stroke-linejoin="round"${dashes}/>`
  );
}

function onPaper(
  line: Polyline,
  sheet: SheetOfPaper,
  dxMm: number,
  dyMm: number,
  leastStepPx: number,
): Polyline {
  const out = new Float64Array(line.length);
  let n = 0;
  for (let i = 0; i < line.length; i += 2) {
    const { x, y } = sheet.at({ x: line[i] + dxMm, y: line[i + 1] + dyMm });
    const [px, py] = [tenth(x), tenth(y)];
    const isLast = i === line.length - 2;
    const stepPx = n > 0 ? Math.abs(px - out[n - 2]) + Math.abs(py - out[n - 1]) : Infinity;
    if (!(isLast && n === 2) && (stepPx === 0 || (!isLast && stepPx < leastStepPx))) continue;
    out[n++] = px;
    out[n++] = py;
  }
  return out.slice(0, n);
}

const markSize = 7;

/** A solid triangle at the start, pointing along the line. */
export function startMark(line: Polyline, sheet: SheetOfPaper): string {
  const at = sheet.at({ x: line[0], y: line[1] });
  const ahead = aheadOf(line, sheet);
  const length = Math.hypot(ahead.x - at.x, ahead.y - at.y) || 1;
  const size = markSize * sheet.pen;
  const [ux, uy] = [((ahead.x - at.x) / length) * size, ((ahead.y - at.y) / length) * size];
  const corners = [
    [at.x + 1.2 * ux, at.y + 1.2 * uy],
    [at.x - 0.8 * ux - 0.9 * uy, at.y - 0.8 * uy + 0.9 * ux],
    [at.x - 0.8 * ux + 0.9 * uy, at.y - 0.8 * uy - 0.9 * ux],
  ];
  const points = corners.map((corner) => corner.map(tenth).join(',')).join(' ');
  return `<polygon points="${points}" fill="${startColour}" stroke="${paper}" stroke-width="${tenth(sheet.pen)}"/>`;
}

/** An open square at the end. */
export function endMark(at: Point, sheet: SheetOfPaper): string {
  const { x, y } = sheet.at(at);
  const half = 0.8 * markSize * sheet.pen;
  return (
    `<rect x="${tenth(x - half)}" y="${tenth(y - half)}" width="${tenth(2 * half)}" height="${tenth(2 * half)}" ` +
    `fill="none" stroke="${endColour}" stroke-width="${tenth(2 * sheet.pen)}"/>`
  );
}

/** Where the line first leaves the triangle, on paper, so that one tiny step does not turn it; the end of a line that never does. */
function aheadOf(line: Polyline, sheet: SheetOfPaper): Point {
  const at = sheet.at({ x: line[0], y: line[1] });
  let ahead = at;
  for (let i = 2; i < line.length; i += 2) {
    ahead = sheet.at({ x: line[i], y: line[i + 1] });
    if (Math.hypot(ahead.x - at.x, ahead.y - at.y) >= markSize * sheet.pen) break;
  }
  return ahead;
}

export function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
