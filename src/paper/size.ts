/** Sheets of paper by name or by size. Sizes: ISO 216 and ANSI/ASME Y14.1. */
import type { Pair } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import type { LengthUnit } from '../../shared/setup.js';
import { parseSize } from '../setup/lengths.js';
import { didYouMean } from '../setup/nearest.js';
import { mostPageMm } from '../write/pdf-pen.js';

export const papers = {
  letter: [215.9, 279.4],
  legal: [215.9, 355.6],
  tabloid: [279.4, 431.8],
  a4: [210, 297],
  a3: [297, 420],
} as const satisfies Readonly<Record<string, Pair>>;

/** The first page holds two squares side by side, and what is to be read. */
const leastMm: Pair = [152.4, 203.2];

/** What rounding makes of inches, mm. */
const hairMm = 0.001;

/** The sheet that is most at hand where people measure so. */
export function usualPaper(unit: LengthUnit): keyof typeof papers {
  return unit === 'in' ? 'letter' : 'a4';
}

/** Upright or lying, as it was said; `said` names the option in a Refusal. */
export function parsePaper(text: string, unit: LengthUnit, said: string): Pair {
  const name = text.trim().toLowerCase();
  if (Object.hasOwn(papers, name)) return papers[name as keyof typeof papers];
  const names = Object.keys(papers);
  if (!/\d.*(?:×|x|\*|by)/i.test(text))
    throw new Refusal(
      `${said} takes ${names.join(', ')} or a size such as "24in x 60in", not "${text}".${didYouMean(name, names)}`,
    );
  const size = parseSize(text, unit, said);
  const [short, long] = [...size].sort((a, b) => a - b);
  if (short < leastMm[0] - hairMm || long < leastMm[1] - hairMm)
    throw new Refusal(`${said} cannot be ${text}: the sheet must measure 6in x 8in (153 x 204 mm) or more.`);
  if (long > mostPageMm + hairMm)
    throw new Refusal(`${said} cannot be ${text}: a page of a PDF measures 200in (5080 mm) at most.`);
  return size;
}

/** Of repeats or rows. */
const mostCount = 1000;

export function parseCount(text: string, said: string): number {
  const count = Number(text.trim() || Number.NaN);
  if (Number.isInteger(count) && count >= 1 && count <= mostCount) return count;
  throw new Refusal(`${said} takes a whole number from 1 to ${mostCount}, not "${text}".`);
}
