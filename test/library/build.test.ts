/**
 * A studio's thousand files become a library: every one accounted for, only what changed done again, and a build
 * killed at any moment and finished equals an undisturbed one byte for byte.
 */
import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { appendFile, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { promisify } from 'node:util';
import { Ajv } from 'ajv';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import schema from '../../shared/library.schema.json' with { type: 'json' };
import type { Entry, LibraryIndex } from '../../src/library/contents/index-file.js';
import { type Generated, generate, random } from './generated.js';

const program = join(import.meta.dirname, '../../dist/main.js');
/** Has a process say its greatest memory, in KiB, when it ends. */
const sayMemory = `data:text/javascript,process.on('exit',()=>process._rawDebug('maxRSS '+process.resourceUsage().maxRSS))`;

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'linewright-library-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

function start(...args: string[]): ChildProcess {
  return spawn(process.execPath, [program, 'library', ...args], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'ignore'],
  });
}

async function run(...args: string[]): Promise<{ code: number; stdout: string; stderr: string }> {
  try {
    const options = { cwd: folder, maxBuffer: 1e9 };
    return {
      code: 0,
      ...(await promisify(execFile)(
        process.execPath,
        ['--import', sayMemory, program, 'library', ...args],
        options,
      )),
    };
  } catch (error) {
    return error as { code: number; stdout: string; stderr: string };
  }
}

async function indexOf(library: string): Promise<LibraryIndex> {
  return JSON.parse(await readFile(join(folder, library, 'index.json'), 'utf8')) as LibraryIndex;
}

