/**
 * Transform lists, as the SVG attribute writes them (`rotate(45 10 10)`, numbers only) and as the CSS property does
 * (`rotate(0.125turn) translateX(1cm)`): CSS Transforms Level 1, sections 8 and 12. One reader takes both.
 */
import { identity, type Matrix, multiply } from '../../geometry/matrix.js';
import { type LengthContext, lengthIn } from './length.js';
import { numberList } from './number-scanner.js';

/** Degrees in one of each. */
const degrees: Readonly<Record<string, number>> = { deg: 1, grad: 0.9, rad: 180 / Math.PI, turn: 360 };

type Build = (args: number[]) => Matrix;

const shift = (x: number, y: number): Matrix => [1, 0, 0, 1, x, y];
const stretch = (x: number, y: number): Matrix => [x, 0, 0, y, 0, 0];
const tan = (deg: number) => Math.tan((deg * Math.PI) / 180);

function turn(deg: number): Matrix {
  const angle = (deg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [cos, sin, -sin, cos, 0, 0];
}

/** What each function takes (l length across, v length down, a angle, n number), how many at least, and its matrix. */
const functions: ReadonlyMap<string, readonly [takes: string, least: number, build: Build]> = new Map([
  ['matrix', ['nnnnnn', 6, (m) => m as unknown as Matrix]],
  ['translate', ['lv', 1, ([x, y = 0]) => shift(x, y)]],
  ['translatex', ['l', 1, ([x]) => shift(x, 0)]],
  ['translatey', ['v', 1, ([y]) => shift(0, y)]],
  ['scale', ['nn', 1, ([x, y = x]) => stretch(x, y)]],
  ['scalex', ['n', 1, ([x]) => stretch(x, 1)]],
  ['scaley', ['n', 1, ([y]) => stretch(1, y)]],
  ['rotate', ['all', 1, ([deg, x = 0, y = 0]) => multiply(multiply(shift(x, y), turn(deg)), shift(-x, -y))]],
  ['skew', ['aa', 1, ([x, y = 0]) => [1, tan(y), tan(x), 1, 0, 0]]],
  ['skewx', ['a', 1, ([x]) => [1, 0, tan(x), 1, 0, 0]]],
  ['skewy', ['a', 1, ([y]) => [1, tan(y), 0, 1, 0, 0]]],
] as [string, readonly [string, number, Build]][]);

/** The matrix of a transform list, or null where it is in error (it then counts for nothing). */
export function parseTransform(text: string, context: LengthContext): Matrix | null {
  const list = text.trim();
  if (list === '' || list === 'none') return identity;
  const item = /([\s,]*)([a-z]+)\s*\(([^()]*)\)/giy;
  let matrix = identity;
  while (item.lastIndex < list.length) {
    const match = item.exec(list);
    const one = match && matrixOf(match[2].toLowerCase(), match[3], context);
    const commas = match?.[1].replace(/\s/g, '') ?? '';
    if (!one || commas.length > (matrix === identity ? 0 : 1)) return null;
    matrix = multiply(matrix, one);
  }
  return matrix;
}

/**
 * The single properties (CSS Transforms Level 2, 5): `translate: 3px 1cm`, `rotate: 30deg`, `scale: 2 50%`. Null where
 * one is in error or leaves the plane.
 */
export function singleTransform(
  property: 'translate' | 'rotate' | 'scale',
  text: string,
  context: LengthContext,
): Matrix | null {
  const words = text.trim().toLowerCase().split(/\s+/);
  if (words[0] === 'none' && words.length === 1) return identity;
  if (property === 'rotate') {
    // About the axis that stands on the page; about another one the page itself would turn away.
    const [axis, ...rest] = words.length === 2 ? words : ['z', ...words];
    const angle = axis === 'z' && rest.length === 1 ? argument(rest[0], 'a', context) : null;
    return angle === null || !/[a-z]/.test(rest[0]) ? null : turn(angle);
  }
  if (words.length > 2) return null;
  const [x, y] = words.map((word, i) => argument(word, property === 'scale' ? 'n' : 'lv'[i], context));
  if (x === null || y === null) return null;
  return property === 'scale' ? stretch(x, y ?? x) : shift(x, y ?? 0);
}

function matrixOf(name: string, text: string, context: LengthContext): Matrix | null {
  const known = functions.get(name);
  if (!known) return null;
  const [takes, least, build] = known;
  const args = numberList(text) ?? withUnits(text, takes, context);
  if (!args || args.length < least || args.length > takes.length) return null;
  return name === 'rotate' && args.length === 2 ? null : build(args);
}

function withUnits(text: string, takes: string, context: LengthContext): number[] | null {
  const args: number[] = [];
  for (const part of text.trim().split(/\s*,\s*|\s+/)) {
    const value = argument(part, takes[args.length], context);
    if (value === null) return null;
    args.push(value);
  }
  return args;
}

function argument(text: string, kind: string, context: LengthContext): number | null {
  if (kind === 'l') return lengthIn(text, context, 'x');
  if (kind === 'v') return lengthIn(text, context, 'y');
  const match = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)(deg|grad|rad|turn|%)?$/i.exec(text);
  if (!match) return null;
  const unit = match[2]?.toLowerCase();
  if (unit === undefined) return Number(match[1]);
  if (kind === 'a') return unit === '%' ? null : Number(match[1]) * degrees[unit];
  return unit === '%' ? Number(match[1]) / 100 : null;
}

/** Whether the map flattens the plane onto a line or a point. */
export function isSingular([a, b, c, d]: Matrix): boolean {
  return a * d - b * c === 0;
}
