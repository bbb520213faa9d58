/**
 * The house has no circles: no file and no folder imports, by whatever way round, itself; the words and the rules stand
 * on nothing of ours; and what must run in a browser takes nothing from Node. Read from the imports as they are written.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '../..');
const files = ['src', 'rules', 'shared'].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name) && !name.endsWith('.d.ts'))
    .map((name) => join(folder, name)),
);

/** What each file names in its imports and exports, also those that are loaded when needed. */
const named = new Map(
  files.map((file) => {
    const text = readFileSync(join(root, file), 'utf8').replace(/\/\*[\s\S]*?\*\//g, '');
    return [file, [...text.matchAll(/(?:\bfrom\s*|\bimport\s*\(?\s*)'([^']+)'/g)].map(([, name]) => name)];
  }),
);

const imports = new Map(
  [...named].map(([file, names]) => [
    file,
    names
      .filter((name) => name.startsWith('.') && name.endsWith('.js'))
      .map((name) => relative(root, resolve(root, dirname(file), name.replace(/\.js$/, '.ts'))))
      .map((target) => (files.includes(target) ? target : target.replace(/\.ts$/, '.tsx'))),
  ]),
);

/** The first way found that leads back to where it began, or null. */
function circleIn(arrows: ReadonlyMap<string, readonly string[]>): string[] | null {
  const done = new Set<string>();
  const way: string[] = [];
  const walk = (here: string): string[] | null => {
    if (way.includes(here)) return [...way.slice(way.indexOf(here)), here];
    if (done.has(here)) return null;
    way.push(here);
    for (const next of arrows.get(here) ?? []) {
      const circle = walk(next);
      if (circle) return circle;
    }
    way.pop();
    done.add(here);
    return null;
  };
  for (const start of arrows.keys()) {
    const circle = walk(start);
    if (circle) return circle;
  }
  return null;
}

it('reads the imports', () => {
  expect(files.length).toBeGreaterThan(200);
  expect(imports.get('src/lint/index.ts')).toContain('shared/finding.ts');
  expect(
    circleIn(
      new Map([
        ['a', ['b']],
        ['b', ['c']],
        ['c', ['b']],
      ]),
    ),
  ).toEqual(['b', 'c', 'b']);
  for (const targets of imports.values()) for (const target of targets) expect(files).toContain(target);
});

it('has no circle between files', () => {
  expect(circleIn(imports)).toBeNull();
});

/** A folder's `index.ts` is its door, which puts together what lies in and below it: it stands for itself. So does `node.ts`. */
function roomOf(file: string): string {
  return file.endsWith('/index.ts') || file === 'src/node.ts' ? file : dirname(file);
}

it('has no circle between folders', () => {
  const folders = new Map<string, string[]>();
  for (const [file, targets] of imports) {
    const from = roomOf(file);
    const to = targets.map(roomOf).filter((folder) => folder !== from);
    folders.set(from, [...new Set([...(folders.get(from) ?? []), ...to])]);
  }
  expect(circleIn(folders)).toBeNull();
});

describe('stands in one direction', () => {
  it('shared/ imports nothing of ours, rules/ only shared/', () => {
    for (const [file, targets] of imports) {
      if (file.startsWith('shared/'))
        expect(targets.filter((target) => !target.startsWith('shared/'))).toEqual([]);
      if (file.startsWith('rules/'))
        expect(
          targets.filter((target) => !/^(?:shared|rules)\//.test(target)),
          file,
        ).toEqual([]);
    }
  });

  it('no file outside the command line, the library and the file layer imports from Node', () => {
    const mayUseNode = /^src\/(?:cli\/|library\/|files\.ts|node\.ts|pool\.ts)/;
    for (const [file, names] of named)
      if (!mayUseNode.test(file))
        expect(
          names.filter((name) => name.startsWith('node:')),
          file,
        ).toEqual([]);
  });
});
