/** Where in the drawing an element stands: all that comes down to it from the elements around it. */
import { type Matrix, multiply } from '../../geometry/matrix.js';
import type { Cut } from './cut.js';
import type { Declarations } from './declarations.js';
import { type LengthContext, lengthIn } from './length.js';
import type { SvgNode } from './node.js';
import type { Hiding, Style } from './style.js';
import { parseTransform } from './transform.js';

export interface Place {
  /** User units to millimetres. */
  readonly ctm: Matrix;
  readonly style: Style;
  /** How everything here is hidden, or null where it is not. */
  readonly hiding: Hiding | null;
  /** The nearest viewport, user units: percentages are of it. */
  readonly width: number;
  readonly height: number;
  /** Levels of elements above, those that `use` brings in too. */
  readonly depth: number;
  /** The elements that `use` is copying here, innermost first. */
  readonly copying: Copying | null;
  readonly cuts: readonly Cut[];
}

export interface Copying {
  readonly target: SvgNode;
  readonly outer: Copying | null;
}

export function lengthContext({ style, width, height }: Place): LengthContext {
  return { fontSize: style.fontSize, width, height };
}

/** The place inside an element that has a transform of its own; `place` itself where it has none, or one in error. */
export function transformed(place: Place, declared: Declarations): Place {
  const { transform } = declared;
  if (transform === undefined) return place;
  const context = lengthContext(place);
  const matrix = parseTransform(transform, context);
  if (!matrix) return place;
  const [x, y] = origin(declared['transform-origin'], context);
  const about =
    x === 0 && y === 0 ? matrix : multiply(multiply([1, 0, 0, 1, x, y], matrix), [1, 0, 0, 1, -x, -y]);
  return { ...place, ctm: multiply(place.ctm, about) };
}

const keywords: ReadonlyMap<string, string> = new Map([
  ['left', '0%'],
  ['top', '0%'],
  ['center', '50%'],
  ['right', '100%'],
  ['bottom', '100%'],
]);

/** `transform-origin`; percentages and keywords are of the nearest viewport (CSS Transforms Level 1, 6). */
function origin(text: string | undefined, context: LengthContext): [number, number] {
  if (text === undefined) return [0, 0];
  const parts = text.trim().toLowerCase().split(/\s+/);
  if (parts[0] === 'top' || parts[0] === 'bottom' || parts[1] === 'left' || parts[1] === 'right') {
    [parts[0], parts[1]] = [parts[1] ?? 'center', parts[0]];
  }
  const [x, y = 'center'] = parts;
  return [
    lengthIn(keywords.get(x) ?? x, context, 'x') ?? 0,
    lengthIn(keywords.get(y) ?? y, context, 'y') ?? 0,
  ];
}
