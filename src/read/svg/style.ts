/** Style as far as it decides which lines can be seen: what is inherited, and what hides a whole branch. */
import type { Fill } from '../../../shared/subpath.js';
import { isDashed } from '../intake/looks.js';
import type { Declarations } from './declarations.js';
import { lengthIn } from './length.js';
import { type Paint, parseColour, parsePaint } from './paint.js';

/** The inherited properties. */
export interface Style {
  readonly visible: boolean;
  readonly stroke: Paint;
  readonly fill: Paint;
  readonly strokeOpacity: number;
  readonly fillOpacity: number;
  readonly fillRule: Fill['rule'];
  /** User units; only whether it is zero matters. */
  readonly strokeWidth: number;
  /** Whether `currentColor` is fully transparent. */
  readonly colourClear: boolean;
  /** The colour of the line as the file writes it, lower case; `currentcolor` stands for `colour`. */
  readonly strokeText: string;
  readonly colour: string;
  readonly dashed: boolean;
  /** Whether lines carry markers (arrowheads and the like). */
  readonly marked: boolean;
  /** User units. */
  readonly fontSize: number;
}

export const initialStyle: Style = {
  visible: true,
  stroke: 'none',
  fill: 'solid',
  strokeOpacity: 1,
  fillOpacity: 1,
  fillRule: 'nonzero',
  strokeWidth: 1,
  colourClear: false,
  strokeText: 'none',
  colour: 'black',
  dashed: false,
  marked: false,
  fontSize: 16,
};

/** How a file hides a line, in the words of the intake notes. */
export type Hiding = 'not displayed' | 'invisible' | 'transparent' | 'no paint';

/** What a `use` is painted with, as far as it can be seen. */
export interface ContextPaint {
  readonly fill: Seen;
  readonly stroke: Seen;
}

type Seen = 'none' | 'clear' | 'solid';

/** Outside of any `use` the words stand for no paint. */
export const noContext: ContextPaint = { fill: 'none', stroke: 'none' };

/** The paints of a `use` that stands in `context` itself. */
export function contextOf(style: Style, context: ContextPaint): ContextPaint {
  const of = (paint: Paint) => seen(paint, 1, style.colourClear, context);
  return { fill: of(style.fill), stroke: of(style.stroke) };
}

/** What an id stands for. */
export interface Known {
  isThere(id: string): boolean;
  isPaint(id: string): boolean;
}

type Changing = { -readonly [K in keyof Style]: Style[K] };
type Change = (style: Changing, value: string, known: Known) => void;

/** What each property does to the inherited style; a value in error does nothing. */
const changes: ReadonlyMap<string, Change> = new Map<string, Change>([
  ['visibility', changeVisibility],
  [
    'stroke',
    (style, value, known) => {
      const paint = parsePaint(value, known.isPaint);
      if (paint === null) return;
      style.stroke = paint;
      style.strokeText = value.trim().toLowerCase();
    },
  ],
  [
    'fill',
    (style, value, known) => {
      style.fill = parsePaint(value, known.isPaint) ?? style.fill;
    },
  ],
  [
    'stroke-opacity',
    (style, value) => {
      style.strokeOpacity = parseOpacity(value) ?? style.strokeOpacity;
    },
  ],
  [
    'fill-opacity',
    (style, value) => {
      style.fillOpacity = parseOpacity(value) ?? style.fillOpacity;
    },
  ],
  [
    'fill-rule',
    (style, value) => {
      const word = value.trim();
      if (word === 'nonzero' || word === 'evenodd') style.fillRule = word;
    },
  ],
  [
    'stroke-width',
    (style, value) => {
      style.strokeWidth = widthOf(value, style.fontSize) ?? style.strokeWidth;
    },
  ],
  [
    'font-size',
    (style, value) => {
      style.fontSize = fontSizeOf(value, style.fontSize) ?? style.fontSize;
    },
  ],
  [
    'stroke-dasharray',
    (style, value) => {
      style.dashed = isDashed(value);
    },
  ],
  ['color', changeColour],
  ['marker', changeMarker],
  ['marker-start', changeMarker],
  ['marker-mid', changeMarker],
  ['marker-end', changeMarker],
]);

