/** Three rows of three repeats, with the largest open circles drawn in: one inside the motif, one in the seam. */
import { emptyBox, extendByBox } from '../../shared/box.js';
import type { Layout } from '../../shared/motif.js';
import { boundsOf, type Polyline } from '../../shared/polyline.js';
import type { OpenCircle, RowsAtSpacing } from '../../shared/rows.js';
import type { Study } from '../../shared/study.js';
import { placementOf, type Row, rowOfMotif } from '../rows/index.js';
import { okabeIto } from './ink.js';
import { lineMark, tenth } from './line-mark.js';
import { layOn, picture, type SheetOfPaper } from './sheet-of-paper.js';

export interface RowsPictureOptions {
  readonly widthPx: number;
}

const rowCount = 3;
const repeatCount = 3;

/** SVG text, `widthPx` wide. */
export function rowsPicture(
  study: Study,
  layout: Layout,
  rows: RowsAtSpacing,
  { widthPx }: RowsPictureOptions,
): string {
  const row = rowOfMotif(study);
  const lines = Array.from({ length: rowCount }, (_, index) => rowLines(row, layout, rows.spacingMm, index));
  const box = emptyBox();
  for (const line of lines) extendByBox(box, boundsOf(line));
  const sheet = layOn(box, widthPx);
  const circles = [
    { open: rows.seam, style: seamStyle },
    { open: rows.inner, style: innerStyle },
  ].flatMap(({ open, style }) => (open ? [{ open: shown(open, row, layout, rows.spacingMm), style }] : []));
  return picture(sheet, [
    ...circles.map(({ open, style }) => disc(open, sheet, style)),
    ...lines.map((each) => lineMark(each, sheet, { width: 1.1 })),
    ...circles.map(({ open, style }) => ring(open, sheet, style)),
  ]);
}

/** The strokes of a row's repeats, where they lie on the quilt. */
function rowLines(row: Row, layout: Layout, spacingMm: number, index: number): Polyline[] {
  const { signX, signY, dx, dy } = placementOf(row, layout, spacingMm, index);
  // A turned row runs to the left: its repeats are counted from the right.
  const first = signX === 1 ? 0 : 1 - repeatCount + turnedOver(row);
  return Array.from({ length: repeatCount }, (_, k) => first + k).flatMap((k) =>
    row.strokes.map((stroke) =>
      stroke.map((value, i) => (i % 2 === 0 ? signX * (value + k * row.repeatMm) + dx : signY * value + dy)),
    ),
  );
}

/** By how many repeats a turned row has slid to the side of the others. */
function turnedOver({ middleXMm, box, repeatMm }: Row): number {
  const slid = 2 * middleXMm - 2 * box.minX - repeatMm;
  return Math.round(slid / repeatMm);
}

/** Where a circle shows best: of all the places it has in the rows, one near the middle of the picture. */
function shown({ centre, diameterMm }: OpenCircle, row: Row, layout: Layout, spacingMm: number): OpenCircle {
  const { box, repeatMm } = row;
  const rowsDown = layout === 'straight' || layout === 'brick' ? 1 : 2;
  let { x, y } = centre;
  const middle = (box.minY + box.maxY) / 2;
  while (y < middle && y + rowsDown * spacingMm < middle + (rowCount - 1) * spacingMm) {
    y += rowsDown * spacingMm;
    if (layout === 'brick') x += repeatMm / 2;
  }
  const repeats = Math.floor((x - box.minX) / repeatMm);
  return { centre: { x: x + (1 - repeats) * repeatMm, y }, diameterMm };
}

interface CircleStyle {
  readonly colour: string;
  /** Dash and gap, in pens. */
  readonly dash: readonly [number, number];
  /** Arms of the cross at its centre: upright or slanting. */
  readonly slanting: boolean;
}

/** What the circles are, for beside the picture. */
export const circleLegend =
  'Dashed, with an upright cross: the largest open circle between two rows. Dotted, with a slanting cross: the largest within a row.';

/** Told apart by dash and by the cross in the middle as well as by colour. */
const seamStyle: CircleStyle = { colour: okabeIto.vermilion, dash: [5, 3.5], slanting: false };
const innerStyle: CircleStyle = { colour: okabeIto.blue, dash: [0.1, 3], slanting: true };

/** The open space, under the lines that hold it. */
function disc({ centre, diameterMm }: OpenCircle, sheet: SheetOfPaper, { colour }: CircleStyle): string {
  const { x, y } = sheet.at(centre);
  const radius = (diameterMm / 2) * sheet.pxPerMm;
  return `<circle cx="${tenth(x)}" cy="${tenth(y)}" r="${tenth(radius)}" fill="${colour}" fill-opacity="0.16"/>`;
}

/** Its edge, thin enough to leave the lines to be seen, and its centre. */
function ring(
  { centre, diameterMm }: OpenCircle,
  sheet: SheetOfPaper,
  { colour, dash, slanting }: CircleStyle,
): string {
  const { x, y } = sheet.at(centre);
  const { pen, pxPerMm } = sheet;
  const radius = (diameterMm / 2) * pxPerMm;
  const dashes = dash.map((part) => tenth(part * pen)).join(' ');
  const arm = Math.min(4 * pen, radius / 2);
  const arms = slanting
    ? `M${tenth(x - arm)} ${tenth(y - arm)}L${tenth(x + arm)} ${tenth(y + arm)}M${tenth(x - arm)} ${tenth(y + arm)}L${tenth(x + arm)} ${tenth(y - arm)}`
    : `M${tenth(x - arm)} ${tenth(y)}H${tenth(x + arm)}M${tenth(x)} ${tenth(y - arm)}V${tenth(y + arm)}`;
  return (
    `<g fill="none" stroke="${colour}" stroke-width="${tenth(1.4 * pen)}" stroke-linecap="round">` +
    `<circle cx="${tenth(x)}" cy="${tenth(y)}" r="${tenth(radius)}" stroke-dasharray="${dashes}"/><path d="${arms}"/></g>`
  );
}
