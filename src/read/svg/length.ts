/** Lengths as SVG and CSS write them. Factors: CSS Values and Units Level 3, sections 5 and 6.2. */

import { mmPerInch, mmPerPx } from '../../../shared/units.js';

/** What a length is measured against. User units. */
export interface LengthContext {
  readonly fontSize: number;
  readonly width: number;
  readonly height: number;
}

export type Direction = 'x' | 'y' | 'both';

/** Millimetres in one of each unit of real size. */
export const mmPerUnit: ReadonlyMap<string, number> = new Map([
  ['in', mmPerInch],
  ['cm', 10],
  ['mm', 1],
  ['q', 0.25],
  ['pt', mmPerInch / 72],
  ['pc', mmPerInch / 6],
]);

export interface ParsedLength {
  readonly value: number;
  /** Lower case; '' for a bare number. */
  readonly unit: string;
}

/** A number with a unit, or null where the text is none. */
export function parseCssLength(text: string): ParsedLength | null {
  const match = /^\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)(%|[a-z]*)\s*$/i.exec(text);
  if (!match) return null;
  const value = Number(match[1]);
  return Number.isFinite(value) ? { value, unit: match[2].toLowerCase() } : null;
}

/** A length in user units, or null where it cannot be known. `direction` says what a percentage is of. */
export function lengthIn(text: string, context: LengthContext, direction: Direction): number | null {
  if (/^-?[\d.]+$/.test(text)) {
    const plain = Number(text);
    if (Number.isFinite(plain)) return plain;
  }
  const length = parseCssLength(text);
  if (!length) return null;
  const { value, unit } = length;
  const mm = mmPerUnit.get(unit);
  if (mm !== undefined) return (value * mm) / mmPerPx;
  switch (unit) {
    case '':
    case 'px':
      return value;
    case 'em':
      return value * context.fontSize;
    case 'ex':
    case 'ch':
      return (value * context.fontSize) / 2;
    case 'rem':
      return value * 16;
    case '%':
      return (value / 100) * reference(context, direction);
    default:
      return null;
  }
}

/** SVG 2, 8.9: percentages that are neither of the width nor of the height are of the diagonal over root two. */
function reference({ width, height }: LengthContext, direction: Direction): number {
  if (direction === 'x') return width;
  if (direction === 'y') return height;
  return Math.hypot(width, height) / Math.SQRT2;
}
