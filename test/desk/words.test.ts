/**
 * Sentences of the core are worded for the command line; on the page nothing of that may be left. Held against every sentence
 * that stands in the sources, so that a new one cannot be forgotten.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { fieldNames, onPage } from '../../src/desk/words.js';
import { root } from './desk-page.js';

/** What only the command line says itself, or is written into files, where it stays. */
const notOnThePage = /^src\/(cli|library|setup|sheet|desk)\/|^src\/(files|node)\.ts$/;

const sources = ['rules', 'shared', 'src'].flatMap((room) =>
  readdirSync(join(root, room), { recursive: true, encoding: 'utf8' })
    .map((path) => `${room}/${path}`)
    .filter((path) => path.endsWith('.ts') && !notOnThePage.test(path)),
);

/** Strings and templates, each on the line on which it stands; comments are no sentences. */
function sentences(path: string): string[] {
  const code = readFileSync(join(root, path), 'utf8').replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '');
  return [...code.matchAll(/'(?:[^'\\\n]|\\.)*'|`(?:[^`\\]|\\.)*`/g)].map(([text]) => text.slice(1, -1));
}

const typed = /(?<![\w-])--[a-z]|\blinewright (?:check|mend|rows|plan|resume|align|convert|sheet|paper)\b/;
/** Said of a mend in general, with `linewright mend --help`. */
const general = /^(Leaves out dots|Reverses a line)/;

it('leaves no command and no option in any sentence of the core', () => {
  const all = sources.flatMap(sentences).filter((text) => typed.test(text) && !general.test(text));
  expect(all.length).toBeGreaterThan(20);
  const left = all.map(onPage).filter((text) => typed.test(text.replace(/--reshape '\}put/, '')));
  expect(left).toEqual([]);
});

it('names fields by what stands on the page', () => {
  const page = readdirSync(join(root, 'src/desk'))
    .filter((name) => name.endsWith('.tsx'))
    .map((name) => readFileSync(join(root, 'src/desk', name), 'utf8'))
    .join('\n');
  for (const name of Object.values(fieldNames)) expect(page).toContain(name);
});

it('keeps a length in one line, and what else is said as it is', () => {
  expect(onPage('It is 9 1/2 in (241.3 mm) wide. Give its size with --height or --width.')).toBe(
    'It is 9\u00a01/2\u00a0in (241.3\u00a0mm) wide. Give its size with \u201cHeight\u201d or \u201cWidth\u201d.',
  );
  expect(onPage('Give that of your machine, as in --throat 18in, to have the passes worked out.')).toBe(
    'Give that of your machine in \u201cThroat\u201d to have the passes worked out.',
  );
  expect(onPage('my--height.svg: nothing to stitch')).toBe('my--height.svg: nothing to stitch');
});
