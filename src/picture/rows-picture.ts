/** Three rows of three repeats, with the largest open circles drawn in: one inside the motif, one in the seam. */

import type { Layout } from '../../shared/layout.js';
import type { Point, Polyline } from '../../shared/plane.js';
import type { OpenCircle, RowsAtSpacing } from '../../shared/rows.js';
import { sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import { emptyBox, extendByBox } from '../geometry/box.js';
import { boundsOf } from '../geometry/polyline.js';
import { judgedRows, type Row, repeatsOf, rowOfMotif } from '../rows/index.js';
import { ink, okabeIto } from './ink.js';
import { lineMark, tenth } from './line-mark.js';
import { layOn, picture, type SheetOfPaper } from './sheet-of-paper.js';
import { wordMark, wordWidth } from './words.js';

export interface RowsPictureOptions {
  readonly widthPx: number;
}

const rowCount = 3;
const repeatCount = 3;

/** The rows a picture shows: those asked for, or stored with the motif, else the even ones. */
export interface RowsShown {
  readonly layout: Layout;
  readonly rows: RowsAtSpacing;
  /** Where they come nearer to each other than the clearance, in the top row's coordinates; null where they keep clear. */
  readonly tooNear: Point | null;
  /** Whether somebody chose the spacing. */
  readonly chosen: boolean;
}

/** `recommended` is the layout where none was asked for. */
export function rowsToShow(study: Study, recommended: Layout): RowsShown {
  const { setup, motif } = study;
  const layout = setup.layout ?? (setup.spacingMm === null ? motif.rows?.layout : undefined) ?? recommended;
  const judged = judgedRows(study, layout);
  if (judged === null) return { layout, rows: study.nesting(layout).even, tooNear: null, chosen: false };
  return { layout, rows: judged.rows, tooNear: judged.clear ? null : judged.at, chosen: true };
}

/** SVG text, `widthPx` wide. */
export function rowsPicture(
  study: Study,
  { layout, rows, tooNear }: RowsShown,
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
  ].flatMap(({ open, style }) => {
    if (!open) return [];
    const { centre, diameterMm } = shown(open, row, layout, rows.spacingMm);
    return [{ centre: sheet.at(centre), radius: (diameterMm / 2) * sheet.pxPerMm, style }];
  });
  if (tooNear) {
    const { centre } = shown({ centre: tooNear, diameterMm: 0 }, row, layout, rows.spacingMm);
    circles.push({ centre: sheet.at(centre), radius: nearPens * sheet.pen, style: nearStyle });
  }
  const styles = circles.map(({ style }) => style);
  const { unit } = study.setup;
  // Lengths as they are told, in letters that the picture has.
  const caption = `${layout} rows, ${sayIn(unit).spacing(rows.spacingMm)} apart`;
  const below = legendHeight(styles, sheet);
  return picture({ ...sheet, heightPx: sheet.heightPx + below + captionHeight(sheet) }, [
    ...circles.filter(({ style }) => style.dash !== null).map(disc),
    ...lines.map((each) => lineMark(each, sheet, { width: 1.1 })),
    ...circles.map((circle) => ring(circle, sheet.pen)),
    ...legend(styles, sheet),
    captionMark(caption, sheet, below),
  ]);
}

/** The strokes of a row's repeats, where they lie on the quilt. */
function rowLines(row: Row, layout: Layout, spacingMm: number, index: number): Polyline[] {
  return repeatsOf(row, layout, spacingMm, index, repeatCount).flatMap(({ signX, signY, dx, dy }) =>
    row.strokes.map((stroke) =>
      stroke.map((value, i) => (i % 2 === 0 ? signX * value + dx : signY * value + dy)),
    ),
  );
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
  /** Where such a circle lies: beside its like under the picture, in letters of `words.ts`. */
  readonly words: string;
  /** The same, for a caption. */
  readonly sentence: string;
  readonly colour: string;
  /** Dash and gap, in pens; null for a whole ring with its arms outside. */
  readonly dash: readonly [number, number] | null;
  /** Arms of the cross at its centre: upright or slanting. */
  readonly slanting: boolean;
}

/** Told apart by dash and by the cross in the middle as well as by colour. */
const seamStyle: CircleStyle = {
  words: 'between rows',
  sentence: 'Dashed, with an upright cross: the largest open circle between two rows.',
  colour: okabeIto.vermilion,
  dash: [5, 3.5],
  slanting: false,
};
const innerStyle: CircleStyle = {
  words: 'within a row',
  sentence: 'Dotted, with a slanting cross: the largest open circle within a row.',
  colour: okabeIto.blue,
  dash: [0.1, 3],
  slanting: true,
};

