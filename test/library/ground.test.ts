/**
 * Nothing of the owner's is lost: however sources and library lie to one another, and whatever the disk refuses, every
 * original and every file of somebody's own stays as it was, to the byte.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  appendFileSync,
  linkSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { program, type Run, waveSvg } from '../cli/run.js';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'linewright-ground-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Where the disk stops, as `disk.mjs` has it: at the nth step that matches, the first where nothing is said. */
interface Stop {
  readonly at: string;
  readonly nth?: number;
}

function library(words: readonly string[], stop?: Stop & { does: string }): Run & { signal: string | null } {
  const preload = stop ? ['--import', new URL('./disk.mjs', import.meta.url).href] : [];
  const { status, signal, stdout, stderr } = spawnSync(
    process.execPath,
    [...preload, program, 'library', ...words],
    {
      cwd: folder,
      env: {
        PATH: process.env.PATH,
        ...(stop && { DISK_STOP: stop.at, DISK_NTH: String(stop.nth ?? 1), DISK_DOES: stop.does }),
      },
      encoding: 'utf8',
      timeout: 40_000,
    },
  );
  return { code: status, signal, stdout, stderr };
}

/** Every stage of a build, in their order; one that is stopped at each in turn comes a stage farther each time. */
const stages: readonly Stop[] = [
  { at: 'mkdir .*/lib$' },
  { at: 'writeFile lib/.*part' },
  { at: 'link lib/build.lock' },
  { at: 'rename lib/index.json' },
  { at: 'mkdir lib/motifs' },
  { at: 'appendFile lib/build.journal' },
  { at: 'writeFile motifs/' },
  { at: 'rename motifs/' },
  // The first motif is noted, then the last of three.
  { at: 'appendFile lib/build.journal', nth: 2 },
  { at: 'appendFile lib/build.journal', nth: 4 },
  { at: 'rename lib/linewright.html' },
  { at: 'rename lib/index.json' },
  { at: 'rename lib/index.html' },
];

function put(path: string, text = waveSvg): void {
  const whole = join(folder, path);
  mkdirSync(join(whole, '..'), { recursive: true });
  writeFileSync(whole, text);
}

/** Another drawing for every number. */
function drawing(n: number): string {
  return waveSvg.replace('L25 0', `L${20 + (n % 40)} ${n % 7}`);
}

/** What every file below a folder holds, links by where they lead. */
function contents(below: string): Map<string, string> {
  const all = new Map<string, string>();
  const look = (here: string) => {
    for (const name of readdirSync(here).sort()) {
      const path = join(here, name);
      const found = lstatSync(path);
      if (found.isDirectory()) look(path);
      else if (found.isFile())
        all.set(relative(below, path), createHash('sha256').update(readFileSync(path)).digest('hex'));
    }
  };
  look(below);
  return all;
}

/** No trace of the program's inside, one line at the least, and never a crash by signal. */
function expectSentence({ code, stderr }: Run): void {
  expect(code).toBe(2);
  expect(stderr).not.toMatch(/^\s+at |node:internal|Error:/m);
  expect(stderr.trim()).not.toBe('');
}

