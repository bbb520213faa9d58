/** Lengths as people type them and as people read them. Factors: CSS Values and Units 3, section 6.2. */
import { Refusal } from './refusal.js';
import type { LengthUnit } from './setup.js';

export const mmPerInch = 25.4;
/** One user unit (px) of a file that states no size, or of any SVG's inside. */
export const mmPerPx = 25.4 / 96;

const mmPer: Readonly<Record<string, number>> = {
  in: 25.4,
  inch: 25.4,
  inches: 25.4,
  '"': 25.4,
  '”': 25.4,
  '″': 25.4,
  mm: 1,
  cm: 10,
  m: 1000,
  ft: 304.8,
  "'": 304.8,
  yd: 914.4,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
};

const vulgar: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/**
 * Millimetres of a length as typed: `9.5in`, `9 1/2in`, `9-1/2"`, `240mm`, `24cm`, `3/8`. A bare number is in
 * `unit`. `what` names it in the sentence of the Refusal that an unreadable length ends in.
 */
export function parseLength(text: string, unit: LengthUnit, what = 'The length'): number {
  const plain = text
    .trim()
    .replace(/[¼½¾⅛⅜⅝⅞]/g, (sign) => ` ${vulgar[sign]}`)
    .trim();
  const match =
    /^(?:(\d+)(?:\s+|\s*-\s*)(\d+)\s*[/⁄]\s*(\d+)|(\d+)\s*[/⁄]\s*(\d+)|(\d+(?:[.,]\d*)?|[.,]\d+))\s*(\D*)$/.exec(
      plain,
    );
  const suffix = (match?.[7] ?? '').trim().toLowerCase().replace(/\.$/, '');
  const factor = suffix === '' ? mmPer[unit] : mmPer[suffix];
  if (match && factor !== undefined) {
    const [, whole, upper, lower, top, bottom, decimal] = match;
    const value =
      decimal !== undefined
        ? Number(decimal.replace(',', '.'))
        : Number(whole ?? 0) + Number(upper ?? top) / Number(lower ?? bottom);
    if (Number.isFinite(value)) return value * factor;
  }
  throw new Refusal(`${what} "${text}" is not a length: write it like 9.5in, 9 1/2in, 9-1/2" or 240mm.`);
}

/** Rounded half away from zero as people do it, also where binary fractions fall a hair short of the half. */
function trimmed(value: number, digits: number): string {
  const hair = Math.sign(value) * 1e-9;
  const text = (value + hair).toFixed(digits);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/** Inches as a quilter reads a ruler: to the sixteenth, `5 1/4 in`; under a sixteenth in thousandths. */
export function inches(mm: number): string {
  const value = Math.abs(mm) / mmPerInch;
  const sign = mm < 0 ? '-' : '';
  if (value > 0 && value < 1 / 16) return `${sign}${trimmed(value, 3)} in`;
  const sixteenths = Math.round(value * 16);
  const whole = Math.floor(sixteenths / 16);
  let upper = sixteenths % 16;
  let lower = 16;
  while (upper > 0 && upper % 2 === 0) {
    upper /= 2;
    lower /= 2;
  }
  const parts = [whole > 0 || upper === 0 ? String(whole) : '', upper > 0 ? `${upper}/${lower}` : ''];
  return `${sign}${parts.filter(Boolean).join(' ')} in`;
}

export function millimetres(mm: number): string {
  const size = Math.abs(mm);
  return `${trimmed(mm, size < 1 ? 2 : size < 1000 ? 1 : 0)} mm`;
}

/** Both units, the user's first: `5 1/4 in (133.4 mm)`. */
export function lengthText(mm: number, unit: LengthUnit): string {
  return unit === 'in' ? `${inches(mm)} (${millimetres(mm)})` : `${millimetres(mm)} (${inches(mm)})`;
}

/** Width by height in both units, the user's first: `8 x 4 1/2 in (203.2 x 114.3 mm)`. */
export function sizeText(widthMm: number, heightMm: number, unit: LengthUnit): string {
  const pair = (text: (mm: number) => string, tail: string) =>
    `${text(widthMm).slice(0, -tail.length)} x ${text(heightMm)}`;
  const [first, second] = [pair(inches, ' in'), pair(millimetres, ' mm')];
  return unit === 'in' ? `${first} (${second})` : `${second} (${first})`;
}
