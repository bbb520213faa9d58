/** Where in the drawing an element stands: all that comes down to it from the elements around it. */
import type { Box } from '../../../shared/plane.js';
import { type Matrix, multiply } from '../../geometry/matrix.js';
import type { Declarations } from './declarations.js';
import { type LengthContext, lengthIn } from './length.js';
import type { SvgNode } from './node.js';
import type { Cut } from './region.js';
import type { ContextPaint, Hiding, Style } from './style.js';
import { parseTransform, singleTransform } from './transform.js';

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
  /** What `context-fill` and `context-stroke` stand for here: the paints of the `use` (SVG 2, 13.2). */
  readonly context: ContextPaint;
  readonly cuts: readonly Cut[];
  /** Names of the groups around, outermost first. */
  readonly layers: readonly string[];
}

export interface Copying {
  readonly target: SvgNode;
  readonly outer: Copying | null;
}

export function lengthContext({ style, width, height }: Place): LengthContext {
  return { fontSize: style.fontSize, width, height };
}

/** The box that an element's transforms count from, in its own user units. */
export type ReferenceBox = Box | null;

const singles = ['translate', 'rotate', 'scale'] as const;

/**
 * The place inside an element that has transforms of its own; `place` itself where it has none, or only ones in error.
 * First the single properties, in their fixed order, then `transform` (CSS Transforms Level 2, 6), all about the origin,
 * which is told from the corner of the nearest viewport, or of `box` where that is given.
 */
export function transformed(place: Place, declared: Declarations, box: ReferenceBox = null): Place {
  const context = lengthContext(place);
  const inBox =
    box === null ? context : { ...context, width: box.maxX - box.minX, height: box.maxY - box.minY };
  let matrix: Matrix | null = null;
  for (const property of singles) {
    const text = declared[`style ${property}`];
    const one = text === undefined ? null : singleTransform(property, text, inBox);
    if (one) matrix = matrix ? multiply(matrix, one) : one;
  }
  const { transform } = declared;
  const list = transform === undefined ? null : parseTransform(transform, inBox);
  if (list) matrix = matrix ? multiply(matrix, list) : list;
  if (!matrix) return place;
  const [right, down] = origin(declared['transform-origin'], inBox);
  const [x, y] = [right + (box?.minX ?? 0), down + (box?.minY ?? 0)];
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

/** `transform-origin`; percentages and keywords are of the reference box (CSS Transforms Level 1, 6). */
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