describe('originals', () => {
  it('stay as they were in a folder called motifs below --out, and so does a motifs folder of somebody’s own', () => {
    put('m/motifs/swell.svg', drawing(1));
    put('m/motifs/kelp.svg', drawing(2));
    const before = contents(folder);
    expectSentence(library(['build', 'm/motifs', '--out', 'm']));
    expect(contents(folder)).toEqual(before);
    put('elsewhere/swell.svg', drawing(3));
    expectSentence(library(['build', 'elsewhere', '--out', 'm']));
    expect(readFileSync(join(folder, 'm/motifs/swell.svg'), 'utf8')).toBe(drawing(1));
  });

  it('stay as they were where the library’s motifs folder was made a link to them', () => {
    put('drawn/swell.svg', drawing(1));
    expect(library(['build', 'drawn', '--out', 'lib']).code).toBe(0);
    rmSync(join(folder, 'lib/motifs'), { recursive: true });
    symlinkSync('../drawn', join(folder, 'lib/motifs'));
    const before = contents(join(folder, 'drawn'));
    expectSentence(library(['build', 'drawn', '--out', 'lib', '--spi', '9']));
    expect(contents(join(folder, 'drawn'))).toEqual(before);
  });

  it('a file of somebody’s own in the motifs folder is not written over: the motif gets another name', () => {
    put('drawn/swell.svg', drawing(1));
    library(['build', 'drawn', '--out', 'lib']);
    put('lib/motifs/Kelp.svg', 'precious');
    put('drawn/kelp.svg', drawing(2));
    library(['build', 'drawn', '--out', 'lib']);
    expect(readFileSync(join(folder, 'lib/motifs/Kelp.svg'), 'utf8')).toBe('precious');
    expect(readdirSync(join(folder, 'lib/motifs'))).toContain('kelp-2.svg');
  });

  it('a page of somebody’s own is not written over', () => {
    put('drawn/swell.svg', drawing(1));
    put('lib/index.html', 'my page');
    expectSentence(library(['build', 'drawn', '--out', 'lib']));
    expect(readdirSync(join(folder, 'lib'))).toEqual(['index.html']);
    library(['build', 'drawn', '--out', 'other']);
    writeFileSync(join(folder, 'other/index.html'), 'my page');
    put('drawn/kelp.svg', drawing(2));
    const before = contents(folder);
    expectSentence(library(['build', 'drawn', '--out', 'other']));
    expect(contents(folder)).toEqual(before);
  });

  it('a library is no source: not its own motifs, not through a link, not another one below the source', () => {
    for (let n = 0; n < 5; n++) put(`studio/m${n}.svg`, drawing(n));
    library(['build', 'studio', '--out', 'studio/lib']);
    symlinkSync('studio', join(folder, 'link'));
    const again = library(['build', 'link', '--out', 'studio/lib', '--json']);
    expect(JSON.parse(again.stdout)).toMatchObject({ done: 0, unchanged: 5 });
    symlinkSync('lib', join(folder, 'studio/way in'));
    const linked = library(['build', 'studio', '--out', 'studio/way in', '--json']);
    expect(JSON.parse(linked.stdout)).toMatchObject({ done: 0, unchanged: 5 });
    expectSentence(library(['build', 'studio/lib/motifs', '--out', 'studio/lib']));
    expectSentence(library(['build', 'studio/lib/motifs/m1.svg', '--out', 'studio/lib']));
    const other = library(['build', 'studio', '--out', 'other', '--json']);
    expect(JSON.parse(other.stdout)).toMatchObject({
      done: 5,
      libraries: ['studio/lib'],
    });
  });

  it('stay as they were in any arrangement of sources and library, and building again changes nothing', () => {
    const anywhere = fc.constantFrom('a', 'a/motifs', 'c', 'link', 'a/lib');
    const below = fc.constantFrom('a', 'a/motifs', 'c', 'a/b', 'a/lib/motifs');
    // Mostly one name, so that outputs would often meet a file that is there.
    const name = fc.oneof(
      fc.constant('swell.svg'),
      fc.constantFrom('Swell.svg', 'index.html', 'tags.json', 'kelp.svg', 'build.lock'),
    );
    const arrangement = fc.record({
      files: fc.array(fc.record({ in: below, name }), { minLength: 1, maxLength: 8 }),
      link: fc.constantFrom('a', 'a/b', 'c', 'nowhere', 'a/lib'),
      sources: fc.uniqueArray(anywhere, { minLength: 1, maxLength: 3 }),
      out: anywhere,
      secondOut: anywhere,
      hard: fc.boolean(),
    });
    fc.assert(
      fc.property(arrangement, ({ files, link, sources, out, secondOut, hard }) => {
        rmSync(folder, { recursive: true });
        for (const place of ['a/b', 'c']) mkdirSync(join(folder, place), { recursive: true });
        symlinkSync(link, join(folder, 'link'));
        files.forEach((file, n) => {
          put(`${file.in}/${file.name}`, file.name.endsWith('.svg') ? drawing(n) : `somebody's ${n}`);
        });
        if (hard && files[0].name.endsWith('.svg'))
          linkSync(join(folder, files[0].in, files[0].name), join(folder, 'c/hard.svg'));
        const before = contents(folder);
        for (const to of [out, out, secondOut]) {
          const { code, stderr } = library(['build', ...sources, '--out', to]);
          expect([0, 1, 2]).toContain(code);
          expect(stderr).not.toMatch(/^\s+at |node:internal/m);
        }
        const after = contents(folder);
        for (const [path, hash] of before) expect(after.get(path), path).toBe(hash);
      }),
      { seed: 8, numRuns: 10 },
    );
  }, 300_000);
});

