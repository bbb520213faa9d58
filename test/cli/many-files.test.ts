/** Folders, quoted patterns and many files: each is told, none stops the others, and what needs work is named. */
import { execSync } from 'node:child_process';
import { cpSync, mkdirSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { emptyFolder, linewright, program, waveSvg } from './run.js';

vi.setConfig({ testTimeout: 60_000 });

const corpus = new URL('../../corpus/', import.meta.url).pathname;
/** Two pieces: an error. */
const broken = waveSvg.replace('M0 20L25 0', 'M0 20L25 0M30 0');

function studio(): string {
  const cwd = emptyFolder();
  mkdirSync(join(cwd, 'drawn/old'), { recursive: true });
  mkdirSync(join(cwd, 'drawn/.hidden'));
  for (const name of ['b', 'a', 'c [1]']) writeFileSync(join(cwd, `drawn/${name}.svg`), waveSvg);
  writeFileSync(join(cwd, 'drawn/old/piece.SVG'), broken);
  writeFileSync(join(cwd, 'drawn/.hidden/secret.svg'), waveSvg);
  writeFileSync(join(cwd, 'drawn/list.txt'), 'no motif');
  return cwd;
}

describe('what stands for files', () => {
  it('a folder is the motifs in it and below, in their order, without hidden ones', () => {
    const { code, stdout } = linewright(['check', 'drawn', '--json'], { cwd: studio() });
    expect(code).toBe(1);
    expect(JSON.parse(stdout).files.map(({ file }: { file: string }) => file)).toEqual([
      'drawn/a.svg',
      'drawn/b.svg',
      'drawn/c [1].svg',
      'drawn/old/piece.SVG',
    ]);
  });

  it('a pattern is what fits it; a file of that very name comes first', () => {
    const cwd = studio();
    const files = (...words: string[]) =>
      JSON.parse(linewright(['check', ...words, '--json'], { cwd }).stdout).files.map(
        ({ file }: { file: string }) => file,
      );
    expect(files('drawn/[ab].svg', 'drawn/c [1].svg')).toEqual([
      'drawn/a.svg',
      'drawn/b.svg',
      'drawn/c [1].svg',
    ]);
    expect(files(join(cwd, 'drawn/**/piece.*'))).toEqual([join(cwd, 'drawn/old/piece.SVG')]);
    const none = linewright(['check', 'drawn/*.motif.json'], { cwd });
    expect(none).toMatchObject({
      code: 2,
      stdout: '',
      stderr: 'drawn/*.motif.json: no file or folder fits this pattern.\n',
    });
  });

  it('results of an earlier run in the folder are not done again, and a file reached twice is done once', () => {
    const cwd = studio();
    symlinkSync('a.svg', join(cwd, 'drawn/link.svg'));
    const words = ['mend', 'drawn', '--out', 'drawn/mended', '--to', 'svg', '--force', '--json'];
    const [first, second] = [linewright(words, { cwd }), linewright(words, { cwd })];
    expect(JSON.parse(second.stdout).files).toHaveLength(4);
    expect(second.stdout).toBe(first.stdout);
    expect(readdirSync(join(cwd, 'drawn/mended')).sort()).toEqual([
      'a.svg',
      'b.svg',
      'c [1].svg',
      'piece.svg',
    ]);
  });
});

describe('more than five files', () => {
  function six(): string {
    const cwd = studio();
    for (const name of ['e', 'f']) writeFileSync(join(cwd, `drawn/${name}.svg`), waveSvg);
    writeFileSync(join(cwd, 'drawn/d.svg'), '');
    return cwd;
  }

  it('get a line each of 80 columns, and those that need work are named at the end', () => {
    const { code, stdout, stderr } = linewright(['check', 'drawn'], { cwd: six() });
    expect(code).toBe(2);
    const lines = stdout.split('\n');
    expect(lines.slice(0, 7).map((line) => line.split(',')[0].replace(/ +/, ' '))).toEqual([
      'clean drawn/a.svg',
      'clean drawn/b.svg',
      'clean drawn/c [1].svg',
      'unreadable drawn/d.svg',
      'clean drawn/e.svg',
      'clean drawn/f.svg',
      'errors drawn/old/piece.SVG',
    ]);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
    expect(lines[6]).toMatch(/^errors +drawn\/old\/piece\.SVG, 3 15\/16 x 1 9\/16 in: one-stroke.* …$/);
    expect(stdout).toMatch(/\nWith errors: drawn\/old\/piece\.SVG\nCould not be read: drawn\/d\.svg\n$/);
    expect(stderr).toBe('drawn/d.svg is empty: there is nothing in it to read.\n');
  });

  it('get their reports with --full', () => {
    const { stdout } = linewright(['check', 'drawn', '--full'], { cwd: six() });
    expect(stdout.match(/^ {2}Size: /gm)).toHaveLength(6);
  });

  it('say the same as one after the other, in the same order', () => {
    const together = JSON.parse(linewright(['check', `${corpus}motifs`, '--json']).stdout).files;
    expect(together).toHaveLength(16);
    for (const each of together.slice(0, 3))
      expect(JSON.parse(linewright(['check', each.file, '--json']).stdout).files[0]).toEqual(each);
  });
});

it('a file that takes too long is given up, and the others are done', () => {
  const cwd = emptyFolder();
  cpSync(`${corpus}motifs`, join(cwd, 'motifs'), { recursive: true });
  // 200,000 points, and no time at all for a file.
  const points = Array.from(
    { length: 200_000 },
    (_, i) => `${(i * 0.01).toFixed(2)},${((i * 7919) % 100) / 10}`,
  );
  const slow = waveSvg.replace(/d="[^"]*"/, `d="M${points.join('L')}"`);
  writeFileSync(join(cwd, 'motifs/slow.svg'), slow);
  writeFileSync(join(cwd, 'linewright.json'), '{"limits": {"secondsAFile": 1}}');
  const { code, stdout, stderr } = linewright(['convert', 'motifs', '--out', 'ready', '--json'], { cwd });
  const files = JSON.parse(stdout).files as { file: string; error?: string; written: string[] }[];
  const unfinished = files.filter(({ written }) => written.length === 0);
  for (const { file, error } of unfinished)
    expect(error).toBe(`${file}: the work on it took longer than 1 s.`);
  // How many depends on the machine; none is left half done.
  const done = files.filter(({ written }) => written.length === 3).length;
  expect(done).toBeGreaterThan(0);
  expect(done + unfinished.length).toBe(files.length);
  expect(code).toBe(unfinished.length > 0 ? 2 : 0);
  expect(stderr.split('\n').filter(Boolean)).toHaveLength(unfinished.length);
});

it('goes on writing files where who reads along has had enough', () => {
  const folder = emptyFolder();
  execSync(
    `'${process.execPath}' '${program}' convert '${corpus}motifs' --to motif --out '${folder}' | true`,
  );
  expect(readdirSync(folder)).toHaveLength(16);
});
