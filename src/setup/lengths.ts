/** Sizes, places and shares as people type them beside a single length. */
import type { Pair } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import type { LengthUnit } from '../../shared/setup.js';
import { parseLength } from '../../shared/units.js';

/** `60in x 72in` or `60 by 72in`; a first number without a unit takes that of the second. */
export function parseSize(text: string, unit: LengthUnit, said: string): Pair {
  const parts = text.split(/\s*(?:×|x|\*|by)\s*/i);
  if (parts.length !== 2 || parts.some((part) => part.trim() === ''))
    throw new Refusal(`${said} takes a width and a height such as "60in x 72in", not "${text}".`);
  const suffix = /[^\d\s.,/⁄-]+$/.exec(parts[1])?.[0] ?? '';
  const first = /[\d/⁄]\s*$/.test(parts[0]) ? parts[0] + suffix : parts[0];
  const [width, height] = [parseLength(first, unit, said), parseLength(parts[1], unit, said)];
  if (!(width > 0) || !(height > 0))
    throw new Refusal(`${said} cannot be ${text}: width and height are above 0.`);
  return [width, height];
}

/** `23in; 14in` or `23in, 14in`; negative in the margin. Spaces alone will do. */
export function parsePlace(text: string, unit: LengthUnit, said: string): Pair {
  const parts = lengthsIn(text, 2, unit);
  if (parts) return [signed(parts[0], unit, said), signed(parts[1], unit, said)];
  throw new Refusal(`${said} takes a place such as "23in; 14in", across and down, not "${text}".`);
}

/** `X, Y; X, Y`; spaces instead of the semicolon, or of all, are read too. */
export function parseTwoPlaces(text: string, unit: LengthUnit, said: string): [Pair, Pair] {
  const parts = lengthsIn(text, 4, unit);
  if (parts) {
    const [ax, ay, bx, by] = parts.map((each) => signed(each, unit, said));
    return [
      [ax, ay],
      [bx, by],
    ];
  }
  throw new Refusal(`${said} takes two places such as "2in, 30in; 58in, 30in", not "${text}".`);
}

/**
 * The text cut into so many lengths: at every semicolon and comma, or where commas stand in decimals at every semicolon
 * alone, and at spaces. Spaces stand inside lengths too, so the words that make the longest length stay together.
 */
function lengthsIn(text: string, count: number, unit: LengthUnit): string[] | null {
  for (const marks of [/[;,]/, /;/]) {
    const stretches = text.split(marks);
    const lengths = stretches.flatMap((stretch) => longestLengths(stretch, unit));
    if (lengths.length === count) return lengths;
    // What is wrong with one of them is then said of that one.
    if (stretches.length === count) return stretches;
  }
  return null;
}

/** Of a length: a sign, a whole, a fraction and a unit. */
const mostWords = 4;

/** Each as long as it can be; none where words are left over. */
function longestLengths(text: string, unit: LengthUnit): string[] {
  const words = text.trim().split(/\s+/);
  const lengths: string[] = [];
  for (let from = 0; from < words.length; ) {
    let to = Math.min(words.length, from + mostWords);
    while (to > from && !isLength(words.slice(from, to).join(' '), unit)) to--;
    if (to === from) return [];
    lengths.push(words.slice(from, to).join(' '));
    from = to;
  }
  return lengths;
}

/** `10%` or `10`, up to a half. */
export function parsePercent(text: string, said: string): number {
  const percent = Number(text.trim().replace(/\s*%$/, '').replace(',', '.') || Number.NaN);
  if (percent >= 0 && percent <= 50) return percent / 100;
  throw new Refusal(`${said} takes a percentage from 0 to 50 such as 10%, not "${text}".`);
}

const farthestMm = 1_000_000;

function signed(text: string, unit: LengthUnit, said: string): number {
  const [, minus, length] = /^\s*([-−]?)(.*)$/s.exec(text)!;
  const mm = parseLength(length, unit, said) * (minus ? -1 : 1);
  if (Math.abs(mm) > farthestMm)
    throw new Refusal(`${said} cannot be ${text.trim()}: that is off any quilt.`);
  return mm;
}

function isLength(text: string, unit: LengthUnit): boolean {
  try {
    signed(text, unit, '');
    return true;
  } catch {
    return false;
  }
}