describe('a disk that takes nothing more', () => {
  it('ends a build in one sentence at whichever write it comes, and with room again it is finished', () => {
    for (let n = 0; n < 3; n++) put(`drawn/m${n}.svg`, drawing(n));
    expect(library(['build', 'drawn', '--out', 'whole']).code).toBe(0);
    stages.forEach((stage, n) => {
      const does = ['ENOSPC', 'EROFS', 'EACCES'][n % 3];
      const run = library(['build', 'drawn', '--out', 'lib'], { ...stage, does });
      expectSentence(run);
      const left = [...contents(folder).keys()].filter((path) => path.startsWith('lib/'));
      expect(left.filter((path) => /\.part$|build\.lock/.test(path))).toEqual([]);
    });
    expect(library(['build', 'drawn', '--out', 'lib']).code).toBe(0);
    expect(contents(join(folder, 'lib'))).toEqual(contents(join(folder, 'whole')));
  }, 120_000);

  it('leaves a library as it was where a tag or a rebuild cannot be written, and lets it be read', () => {
    for (let n = 0; n < 2; n++) put(`drawn/m${n}.svg`, drawing(n));
    library(['build', 'drawn', '--out', 'lib']);
    appendFileSync(join(folder, 'drawn/m0.svg'), '<!-- changed -->');
    const before = contents(join(folder, 'lib'));
    for (const does of ['ENOSPC', 'EROFS']) {
      for (const words of [
        ['tag', 'lib', 'm0', '--add', 'tide'],
        ['build', 'drawn', '--out', 'lib'],
      ]) {
        expectSentence(library(words, { at: '', does }));
        expect(contents(join(folder, 'lib'))).toEqual(before);
      }
      expect(library(['list', 'lib'], { at: '', does }).code).toBe(0);
      expect(library(['check', 'lib'], { at: '', does }).code).toBe(0);
    }
    // The tags are whole also where the page could no longer be written, and the next one shows them.
    const steps = [
      'link lib/build.lock',
      'rename lib/tags.json',
      'writeFile lib/.*html|rename lib/index.html',
    ];
    for (const at of steps) {
      expectSentence(library(['tag', 'lib', 'm1', '--note', `note at ${at}`], { at, does: 'ENOSPC' }));
      JSON.parse(readFileSync(join(folder, 'lib/index.json'), 'utf8'));
      expect(readdirSync(join(folder, 'lib')).filter((name) => /part$|lock$/.test(name))).toEqual([]);
    }
    library(['tag', 'lib', 'm0', '--add', 'tide']);
    expect(readFileSync(join(folder, 'lib/index.html'), 'utf8')).toContain(`note at ${steps.at(-1)}`);
  }, 120_000);
});

describe('a library that cannot be used', () => {
  it('is told in a sentence, and nothing is made', () => {
    put('drawn/swell.svg', drawing(1));
    put('file.txt', 'mine');
    symlinkSync('nowhere', join(folder, 'dangling'));
    symlinkSync('round', join(folder, 'round'));
    mkdirSync(join(folder, 'empty'));
    const before = contents(folder);
    for (const words of [
      ['build', 'drawn', '--out', 'dangling'],
      ['build', 'drawn', '--out', 'round'],
      ['build', 'drawn', '--out', 'file.txt'],
      ['build', 'drawn', '--out', 'file.txt/below'],
      ['list', 'file.txt'],
      ['check', 'file.txt'],
      ['tag', 'file.txt', 'swell', '--add', 'tide'],
      ['tag', 'nowhere', 'swell', '--add', 'tide'],
      ['tag', 'empty', 'swell', '--add', 'tide'],
      ['list', 'empty'],
    ]) {
      const run = library(words);
      expectSentence(run);
      expect(run.stderr.trim().split('\n'), words.join(' ')).toHaveLength(1);
    }
    expect(contents(folder)).toEqual(before);
    expect(readdirSync(folder).sort()).toEqual(['dangling', 'drawn', 'empty', 'file.txt', 'round']);
  });

  it('with damaged tags changes nothing at all', () => {
    put('drawn/swell.svg', drawing(1));
    library(['build', 'drawn', '--out', 'lib']);
    put('drawn/kelp.svg', drawing(2));
    writeFileSync(join(folder, 'lib/tags.json'), '{"swell"');
    const before = contents(folder);
    expectSentence(library(['build', 'drawn', '--out', 'lib']));
    expect(contents(folder)).toEqual(before);
  });

  it('with an index whose paths are folders, hold a NUL or climb is told in a sentence', () => {
    put('drawn/swell.svg', drawing(1));
    library(['build', 'drawn', '--out', 'lib']);
    const path = join(folder, 'lib/index.json');
    const text = readFileSync(path, 'utf8');
    for (const bad of ['motifs/.', 'motifs/..', 'motifs/a\\u0000.svg', '../a.svg', 'motifs/../a.svg']) {
      writeFileSync(path, text.replace('motifs/swell.svg', bad));
      for (const words of [
        ['list', 'lib'],
        ['check', 'lib'],
        ['build', 'drawn', '--out', 'lib', '--spi', '9'],
      ])
        expectSentence(library(words));
    }
    writeFileSync(path, text);
    rmSync(join(folder, 'lib/motifs/swell.svg'));
    mkdirSync(join(folder, 'lib/motifs/swell.svg'));
    expect(library(['check', 'lib']).stdout).toContain('motifs/swell.svg: changed');
    expectSentence(library(['build', 'drawn', '--out', 'lib', '--prune']));
    rmSync(path);
    mkdirSync(path);
    for (const words of [
      ['list', 'lib'],
      ['check', 'lib'],
      ['tag', 'lib', 'swell', '--add', 'tide'],
    ])
      expectSentence(library(words));
  });

  it('with a lock left empty by a kill is free again in a moment', async () => {
    put('drawn/swell.svg', drawing(1));
    put('lib/build.lock', '');
    await pause(1100);
    expect(library(['build', 'drawn', '--out', 'lib']).code).toBe(0);
    expect(readdirSync(join(folder, 'lib'))).not.toContain('build.lock');
  });
});

