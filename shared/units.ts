/** Lengths as people type them and as people read them. Factors: CSS Values and Units 3, section 6.2. */
import { Refusal } from './refusal.js';
import type { LengthUnit } from './setup.js';

export const mmPerInch = 25.4;
/** One user unit (px) of a file that states no size, or of any SVG's inside. */
export const mmPerPx = 25.4 / 96;

/** Millimetres in each unit that may be typed. */
export const mmPer: Readonly<Record<string, number>> = {
  in: 25.4,
  inch: 25.4,
  inches: 25.4,
  '"': 25.4,
  '”': 25.4,
  '″': 25.4,
  "''": 25.4,
  mm: 1,
  cm: 10,
  m: 1000,
  ft: 304.8,
  foot: 304.8,
  feet: 304.8,
  "'": 304.8,
  yd: 914.4,
  yard: 914.4,
  yards: 914.4,
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
  if (/^[-−]\s*[\d.,]/.test(plain)) throw new Refusal(`${what} cannot be ${plain}: no length is below 0.`);
  throw new Refusal(`${what} "${text}" is not a length: write it like 9.5in, 9 1/2in, 9-1/2" or 240mm.`);
}

/**
 * The nearest whole number, half away from zero as people round, also where binary fractions fall a hair short of the
 * half; the next one up where the nearest would be under `least`.
 */
function whole(value: number, least: number): number {
  const hair = 1e-9;
  const nearest = Math.sign(value) * Math.round(Math.abs(value) + hair);
  return nearest < least - hair ? Math.ceil(value - hair) : nearest;
}

function decimal(value: number, digits: number, least: number): string {
  const parts = 10 ** digits;
  const text = (whole(value * parts, least * parts) / parts).toFixed(digits);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/**
 * Inches as a quilter reads a ruler: to the sixteenth, `5 1/4 in`; under half an inch to the thirty-second, and under
 * one of these in thousandths. Never less than `leastMm`: what is told as enough must be enough when it is typed.
 */
export function inches(mm: number, leastMm = -Infinity): string {
  const value = mm / mmPerInch;
  const least = leastMm / mmPerInch;
  const size = Math.abs(value);
  if (size > 0 && size < 1 / 32) return `${decimal(value, size < 0.001 ? 4 : 3, least)} in`;
  let lower = size < 1 / 2 ? 32 : 16;
  const parts = whole(value * lower, least * lower);
  const full = Math.floor(Math.abs(parts) / lower);
  let upper = Math.abs(parts) % lower;
  while (upper > 0 && upper % 2 === 0) {
    upper /= 2;
    lower /= 2;
  }
  const texts = [full > 0 || upper === 0 ? String(full) : '', upper > 0 ? `${upper}/${lower}` : ''];
  return `${parts < 0 ? '-' : ''}${texts.filter(Boolean).join(' ')} in`;
}

/** Rounded as people read them; never less than `leastMm`. */
export function millimetres(mm: number, leastMm = -Infinity): string {
  const size = Math.abs(mm);
  // What is there is never told as 0.
  const digits = size < 0.01 ? 3 : size < 1 ? 2 : size < 1000 ? 1 : 0;
  return `${decimal(mm, digits, leastMm)} mm`;
}

/** Both units, the user's first: `5 1/4 in (133.4 mm)`; neither less than `leastMm`. */
export function lengthText(mm: number, unit: LengthUnit, leastMm = -Infinity): string {
  const [first, second] = unit === 'in' ? [inches, millimetres] : [millimetres, inches];
  return `${first(mm, leastMm)} (${second(mm, leastMm)})`;
}

/** As `lengthText`, but finer where it would read the same as the length it is told beside. */
export function lengthBeside(mm: number, besideMm: number, unit: LengthUnit): string {
  const [told, beside] = [lengthText(mm, unit), lengthText(besideMm, unit)];
  const first = (text: string) => text.slice(0, text.indexOf(' ('));
  if (mm === besideMm || first(told) !== first(beside)) return told;
  const fine = [`${decimal(mm / mmPerInch, 3, -Infinity)} in`, `${decimal(mm, 2, -Infinity)} mm`];
  return unit === 'in' ? `${fine[0]} (${fine[1]})` : `${fine[1]} (${fine[0]})`;
}

/** Both units, neither more than the length: what is told as the most must not be too much when it is typed. */
export function lengthAtMost(mm: number, unit: LengthUnit): string {
  const part = unit === 'in' ? mmPerInch / (mm < mmPerInch / 2 ? 32 : 16) : 0.1;
  return lengthText(Math.floor(mm / part + 1e-9) * part, unit);
}

/** Width by height in both units, the user's first: `8 x 4 1/2 in (203.2 x 114.3 mm)`. */
export function sizeText(widthMm: number, heightMm: number, unit: LengthUnit): string {
  const pair = (text: (mm: number) => string, tail: string) =>
    `${text(widthMm).slice(0, -tail.length)} x ${text(heightMm)}`;
  const [first, second] = [pair(inches, ' in'), pair(millimetres, ' mm')];
  return unit === 'in' ? `${first} (${second})` : `${second} (${first})`;
}