/** Round the place where rows come too near: a whole ring, and nothing in it that hides the lines. */
const nearStyle: CircleStyle = {
  words: 'too near',
  sentence: 'A whole ring with arms outside it: where the rows cross or come too near.',
  colour: ink,
  dash: null,
  slanting: false,
};
const nearPens = 9;
/** The arms of a whole ring reach so many pens beyond it. */
const armPens = 4;

/** What the circles are that the picture of these rows shows, for beside it. */
export function rowsLegend({ rows: { seam, inner }, tooNear }: Omit<RowsShown, 'layout' | 'chosen'>): string {
  return [seam && seamStyle.sentence, inner && innerStyle.sentence, tooNear && nearStyle.sentence]
    .filter(Boolean)
    .join(' ');
}

/** In pixels. */
interface Circle {
  readonly centre: Point;
  readonly radius: number;
  readonly style: CircleStyle;
}

/** The open space, under the lines that hold it. */
function disc({ centre: { x, y }, radius, style: { colour } }: Circle): string {
  return `<circle cx="${tenth(x)}" cy="${tenth(y)}" r="${tenth(radius)}" fill="${colour}" fill-opacity="0.16"/>`;
}

/** Its edge, thin enough to leave the lines to be seen, and its centre. */
function ring({ centre: { x, y }, radius, style: { colour, dash, slanting } }: Circle, pen: number): string {
  if (dash === null) return wholeRing({ x, y }, radius, colour, pen);
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

function wholeRing({ x, y }: Point, radius: number, colour: string, pen: number): string {
  const [from, to] = [radius, radius + armPens * pen];
  const arms = `M${tenth(x - to)} ${tenth(y)}H${tenth(x - from)}M${tenth(x + from)} ${tenth(y)}H${tenth(x + to)}M${tenth(x)} ${tenth(y - to)}V${tenth(y - from)}M${tenth(x)} ${tenth(y + from)}V${tenth(y + to)}`;
  return `<g fill="none" stroke="${colour}" stroke-width="${tenth(2 * pen)}"><circle cx="${tenth(x)}" cy="${tenth(y)}" r="${tenth(radius)}"/><path d="${arms}"/></g>`;
}

/** What the rows are, in words: under everything else. */
function captionMark(text: string, { widthPx, heightPx, pen }: SheetOfPaper, below: number): string {
  const letters = Math.min(8 * pen, (8 * pen * 0.9 * widthPx) / wordWidth(text, 8 * pen));
  const x = (widthPx - wordWidth(text, letters)) / 2;
  return wordMark(text, x, heightPx + below + 6 * pen, letters, ink);
}

function captionHeight({ pen }: SheetOfPaper): number {
  return Math.ceil(20 * pen);
}

const heading = 'largest open circle';

function legendHeight(styles: readonly CircleStyle[], { pen }: SheetOfPaper): number {
  return styles.length > 0 ? Math.ceil(20 * pen) : 0;
}

/** In a strip of its own below the drawing, so that it hides no line: a like of each circle, and where such lie. */
function legend(styles: readonly CircleStyle[], { widthPx, heightPx, pen }: SheetOfPaper): string[] {
  if (styles.length === 0) return [];
  const [letters, radius, gap] = [8 * pen, 7 * pen, 6 * pen];
  const y = heightPx + 6 * pen;
  const armsOf = ({ dash }: CircleStyle) => (dash === null ? armPens * pen : 0);
  const entryWidth = (style: CircleStyle) =>
    3 * gap + 2 * (radius + armsOf(style)) + wordWidth(style.words, letters);
  const width = styles.reduce((sum, style) => sum + entryWidth(style), wordWidth(heading, letters));
  let x = (widthPx - width) / 2;
  const marks = [wordMark(heading, x, y, letters, ink)];
  x += wordWidth(heading, letters);
  for (const style of styles) {
    const left = x + 2 * gap + armsOf(style);
    marks.push(
      ring({ centre: { x: left + radius, y }, radius, style }, pen),
      wordMark(style.words, left + 2 * radius + armsOf(style) + gap, y, letters, ink),
    );
    x += entryWidth(style);
  }
  return marks;
}
