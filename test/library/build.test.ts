/** A studio's files become a library: every one accounted for, and only what changed done again. */
import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { appendFile, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { promisify } from 'node:util';
import { Ajv } from 'ajv';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import schema from '../../shared/library.schema.json' with { type: 'json' };
import type { Entry, LibraryIndex } from '../../src/library/contents/index-file.js';
import { type Generated, generate } from './generated.js';

const program = join(import.meta.dirname, '../../dist/main.js');
const sayMemory = new URL('./say-memory.mjs', import.meta.url).href;

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'linewright-library-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

interface Run {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

async function run(...args: string[]): Promise<Run> {
  return runWith([], args);
}

async function runWith(nodeOptions: readonly string[], args: readonly string[]): Promise<Run> {
  try {
    const options = { cwd: folder, maxBuffer: 1e9 };
    const words = [...nodeOptions, program, 'library', ...args];
    return { code: 0, ...(await promisify(execFile)(process.execPath, words, options)) };
  } catch (error) {
    return error as Run;
  }
}

async function indexOf(library: string): Promise<LibraryIndex> {
  return JSON.parse(await readFile(join(folder, library, 'index.json'), 'utf8')) as LibraryIndex;
}

/** What each thread of a run held at its first and at its last account, bytes. */
function accountsOf({ stderr }: Run): { thread: string; first: number; last: number }[] {
  const accounts = [...stderr.matchAll(/^thread (\d+) holds (\d+)$/gm)];
  const threads = [...new Set(accounts.map(([, thread]) => thread))];
  return threads.map((thread) => {
    const held = accounts.filter(([, of]) => of === thread).map(([, , bytes]) => Number(bytes));
    return { thread, first: held[0], last: held.at(-1)! };
  });
}

/** Every file of a folder with the hash of its bytes. */
async function contents(library: string): Promise<Map<string, string>> {
  const files = await readdir(join(folder, library), { recursive: true, withFileTypes: true });
  const hashes = new Map<string, string>();
  for (const file of files.filter((entry) => entry.isFile())) {
    const path = join(file.parentPath, file.name);
    const bytes = await readFile(path);
    hashes.set(relative(join(folder, library), path), createHash('sha256').update(bytes).digest('hex'));
  }
  return new Map([...hashes].sort());
}

describe('a studio’s files', () => {
  let made: Generated;
  let index: LibraryIndex;
  let first: Run;
  const entry = (file: string): Entry => index.entries.find(({ source }) => source === `../studio/${file}`)!;

  beforeAll(async () => {
    // So many that every odd name is among them.
    made = await generate(join(folder, 'studio'), 250, 1);
    const args = ['build', 'studio', '--out', 'library'];
    first = await runWith(['--expose-gc', '--import', sayMemory], args);
    // Broken files among them: the worst counts.
    expect(first.code, first.stderr).toBe(2);
    index = await indexOf('library');
  }, 300_000);

  it('accounts for every one of them', async () => {
    expect(index.entries.map(({ source }) => source)).toEqual(
      made.files.map((file) => `../studio/${file}`).sort(),
    );
    const unreadable = made.files.filter((file) => entry(file).status === 'unreadable');
    expect(new Set(unreadable)).toEqual(new Set(made.broken));
    for (const file of unreadable) expect(entry(file).reason).toContain(file.split('/').at(-1));
    const names = index.entries.flatMap(({ motif }) => (motif ? [motif.name.toLowerCase()] : []));
    expect(new Set(names).size).toBe(made.files.length - made.broken.length);
    const { code, stdout } = await run('check', 'library');
    expect(code, stdout).toBe(0);
  });

  it('writes an index that holds to its schema (JSON Schema draft 7, by ajv)', () => {
    const isIndex = new Ajv({ allowUnionTypes: true }).compile(schema);
    expect(isIndex(index), JSON.stringify(isIndex.errors)).toBe(true);
    // A schema that lets anything through would pass too.
    const [first, ...rest] = index.entries;
    expect(isIndex({ ...index, entries: [{ ...first, motif: undefined, status: 'clean' }, ...rest] })).toBe(
      false,
    );
  });

  it('keeps of a motif that is done its entry in the index and no more', () => {
    const accounts = accountsOf(first);
    expect(accounts.map(({ thread }) => thread)).toContain('0');
    // The entries of a hundred motifs come to under 1 MB; one page of results kept for each, 60 kB, to 6.
    for (const { thread, first, last } of accounts)
      expect(last - first, `thread ${thread}`).toBeLessThan(3e6);
  });

  it('finds each line that is there twice, and no other', () => {
    const found = new Set(index.entries.flatMap(({ motif }) => (motif?.same ? [motif.name] : [])));
    const known = new Set<string>();
    for (const files of made.same) {
      const names = files.map((file) => entry(file).motif!.name);
      for (const [i, name] of names.entries()) {
        known.add(name);
        const others = entry(files[i]).motif!.same!.map((same) => same.name);
        expect(others.sort()).toEqual(names.filter((other) => other !== name).sort());
      }
    }
    expect(found).toEqual(known);
  });

  it('does nothing again where nothing changed, and only what did otherwise', async () => {
    const before = await contents('library');
    const again = await run('build', 'studio', '--out', 'library', '--json');
    expect(JSON.parse(again.stdout)).toMatchObject({ done: 0, unchanged: 250 });
    expect(await contents('library')).toEqual(before);
    const changed = made.files[0];
    await appendFile(join(folder, 'studio', changed), '<!-- changed -->');
    const third = await run('build', 'studio', '--out', 'library', '--json');
    expect(JSON.parse(third.stdout)).toMatchObject({ done: 1, unchanged: 249 });
    // Another setting changes the motifs themselves, so it is all done again: shown on a few files for time's sake.
    await generate(join(folder, 'few files'), 3, 3);
    await run('build', 'few files', '--out', 'few');
    const other = await run('build', 'few files', '--out', 'few', '--spi', '9', '--json');
    expect(JSON.parse(other.stdout).unchanged).toBe(0);
  }, 120_000);

  it('makes good what was lost or spoilt among its files, one byte of one of them too', async () => {
    const { motif } = entry(made.files[1]);
    await rm(join(folder, 'library', motif!.files[0].path));
    await writeFile(join(folder, 'library', motif!.files[2].path), 'spoilt');
    const svg = join(folder, 'library', motif!.files[1].path);
    const whole = await readFile(svg);
    await writeFile(svg, whole.with(whole.length - 20, 0x20));
    const check = await run('check', 'library');
    expect(check.code).toBe(1);
    expect(check.stdout).toContain(motif!.files[0].path);
    expect(check.stdout).toContain(motif!.files[2].path);
    expect(check.stdout).toContain(`${motif!.files[1].path}: changed`);
    await run('build', 'studio', '--out', 'library');
    expect((await run('check', 'library')).code).toBe(0);
  }, 120_000);
});

describe('builds at the same time', () => {
  it('do as one', async () => {
    await generate(join(folder, 'some files'), 12, 4);
    await run('build', 'some files', '--out', 'alone');
    await Promise.all([
      run('build', 'some files', '--out', 'together'),
      run('build', 'some files', '--out', 'together'),
      run('build', 'some files', '--out', 'together'),
    ]);
    expect(await contents('together')).toEqual(await contents('alone'));
  }, 120_000);
});

describe('sources and the owner’s own', () => {
  it('keeps tags and notes over a rebuild, and entries of sources not named this time', async () => {
    await generate(join(folder, 'first'), 3, 5);
    await generate(join(folder, 'second'), 3, 6);
    await run('build', 'first', '--out', 'mine');
    const { motif } = (await indexOf('mine')).entries.find((entry) => entry.motif)!;
    await run('tag', 'mine', motif!.name, '--add', 'baby quilts', '--note', 'Ask Maren <first>');
    const tags = await readFile(join(folder, 'mine', 'tags.json'), 'utf8');
    await run('build', 'second', '--out', 'mine');
    expect(await readFile(join(folder, 'mine', 'tags.json'), 'utf8')).toBe(tags);
    expect((await indexOf('mine')).entries).toHaveLength(6);
    expect(await readFile(join(folder, 'mine', 'index.html'), 'utf8')).toContain('Ask Maren &lt;first&gt;');
    const { stdout } = await run('list', 'mine', '--tag', 'baby quilts', '--json');
    expect(JSON.parse(stdout).motifs.map(({ name }: { name: string }) => name)).toEqual([motif!.name]);
    await run('build', 'second', '--out', 'mine', '--prune');
    expect((await indexOf('mine')).entries).toHaveLength(3);
  }, 120_000);

  it('leaves the originals as they were', async () => {
    await generate(join(folder, 'originals'), 12, 7);
    const before = await contents('originals');
    await run('build', 'originals', '--out', join('originals', 'library'));
    const after = await contents('originals');
    for (const [file, hash] of before) expect(after.get(file)).toBe(hash);
    // The library's own motifs are not taken for sources the second time.
    const again = await run('build', 'originals', '--out', join('originals', 'library'), '--json');
    expect(JSON.parse(again.stdout)).toMatchObject({ done: 0, unchanged: 12 });
  }, 120_000);

  it('stops where it cannot write, and loses nothing', async () => {
    await generate(join(folder, 'blocked'), 3, 9);
    await run('build', 'blocked', '--out', 'whole');
    const { motif } = (await indexOf('whole')).entries.find((entry) => entry.motif)!;
    await run('build', 'blocked', '--out', 'stopped');
    const inTheWay = join(folder, 'stopped', motif!.files[1].path);
    await rm(inTheWay);
    await mkdir(inTheWay);
    const stopped = await run('build', 'blocked', '--out', 'stopped');
    expect(stopped.code).toBe(2);
    expect(stopped.stderr).toContain(`${motif!.files[1].path}: cannot be written, this is a folder.`);
    await rm(inTheWay, { recursive: true });
    await run('build', 'blocked', '--out', 'stopped');
    expect(await contents('stopped')).toEqual(await contents('whole'));
  }, 120_000);

  it('refuses an index that leads out of the library, and touches nothing', async () => {
    await generate(join(folder, 'trusted'), 3, 8);
    await run('build', 'trusted', '--out', 'spoilt');
    await writeFile(join(folder, 'precious.txt'), 'mine');
    const path = join(folder, 'spoilt', 'index.json');
    const text = await readFile(path, 'utf8');
    await writeFile(path, text.replace(/"motifs\/[^"]*\.svg"/, '"../precious.txt"'));
    const again = await run('build', 'trusted', '--out', 'spoilt', '--spi', '9', '--prune');
    expect(again.code).toBe(2);
    expect(again.stderr).toMatch(/index\.json is damaged: "entries\/\d+\/motif\/files\/1\/path" must match/);
    expect(await readFile(join(folder, 'precious.txt'), 'utf8')).toBe('mine');
    await writeFile(path, text.slice(0, -100));
    expect((await run('list', 'spoilt')).stderr).toMatch(
      /index\.json is damaged: it is cut short or no JSON;/,
    );
    await writeFile(path, text);
    await writeFile(join(folder, 'spoilt', 'tags.json'), '{"swell": {"tags": "blue"}}');
    expect((await run('list', 'spoilt')).stderr).toMatch(
      /tags\.json cannot be read: "swell\/tags" must be array;/,
    );
    expect(await readFile(join(folder, 'spoilt', 'tags.json'), 'utf8')).toContain('blue');
  }, 120_000);

  it('refuses a folder with other things in it, and a source that is not there', async () => {
    await writeFile(join(folder, 'keep.txt'), 'mine');
    const strange = await run('build', 'first', '--out', '.');
    expect(strange.code).toBe(2);
    expect(strange.stderr).toMatch(/holds other things/);
    expect(await readdir(folder)).not.toContain('motifs');
    const missing = await run('build', 'nowhere', '--out', 'none');
    expect(missing.code).toBe(2);
    expect(missing.stderr).toMatch(/nowhere: there is no such file or folder/);
    await mkdir(join(folder, 'texts'));
    await writeFile(join(folder, 'texts', 'read me.txt'), 'no motif');
    const without = await run('build', 'texts', '--out', 'none');
    expect(without.code).toBe(2);
    expect(without.stderr).toMatch(/^There is no SVG, DXF or motif file in texts \(1 txt there\)\.$/m);
    expect(await readdir(folder)).not.toContain('none');
  });

  it('names each file that has errors or cannot be read, also where nothing was done again', async () => {
    const svg = (inside: string) =>
      `<svg xmlns="http://www.w3.org/2000/svg" width="9in" height="4in" viewBox="0 0 9 4">${inside}</svg>`;
    const lines = '<path fill="none" stroke="black" d="M0 2L4 1M5 1L9 2"/>';
    await mkdir(join(folder, 'faulty'));
    await writeFile(join(folder, 'faulty', 'a-name-as-long-as-some-designers-like-them.svg'), svg(lines));
    await writeFile(join(folder, 'faulty', 'blank.svg'), svg(''));
    await writeFile(join(folder, 'faulty', 'empty.svg'), '');
    for (const done of [3, 0]) {
      const { code, stdout, stderr } = await run('build', 'faulty', '--out', 'faults');
      expect(code).toBe(2);
      expect(stdout).toContain(`\n${done} done now`);
      const told = stdout.split('\n').filter((line) => line.startsWith('faulty'));
      // Not a terminal: a line for each that was done.
      expect(told).toHaveLength(Math.max(1, done));
      expect(told).toContainEqual(
        expect.stringMatching(/^faulty\/a-name-.*\.svg: errors \(one-stroke\) -> a-name-/),
      );
      expect(stderr.match(/^.*faulty.*/gm)).toEqual([
        'faulty/blank.svg: there is nothing to stitch in it.',
        'faulty/empty.svg is empty: there is nothing in it to read.',
      ]);
    }
    expect((await run('list', 'faults', '--name', 'x')).stdout).toBe('No motif suits.\n');
    await mkdir(join(folder, 'blanks'));
    await writeFile(join(folder, 'blanks', 'blank.svg'), svg(''));
    await run('build', 'blanks', '--out', 'nothing');
    expect((await run('list', 'nothing')).stdout).toBe(
      'There is no motif in it: 1 file could not be read.\n',
    );
    // The name, which `tag` needs, is told whole.
    const [head, row] = (await run('list', 'faults')).stdout.split('\n');
    expect(head).toMatch(/^name {2,}designer {2,}height {2,}rows {2,}layout {2,}open/);
    expect(row).toBe('a-name-as-long-as-some-designers-like-them');
  }, 120_000);
});
