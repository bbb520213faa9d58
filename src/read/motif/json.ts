import { grouped } from '../../../shared/grouped.js';
import { Refusal } from '../../../shared/refusal.js';

/**
 * The value of a JSON text in UTF-8.
 *
 * @throws Refusal with line and column where it is none, and where it nests deeper than `deepest`
 */
export function parseJson(bytes: Uint8Array, file: string, deepest: number): unknown {
  const text = decoded(bytes, file);
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw new Refusal(`${file}${placeOf(error, text)}: this is not valid JSON.`);
  }
  if (nestsDeeper(value, deepest))
    throw new Refusal(`${file}: nested more than ${grouped(deepest)} levels deep.`);
  return value;
}

function decoded(bytes: Uint8Array, file: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Refusal(`${file}: the text is not UTF-8, as JSON has to be.`);
  }
}

/** `, line 3, column 5`, from the position the JavaScript engine names, or nothing where it names none. */
function placeOf(error: unknown, text: string): string {
  const position = /at position (\d+)/.exec(String(error))?.[1];
  const atEnd = /end of JSON/.test(String(error));
  if (position === undefined && !atEnd) return '';
  const before = text.slice(0, position === undefined ? text.length : Number(position)).split('\n');
  return `, line ${before.length}, column ${before[before.length - 1].length + 1}`;
}

/** Level by level, not by recursion: a hostile file must not exhaust the stack. */
function nestsDeeper(value: unknown, deepest: number): boolean {
  let level = isNested(value) ? [value] : [];
  for (let depth = 1; level.length > 0; depth++) {
    if (depth > deepest) return true;
    const next: object[] = [];
    for (const item of level) {
      // Millions of points are arrays of numbers: no list of their values is made.
      for (const inner of Array.isArray(item) ? item : Object.values(item)) {
        if (isNested(inner)) next.push(inner);
      }
    }
    level = next;
  }
  return false;
}

function isNested(value: unknown): value is object {
  return typeof value === 'object' && value !== null;
}