describe('a build that is killed', () => {
  it('at every stage of its work, and finished, equals an undisturbed one byte for byte', () => {
    for (let n = 0; n < 2; n++) put(`drawn/m${n}.svg`, drawing(n));
    const last: Stop[] = [{ at: 'rm lib/build.journal' }, { at: 'rm lib/build.lock' }];
    for (const stage of [...stages, ...last]) {
      // After a line of the journal was cut off: it must not swallow the one that names this motif's files.
      if (stage.nth === 4) put('drawn/m2.svg', drawing(2));
      const { signal } = library(['build', 'drawn', '--out', 'lib'], { ...stage, does: 'kill' });
      // Else this stage was not met.
      expect(signal, stage.at).toBe('SIGKILL');
      expectNothingHalfWritten();
    }
    library(['build', 'drawn', '--out', 'whole']);
    expect(library(['build', 'drawn', '--out', 'lib']).code).toBe(0);
    expect(contents(join(folder, 'lib'))).toEqual(contents(join(folder, 'whole')));
  }, 120_000);
});

/** Whatever lies in the library under its final name is whole: JSON parses, pictures and pages have their ends. */
function expectNothingHalfWritten(): void {
  for (const [file] of contents(folder)) {
    const bytes = readFileSync(join(folder, file));
    if (!file.startsWith('lib/') || file.endsWith('.part')) continue;
    if (file.endsWith('.json') || file.endsWith('.lock')) JSON.parse(bytes.toString());
    if (/\.html?$/.test(file)) expect(bytes.toString()).toMatch(/<\/html>\n$/);
    if (file.endsWith('.svg')) expect(bytes.toString()).toMatch(/<\/svg>\s*$/);
    if (file.endsWith('.png')) expect(bytes.subarray(-8).toString('latin1')).toBe('IEND\xaeB`\x82');
  }
}

describe('names', () => {
  it('that begin with a dash can be tagged, after two dashes', () => {
    for (const name of ['--out', '-', '-rf']) put(`drawn/${name}.svg`, drawing(name.length));
    library(['build', 'drawn', '--out', 'lib']);
    for (const name of ['--out', '-', '-rf'])
      expect(library(['tag', 'lib', '--add', 'tide', '--', name]).stderr).toBe('');
    const { motifs } = JSON.parse(library(['list', 'lib', '--tag', 'tide', '--json']).stdout);
    expect(motifs.map(({ name }: { name: string }) => name).sort()).toEqual(['-', '--out', '-rf'].sort());
  });

  it('of two motifs of one name the second stands on its own sheet, and two ways of an accent are one name', () => {
    put('a/swell.svg', drawing(1).replace(/<title>.*?<\/title>/, ''));
    put('b/swell.svg', drawing(2).replace(/<title>.*?<\/title>/, ''));
    put(`c/${'étoile'.normalize('NFC')}.svg`, drawing(3));
    put(`d/${'étoile'.normalize('NFD')}.svg`, drawing(4));
    library(['build', 'a', 'b', 'c', 'd', '--out', 'lib']);
    expect(readFileSync(join(folder, 'lib/motifs/swell-2.html'), 'utf8')).toMatch(/<h1[^>]*>swell-2/);
    const keys = readdirSync(join(folder, 'lib/motifs')).map((name) => name.normalize('NFC').toLowerCase());
    expect(new Set(keys).size).toBe(keys.length);
    expect(keys.filter((key) => key.endsWith('.svg'))).toHaveLength(4);
  });
});
