/** Sizes, places and shares as people type them beside a single length. */
import type { Pair } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import type { LengthUnit } from '../../shared/setup.js';
import { parseLength } from '../../shared/units.js';

/** `60in x 72in`; a first number without a unit takes that of the second: `60 x 72in`. */
export function parseSize(text: string, unit: LengthUnit, said: string): Pair {
  const parts = text.split(/\s*(?:×|x|\*)\s*/i);
  if (parts.length !== 2)
    throw new Refusal(`${said} takes a width and a height such as "60in x 72in", not "${text}".`);
  const suffix = /[^\d\s.,/⁄-]+$/.exec(parts[1])?.[0] ?? '';
  const first = /[\d/⁄]\s*$/.test(parts[0]) ? parts[0] + suffix : parts[0];
  const [width, height] = [parseLength(first, unit, said), parseLength(parts[1], unit, said)];
  if (!(width > 0) || !(height > 0))
    throw new Refusal(`${said} cannot be ${text}: width and height are above 0.`);
  return [width, height];
}

/** `23in; 14in` or `23in, 14in`; negative in the margin. */
export function parsePlace(text: string, unit: LengthUnit, said: string): Pair {
  const parts = text.split(text.includes(';') ? ';' : ',');
  if (parts.length === 2) return [signed(parts[0], unit, said), signed(parts[1], unit, said)];
  throw new Refusal(`${said} takes a place such as "23in; 14in", across and down, not "${text}".`);
}

/** `X, Y; X, Y`; spaces instead of the semicolon are read too. */
export function parseTwoPlaces(text: string, unit: LengthUnit, said: string): [Pair, Pair] {
  const halves = text.split(';');
  if (halves.length === 2) return [parsePlace(halves[0], unit, said), parsePlace(halves[1], unit, said)];
  if (halves.length === 4)
    return [
      parsePlace(`${halves[0]};${halves[1]}`, unit, said),
      parsePlace(`${halves[2]};${halves[3]}`, unit, said),
    ];
  const parts = text.split(',');
  const gaps = parts.length === 3 ? [...parts[1].trim().matchAll(/\s+/g)] : [];
  for (const { index } of gaps) {
    const middle = parts[1].trim();
    const [y, x] = [middle.slice(0, index), middle.slice(index)];
    if (isLength(y, unit) && isLength(x, unit))
      return [parsePlace(`${parts[0]},${y}`, unit, said), parsePlace(`${x},${parts[2]}`, unit, said)];
  }
  throw new Refusal(`${said} takes two places such as "2in, 30in; 58in, 30in", not "${text}".`);
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
