/**
 * Records: group 0 and the groups up to the next. Of each only what a drawing's lines need is kept: names and words
 * (groups 1 to 8), numbers (10 to 79, 90 to 99, 210 to 239) in their order. Handles, subclass marks, data of other
 * programs (102, 1000 and up) and objects embedded in others (101) are passed over.
 */
import type { Tags } from './tags.js';

export interface DxfRecord {
  /** `LINE`, `SECTION`, `EOF`. */
  readonly type: string;
  /** The line of the file on which it begins. */
  readonly line: number;
  /** Whether another group 0 follows: only then is it known to be all there. */
  readonly whole: boolean;
  readonly words: readonly (readonly [code: number, text: string])[];
  readonly codes: readonly number[];
  /** Beside `codes`; NaN where the file has no number there. */
  readonly numbers: readonly number[];
  /** The first number after each name in a group 9, as the HEADER section has its variables. */
  readonly variables: ReadonlyMap<string, number>;
}

const noVariables: ReadonlyMap<string, number> = new Map();

/** Every record of the file in turn. What stands before the first group 0 is passed over. */
export function* recordsIn(tags: Tags): Generator<DxfRecord> {
  let more = tags.next();
  while (more && tags.code !== 0) more = tags.next();
  while (more) {
    const type = tags.value.trim();
    const { line } = tags;
    const words: [number, string][] = [];
    const codes: number[] = [];
    const numbers: number[] = [];
    let variables: Map<string, number> | null = null;
    let variable = '';
    let passing: 'none' | 'group' | 'rest' = 'none';
    more = tags.next();
    while (more && tags.code !== 0) {
      const { code } = tags;
      if (passing === 'none') {
        if (isNumber(code)) {
          codes.push(code);
          numbers.push(numberIn(tags.value));
          if (variable !== '') {
            variables ??= new Map();
            if (!variables.has(variable)) variables.set(variable, numberIn(tags.value));
          }
        } else if (code === 9) variable = tags.value.trim().toUpperCase();
        else if (code < 10) words.push([code, tags.value]);
        else if (code === 101) passing = 'rest';
        else if (code === 102 && tags.value.trimStart().startsWith('{')) passing = 'group';
      } else if (passing === 'group' && code === 102) passing = 'none';
      more = tags.next();
    }
    yield { type, line, whole: more, words, codes, numbers, variables: variables ?? noVariables };
  }
}

function isNumber(code: number): boolean {
  return (code >= 10 && code < 80) || (code >= 90 && code < 100) || (code >= 210 && code < 240);
}

function numberIn(text: string): number {
  const value = Number(text);
  return value === 0 && text.trim() === '' ? Number.NaN : value;
}

/** Thrown by what reads an entity whose numbers are not there, not finite, or not as many as it says. */
export const broken = new Error('broken entity');

/** The first number of this code, `otherwise` where there is none. */
export function numberOf({ codes, numbers }: DxfRecord, code: number, otherwise: number): number {
  const at = codes.indexOf(code);
  return at < 0 ? otherwise : numbers[at];
}

export function neededNumber(record: DxfRecord, code: number): number {
  const at = record.codes.indexOf(code);
  if (at < 0) throw broken;
  return record.numbers[at];
}

/** All numbers of this code, in order. */
export function numbersOf({ codes, numbers }: DxfRecord, code: number): number[] {
  return numbers.filter((_, i) => codes[i] === code);
}

/** The first text of this code, with `\U+XXXX` read; "" where there is none. */
export function wordOf({ words }: DxfRecord, code: number): string {
  return plainText((words.find(([each]) => each === code)?.[1] ?? '').trim());
}

/** Characters beyond ASCII as DXF has them written out. */
export function plainText(text: string): string {
  return text.replace(/\\U\+([\dA-Fa-f]{4})/g, (_, hex: string) =>
    String.fromCharCode(Number.parseInt(hex, 16)),
  );
}

/** Points given as x, y and z one after the other under `code`, `code` + 10 and `code` + 20: three numbers each. */
export function pointsOf({ codes, numbers }: DxfRecord, code: number): number[] {
  const points: number[] = [];
  let hasY = true;
  for (let i = 0; i < codes.length; i++) {
    if (codes[i] === code) {
      if (!hasY) throw broken;
      points.push(numbers[i], Number.NaN, 0);
      hasY = false;
    } else if (codes[i] === code + 10 && !hasY) {
      points[points.length - 2] = numbers[i];
      hasY = true;
    } else if (codes[i] === code + 20 && points.length > 0) points[points.length - 1] = numbers[i];
  }
  if (!hasY) throw broken;
  return points;
}
