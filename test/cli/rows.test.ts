/** `linewright rows` from end to end, on the built program. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import pngjs from 'pngjs';
import { describe, expect, it, vi } from 'vitest';
import { emptyFolder, linewright, waveSvg } from './run.js';

/** Whole processes, on a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000 });

const net = new URL('../../corpus/motifs/net.svg', import.meta.url).pathname;

/** A folder with a zigzag in it, 40 mm high, with legs of 100 by 40: c / cos a apart in straight rows, 40 + c in brick. */
function folderWithZigzag(path = 'M0 20L50 0L150 40L200 20'): string {
  const folder = emptyFolder();
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="60mm" viewBox="0 0 200 60"><path fill="none" stroke="#000" d="${path}"/></svg>`;
  writeFileSync(join(folder, 'zigzag.svg'), svg);
  return folder;
}

const cwd = folderWithZigzag();
const leg = Math.hypot(100, 40) / 100;

describe('--json', () => {
  const { stdout, stderr, code } = linewright(['rows', 'zigzag.svg', '--json'], { cwd });
  const document = JSON.parse(stdout);

  it('is one document with the keys that scripts rely on', () => {
    expect(stderr).toBe('');
    expect(code).toBe(0);
    expect(Object.keys(document)).toEqual(['file', 'heightMm', 'clearanceMm', 'recommended', 'layouts']);
    expect(document).toMatchObject({ file: 'zigzag.svg', heightMm: 40, clearanceMm: 3 });
    expect(document.layouts.map(({ layout }: { layout: string }) => layout)).toEqual([
      'straight',
      'brick',
      'mirrored',
      'turned',
    ]);
    expect(Object.keys(document.layouts[0])).toEqual([
      'layout',
      'closestSpacingMm',
      'evenSpacingMm',
      'nestingOffsetMm',
      'innerOpenMm',
      'seamOpenMm',
      'unevenness',
      'openness',
      'evenness',
      'interlocksMm',
    ]);
  });

  it('has the closest spacings of a zigzag', () => {
    const closest = document.layouts.map(
      ({ closestSpacingMm }: { closestSpacingMm: number }) => closestSpacingMm,
    );
    expect(closest[0]).toBeCloseTo(3 * leg, 5);
    expect(closest[1]).toBeCloseTo(43, 5);
    expect(closest[2]).toBeCloseTo(3 * leg, 5);
    expect(document.layouts[1].nestingOffsetMm).toBeCloseTo(-3, 5);
    expect(document.layouts[0].innerOpenMm).toBeNull();
  });

  it('takes the clearance and one layout', () => {
    const one = JSON.parse(
      linewright(['rows', 'zigzag.svg', '--json', '--layout', 'brick', '--clearance', '5mm'], { cwd }).stdout,
    );
    expect(one).toMatchObject({ clearanceMm: 5, recommended: 'brick' });
    expect(one.layouts).toHaveLength(1);
    expect(one.layouts[0].closestSpacingMm).toBeCloseTo(45, 5);
  });

  it('takes all for every layout, also over a layout of the settings file', () => {
    const folder = folderWithZigzag();
    writeFileSync(join(folder, 'linewright.json'), JSON.stringify({ layout: 'turned' }));
    const layoutsOf = (words: string[]) =>
      JSON.parse(linewright(['rows', 'zigzag.svg', '--json', ...words], { cwd: folder }).stdout).layouts
        .length;
    expect(layoutsOf([])).toBe(1);
    expect(layoutsOf(['--layout', 'all'])).toBe(4);
  });
});

describe('the table', () => {
  it('tells inches and millimetres, inches first, and what to do', () => {
    const { stdout } = linewright(['rows', 'zigzag.svg', '--layout', 'brick'], { cwd });
    expect(stdout).toContain('1 3/4 in  1 3/4 in');
    expect(stdout).toMatch(/43 mm\s+43 mm/);
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      'Set the rows 1 3/4 in (43 mm) apart, every second row shifted by half a repeat; they stand apart by 1/8 in (3 mm).',
    );
  });

  it('gives a closest spacing that is not too close when it is typed back', () => {
    const { stdout } = linewright(['check', 'zigzag.svg'], { cwd });
    const told = /(?:closest|rows:) ([\d /]+in)/.exec(stdout.replace(/\s+/g, ' '))?.[1] ?? '';
    const back = linewright(['check', 'zigzag.svg', '--spacing', told], { cwd });
    expect(back.stdout, told).toMatch(/rows keep clear/);
  });

  it('has millimetres first where they are asked for, and stays within 80 columns', () => {
    const { stdout } = linewright(['rows', net, '--unit', 'mm']);
    expect(stdout).toMatch(/Set the rows [\d.]+ mm \(/);
    for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('says what it took for granted', () => {
    const climbing = linewright(['rows', 'zigzag.svg'], {
      cwd: folderWithZigzag('M0 20L50 0L150 40L200 28'),
    });
    expect(climbing.stdout.replace(/\s+/g, ' ')).toContain(
      'The line ends 5/16 in (8 mm) lower than it starts',
    );
    const ring = linewright(['rows', 'zigzag.svg'], { cwd: folderWithZigzag('M20 20H60V50H20Z') });
    expect(ring.stdout.replace(/\s+/g, ' ')).toContain(
      "the motif's width, 1 9/16 in (40 mm), is taken for the repeat",
    );
    const strokes = linewright(['rows', 'zigzag.svg'], { cwd: folderWithZigzag('M0 20H200M20 40H180') });
    expect(strokes.stdout).toContain('in 2 strokes');
  });
});

describe('a spacing of the user’s own', () => {
  it.each([
    ['rows that keep clear', '45mm', 0, 'keep clear'],
    ['rows that come too near', '42mm', 1, 'come too near'],
    ['rows that cross', '30mm', 1, 'cross'],
  ])('%s', (_, spacing, code, words) => {
    const run = linewright(['rows', 'zigzag.svg', '--layout', 'brick', '--spacing', spacing], { cwd });
    expect(run.code).toBe(code);
    expect(run.stdout).toContain(words);
  });

  it('is judged in a layout stored with the motif, with its spacing and clearance', () => {
    const folder = folderWithZigzag();
    const inside = { cwd: folder };
    const convert = [
      'convert',
      'zigzag.svg',
      '--to',
      'motif',
      '--out',
      '.',
      '--rows',
      'brick',
      '--clearance',
      '5mm',
    ];
    expect(linewright(convert, inside).code).toBe(0);
    const stored = linewright(['rows', 'zigzag.motif.json'], inside);
    expect(stored.code).toBe(0);
    expect(stored.stdout.replace(/\s+/g, ' ')).toContain(
      'At 1 3/4 in (45 mm), brick rows keep clear of each other',
    );
    const path = join(folder, 'zigzag.motif.json');
    const motif = JSON.parse(readFileSync(path, 'utf8'));
    expect(motif.rows).toEqual({ layout: 'brick', spacing: 45, clearance: 5 });
    writeFileSync(path, JSON.stringify({ ...motif, rows: { ...motif.rows, spacing: 44 } }));
    expect(linewright(['rows', 'zigzag.motif.json'], inside).code).toBe(1);
    expect(linewright(['check', 'zigzag.motif.json'], inside).stdout).toContain('(row-collision)');
    // A clearance that is typed holds, also where it is the one that holds by default.
    for (const clearance of ['2mm', '3mm']) {
      const words = ['zigzag.motif.json', '--clearance', clearance];
      expect(linewright(['check', ...words], inside).stdout).not.toContain('(row-collision)');
      expect(linewright(['rows', ...words], inside).code).toBe(0);
    }
  });
});

describe('--picture', () => {
  it('writes a PNG, and again only with --force', () => {
    const folder = folderWithZigzag();
    const draw = ['rows', 'zigzag.svg', '--picture', 'rows.png'];
    expect(linewright(draw, { cwd: folder }).code).toBe(0);
    const { width, height } = pngjs.PNG.sync.read(readFileSync(join(folder, 'rows.png')));
    expect(width).toBeGreaterThan(height);
    const again = linewright(draw, { cwd: folder });
    expect(again.code).toBe(2);
    expect(again.stdout).toBe('');
    expect(again.stderr).toContain('rows.png');
    expect(linewright([...draw, '--force'], { cwd: folder }).code).toBe(0);
  });

  it('never takes the place of the input', () => {
    const folder = folderWithZigzag();
    const before = readFileSync(join(folder, 'zigzag.svg'), 'utf8');
    expect(
      linewright(['rows', 'zigzag.svg', '--picture', 'zigzag.svg', '--force'], { cwd: folder }).code,
    ).toBe(2);
    expect(readFileSync(join(folder, 'zigzag.svg'), 'utf8')).toBe(before);
  });
});

describe('what cannot be done ends with 2 and one sentence', () => {
  it.each([
    ['no file', ['rows']],
    ['a file that is not there', ['rows', 'nope.svg']],
    ['a layout there is none of', ['rows', 'zigzag.svg', '--layout', 'bricks']],
    ['a spacing that is no length', ['rows', 'zigzag.svg', '--spacing', 'wide']],
  ])('%s', (_, words) => {
    const { code, stdout, stderr } = linewright(words, { cwd });
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr.trim().split('\n')).toHaveLength(1);
    expect(existsSync(join(cwd, 'rows.png'))).toBe(false);
  });
});

describe('what the batting and the throat allow', { timeout: 30_000 }, () => {
  const cwd = emptyFolder();
  writeFileSync(join(cwd, 'wave.svg'), waveSvg);

  it('is told without a spacing, in words and in JSON', () => {
    const text = linewright(['rows', 'wave.svg', '--batting', '3in', '--throat', '10in'], { cwd });
    const said = text.stdout.replaceAll(/\s+/g, ' ');
    expect(said).toMatch(
      /The batting allows open circles of 3 in \(76\.2 mm\): straight rows may be up to .* apart\./,
    );
    expect(said).toMatch(/The throat of 10 in \(254 mm\) holds \d+ rows at/);
    expect(text.code).toBe(0);
    const json = JSON.parse(linewright(['rows', 'wave.svg', '--batting', '3in', '--json'], { cwd }).stdout);
    for (const { widestSpacingMm, closestSpacingMm } of json.layouts)
      expect(widestSpacingMm).toBeGreaterThan(closestSpacingMm);
  });

  it('a motif taller than the throat is an error that says the largest size', () => {
    const run = linewright(['rows', 'wave.svg', '--throat', '1in'], { cwd });
    expect(run.code).toBe(1);
    // 100 x 40 mm in a throat of 25.4 mm: 63.5 mm wide.
    expect(run.stdout.replaceAll(/\s+/g, ' ')).toContain(
      'the largest size that fits is 2 1/2 x 1 in (63.5 x 25.4 mm)',
    );
  });
});