/** The most memory a run held at once, in MB. */
function megabytes({ stderr }: { stderr: string }): number {
  return Number(/maxRSS (\d+)/.exec(stderr)?.[1]) / 1024;
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

describe('a thousand files', () => {
  let made: Generated;
  let index: LibraryIndex;
  let mostMb: number;
  const entry = (file: string): Entry =>
    index.entries.find(({ source }) => source === `../thousand/${file}`)!;

  beforeAll(async () => {
    made = await generate(join(folder, 'thousand'), 1000, 1);
    const first = await run('build', 'thousand', '--out', 'library');
    // Broken files among them: the worst counts.
    expect(first.code, first.stderr).toBe(2);
    mostMb = megabytes(first);
    index = await indexOf('library');
  }, 300_000);

  it('accounts for every one of them', async () => {
    expect(index.entries.map(({ source }) => source)).toEqual(
      made.files.map((file) => `../thousand/${file}`).sort(),
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

  it('takes no more memory than a quarter of them do, but for the index', async () => {
    await generate(join(folder, 'quarter'), 250, 1);
    const quarterMb = megabytes(await run('build', 'quarter', '--out', 'quarter library'));
    // One page of results kept for each motif, 60 kB, would come to 45 MB.
    expect(mostMb - quarterMb).toBeLessThan(30);
  }, 120_000);

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
    const again = await run('build', 'thousand', '--out', 'library', '--json');
    expect(JSON.parse(again.stdout)).toMatchObject({ done: 0, unchanged: 1000 });
    expect(await contents('library')).toEqual(before);
    const changed = made.files[0];
    await appendFile(join(folder, 'thousand', changed), '<!-- changed -->');
    const third = await run('build', 'thousand', '--out', 'library', '--json');
    expect(JSON.parse(third.stdout)).toMatchObject({ done: 1, unchanged: 999 });
    // Another setting changes the motifs themselves, so it is all done again: shown on a few files for time's sake.
    await run('build', join('thousand', 'folder 3'), '--out', 'few');
    const other = await run('build', join('thousand', 'folder 3'), '--out', 'few', '--spi', '9', '--json');
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
    await run('build', 'thousand', '--out', 'library');
    expect((await run('check', 'library')).code).toBe(0);
  }, 120_000);
});

describe('an interrupted build', () => {
  it('killed at 12 moments and finished, equals an undisturbed one byte for byte', async () => {
    await generate(join(folder, 'some'), 60, 2);
    const next = random(9);
    const since = Date.now();
    await run('build', 'some', '--out', 'undisturbed');
    const wholeMs = Date.now() - since;
    for (let kill = 0; kill < 12; kill++) {
      const build = start('build', 'some', '--out', 'killed');
      const ended = once(build, 'exit');
      // Spread over starting, working and finishing, whatever the machine's speed.
      await Promise.race([pause(next() * wholeMs * 1.1), ended]);
      build.kill('SIGKILL');
      await ended;
      await expectNothingHalfWritten('killed');
      // Begin anew now and then, so that every stage of a build is met.
      if (kill % 5 === 4) await rm(join(folder, 'killed'), { recursive: true, force: true });
    }
    await run('build', 'some', '--out', 'killed');
    expect(await contents('killed')).toEqual(await contents('undisturbed'));
  }, 300_000);

  it('two at once in one folder do as one', async () => {
    await generate(join(folder, 'few files'), 40, 4);
    await run('build', 'few files', '--out', 'alone');
    await Promise.all([
      run('build', 'few files', '--out', 'together'),
      run('build', 'few files', '--out', 'together'),
      run('build', 'few files', '--out', 'together'),
    ]);
    expect(await contents('together')).toEqual(await contents('alone'));
  }, 120_000);
});

describe('sources and the owner’s own', () => {
  it('keeps tags and notes over a rebuild, and entries of sources not named this time', async () => {
    await generate(join(folder, 'first'), 10, 5);
    await generate(join(folder, 'second'), 10, 6);
    await run('build', 'first', '--out', 'mine');
    const { motif } = (await indexOf('mine')).entries.find((entry) => entry.motif)!;
    await run('tag', 'mine', motif!.name, '--add', 'baby quilts', '--note', 'Ask Maren <first>');
    const tags = await readFile(join(folder, 'mine', 'tags.json'), 'utf8');
    await run('build', 'second', '--out', 'mine');
    expect(await readFile(join(folder, 'mine', 'tags.json'), 'utf8')).toBe(tags);
    expect((await indexOf('mine')).entries).toHaveLength(20);
    expect(await readFile(join(folder, 'mine', 'index.html'), 'utf8')).toContain('Ask Maren &lt;first&gt;');
    const { stdout } = await run('list', 'mine', '--tag', 'baby quilts', '--json');
    expect(JSON.parse(stdout).motifs.map(({ name }: { name: string }) => name)).toEqual([motif!.name]);
    await run('build', 'second', '--out', 'mine', '--prune');
    expect((await indexOf('mine')).entries).toHaveLength(10);
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
    await generate(join(folder, 'blocked'), 10, 9);
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
    await generate(join(folder, 'trusted'), 10, 8);
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
    // The name, which `tag` needs, is told whole.
    const [head, row] = (await run('list', 'faults')).stdout.split('\n');
    expect(head).toMatch(/^name {2,}designer {2,}height {2,}rows {2,}layout {2,}open/);
    expect(row).toBe('a-name-as-long-as-some-designers-like-them');
  }, 120_000);
});

/** Whatever lies there under its final name is whole: JSON parses, pictures and pages have their ends. */
async function expectNothingHalfWritten(library: string): Promise<void> {
  const files = await readdir(join(folder, library), { recursive: true }).catch(() => []);
  for (const file of files) {
    const path = join(folder, library, file);
    if (/(^|\/)\.[0-9a-f]{16}\.part$/.test(file)) continue;
    if (file.endsWith('.json')) JSON.parse(await readFile(path, 'utf8'));
    if (file.endsWith('.html')) expect(await readFile(path, 'utf8')).toMatch(/<\/html>\n$/);
    if (file.endsWith('.svg')) expect(await readFile(path, 'utf8')).toMatch(/<\/svg>\s*$/);
    if (file.endsWith('.png'))
      expect((await readFile(path)).subarray(-8).toString('latin1')).toBe('IEND\xaeB`\x82');
  }
}