function changeVisibility(style: Changing, value: string): void {
  const word = value.trim();
  if (word === 'visible') style.visible = true;
  else if (word === 'hidden' || word === 'collapse') style.visible = false;
}

function changeColour(style: Changing, value: string): void {
  const colour = parseColour(value.trim().toLowerCase());
  if (colour === null) return;
  style.colourClear = colour === 'clear';
  style.colour = value.trim().toLowerCase();
}

function changeMarker(style: Changing, value: string, known: Known): void {
  if (/^\s*url\(/i.test(value) && parsePaint(value, known.isThere) === 'solid') style.marked = true;
}

/** A number or percentage, or null where it is none. */
function parseOpacity(text: string): number | null {
  const value = Number.parseFloat(text);
  return Number.isFinite(value) ? value : null;
}

/** Percentages are of a page that has some size: all that counts is whether they are zero. */
function widthOf(text: string, fontSize: number): number | null {
  const width = lengthIn(text, { fontSize, width: 100, height: 100 }, 'both');
  return width !== null && width >= 0 ? width : null;
}

const fontSizes: ReadonlyMap<string, number> = new Map([
  ['xx-small', 9.6],
  ['x-small', 12],
  ['small', 14.22],
  ['medium', 16],
  ['large', 19.2],
  ['x-large', 24],
  ['xx-large', 32],
]);

function fontSizeOf(text: string, fontSize: number): number | null {
  const named = fontSizes.get(text.trim().toLowerCase());
  if (named !== undefined) return named;
  const size = lengthIn(text, { fontSize, width: fontSize, height: fontSize }, 'x');
  return size !== null && size >= 0 ? size : null;
}

/** The style inside an element; `inherited` itself where nothing in `declared` changes it. */
export function styleOf(declared: Declarations, inherited: Style, known: Known): Style {
  let style: Changing | null = null;
  for (const property in declared) {
    const change = changes.get(property);
    const value = declared[property];
    if (!change || value === undefined || value === 'inherit' || value === 'unset') continue;
    style ??= { ...inherited };
    if (value === 'initial') style[keyOf[property]] = initialStyle[keyOf[property]] as never;
    else change(style, value, known);
  }
  return style ?? inherited;
}

const keyOf: Readonly<Record<string, keyof Style>> = {
  visibility: 'visible',
  stroke: 'stroke',
  fill: 'fill',
  'stroke-opacity': 'strokeOpacity',
  'fill-opacity': 'fillOpacity',
  'fill-rule': 'fillRule',
  'stroke-width': 'strokeWidth',
  'stroke-dasharray': 'dashed',
  color: 'colourClear',
  marker: 'marked',
  'marker-start': 'marked',
  'marker-mid': 'marked',
  'marker-end': 'marked',
  'font-size': 'fontSize',
};

/** Whether an element hides all that is in it. */
export function branchHiding(declared: Declarations): Hiding | null {
  const { display, opacity } = declared;
  if (display !== undefined && display.trim() === 'none') return 'not displayed';
  if (opacity !== undefined && (parseOpacity(opacity) ?? 1) <= 0) return 'transparent';
  return null;
}

/** Whether a shape's line, and its inside, can be seen; and how it is hidden where neither can. */
export function visibility(
  style: Style,
  context: ContextPaint,
): { line: boolean; inside: boolean; hiding: Hiding } {
  const stroke = seen(style.stroke, style.strokeOpacity, style.colourClear, context);
  const fill = seen(style.fill, style.fillOpacity, style.colourClear, context);
  const line = style.visible && stroke === 'solid' && style.strokeWidth > 0;
  const inside = style.visible && fill === 'solid';
  const hiding = !style.visible
    ? 'invisible'
    : stroke === 'clear' || fill === 'clear'
      ? 'transparent'
      : 'no paint';
  return { line, inside, hiding };
}

function seen(paint: Paint, opacity: number, colourClear: boolean, context: ContextPaint): Seen {
  const own = paint === 'context-fill' ? context.fill : paint === 'context-stroke' ? context.stroke : paint;
  if (own === 'none') return 'none';
  return opacity <= 0 || own === 'clear' || (own === 'current' && colourClear) ? 'clear' : 'solid';
}
