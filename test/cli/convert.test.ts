/** `linewright convert` from end to end, on the built program. */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import pngjs from 'pngjs';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { emptyFolder, linewright, waveSvg } from './run.js';

/** Whole processes, on a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const corpus = new URL('../../corpus/motifs/', import.meta.url).pathname;

it('takes a file once, however often it is meant', () => {
  const cwd = emptyFolder();
  mkdirSync(join(cwd, 'motifs'));
  writeFileSync(join(cwd, 'motifs/wave.svg'), waveSvg);
  const words = ['convert', 'motifs/wave.svg', 'motifs', './motifs/*.svg', '--out', 'out', '--to', 'csv'];
  expect(linewright(words, { cwd }).stdout).toMatch(/^motifs\/wave\.svg: [^\n]+\n$/);
  expect(readdirSync(join(cwd, 'out'))).toEqual(['wave.csv']);
});

describe('one file in every form', () => {
  const cwd = emptyFolder();
  let stdout = '';
  beforeAll(() => {
    writeFileSync(join(cwd, 'wave.svg'), waveSvg);
    const words = ['convert', 'wave.svg', '--out', 'out', '--to', 'motif,svg,png,csv', '--height', '80mm'];
    stdout = linewright([...words, '--pixels', '300', '--rows', 'brick', '--spacing', '60mm'], {
      cwd,
    }).stdout;
  });
  const text = (name: string) => readFileSync(join(cwd, 'out', name), 'utf8');

  it('says what was written in one line, with the size in both units', () => {
    expect(stdout).toBe(
      'wave.svg: 7 7/8 x 3 1/8 in (200 x 80 mm) -> ' +
        'out/wave.motif.json, out/wave.svg, out/wave.png, out/wave.csv\n',
    );
    expect(readdirSync(join(cwd, 'out')).sort()).toEqual([
      'wave.csv',
      'wave.motif.json',
      'wave.png',
      'wave.svg',
    ]);
  });

  it('writes the motif at the size asked for, with its credit, source and rows', () => {
    const motif = JSON.parse(text('wave.motif.json'));
    expect(motif).toMatchObject({
      format: 'linewright-motif',
      version: 1,
      name: 'wave',
      unit: 'mm',
      size: [200, 80],
      repeat: [200, 0],
      strokes: [
        [
          [0, 40],
          [50, 0],
          [150, 80],
          [200, 40],
        ],
      ],
      rows: { layout: 'brick', spacing: 60, clearance: 3 },
      source: { file: 'wave.svg', statedSize: [100, 40] },
      credit: { title: 'Wave' },
    });
    expect(motif.source.sha256).toMatch(/^[0-9a-f]{64}$/);
  });

  it('writes an SVG that another renderer draws at the same places and size (resvg)', () => {
    const svg = text('wave.svg');
    const page = new Resvg(svg);
    expect(page.width).toBe(Math.round((200 * 96) / 25.4));
    expect(page.height).toBe(Math.round((80 * 96) / 25.4));
    const pxPerMm = 10;
    const { width, height, pixels } = new Resvg(svg, {
      fitTo: { mode: 'width', value: 200 * pxPerMm },
    }).render();
    /** Millimetres along a line of pixels at which the middle of its ink lies. */
    const middle = (count: number, pixel: (i: number) => number) => {
      const inked = Array.from({ length: count }, (_, i) => i).filter((i) => pixels[4 * pixel(i) + 3] > 128);
      return inked.reduce((sum, i) => sum + i + 0.5, 0) / inked.length / pxPerMm;
    };
    // The crest touches the upper edge at 50 mm, the trough the lower one at 150 mm; the ends lie at half the height.
    expect(middle(width, (x) => x)).toBeCloseTo(50, 0);
    expect(middle(width, (x) => (height - 1) * width + x)).toBeCloseTo(150, 0);
    expect(middle(height, (y) => y * width)).toBeCloseTo(40, 0);
    expect(middle(height, (y) => y * width + width - 1)).toBeCloseTo(40, 0);
  });

  it('writes a PNG of the width asked for', () => {
    const { width, height } = pngjs.PNG.sync.read(readFileSync(join(cwd, 'out', 'wave.png')));
    expect(width).toBe(300);
    expect(height).toBeGreaterThan(100);
  });

  it('converts the motif file again to the same points', () => {
    const { code } = linewright(['convert', 'out/wave.motif.json', '--out', 'again', '--to', 'csv'], { cwd });
    expect(code).toBe(0);
    expect(readFileSync(join(cwd, 'again', 'wave.csv'), 'utf8')).toBe(text('wave.csv'));
  });
});

describe('what exists', () => {
  it('is kept without --force, and then nothing of the motif is written', () => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, 'wave.svg'), waveSvg);
    mkdirSync(join(cwd, 'out'));
    writeFileSync(join(cwd, 'out', 'wave.csv'), 'mine');
    const words = ['convert', 'wave.svg', '--out', 'out', '--to', 'motif,csv'];
    const { code, stderr } = linewright(words, { cwd });
    expect(code).toBe(2);
    expect(stderr).toMatch(/wave\.csv: exists already; --force/);
    expect(readdirSync(join(cwd, 'out'))).toEqual(['wave.csv']);
    expect(linewright([...words, '--force'], { cwd }).code).toBe(0);
    expect(readFileSync(join(cwd, 'out', 'wave.csv'), 'utf8')).not.toBe('mine');
  });

  it('is never overwritten where it is an input, not even with --force', () => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, 'wave.svg'), waveSvg);
    const { code, stderr } = linewright(['convert', 'wave.svg', '--out', '.', '--to', 'svg', '--force'], {
      cwd,
    });
    expect(code).toBe(2);
    expect(stderr).toMatch(/inputs are never overwritten/);
    expect(readFileSync(join(cwd, 'wave.svg'), 'utf8')).toBe(waveSvg);
  });
});

describe('many files', () => {
  it('go on after a bad one, and the worst exit code counts', () => {
    const cwd = emptyFolder();
    mkdirSync(join(cwd, 'more'));
    writeFileSync(join(cwd, 'wave.svg'), waveSvg);
    writeFileSync(join(cwd, 'more', 'wave.svg'), waveSvg);
    writeFileSync(join(cwd, 'cut.svg'), waveSvg.slice(0, 90));
    writeFileSync(join(cwd, 'empty.svg'), '');
    writeFileSync(join(cwd, 'more', 'text.svg'), waveSvg.replace(/<path[^>]*>/, '<text>wave</text>'));
    mkdirSync(join(cwd, 'nothing'));
    const files = [
      'wave.svg',
      'cut.svg',
      'none.svg',
      'nothing',
      'empty.svg',
      'more/text.svg',
      'more/wave.svg',
    ];
    const { code, stdout, stderr } = linewright(
      ['convert', ...files, '--out', 'out', '--to', 'csv', '--json'],
      {
        cwd,
      },
    );
    expect(code).toBe(2);
    const { files: done } = JSON.parse(stdout);
    expect(done.map(({ file, written }: { file: string; written: string[] }) => [file, ...written])).toEqual([
      ['wave.svg', 'out/wave.csv'],
      ['cut.svg'],
      ['none.svg'],
      ['empty.svg'],
      ['more/text.svg'],
      ['more/wave.svg', 'out/wave-2.csv'],
    ]);
    const complaints = stderr.trimEnd().split('\n');
    expect(complaints).toHaveLength(5);
    expect(complaints[0]).toBe('There is no SVG, DXF or motif file in nothing.');
    expect(complaints[4]).toMatch(
      /^more\/text\.svg: there is nothing to stitch in it, only text\. Letters have to be lines: /,
    );
    expect(complaints[1]).toMatch(/^cut\.svg, line 1, column \d+: /);
    expect(complaints.join('\n')).not.toContain('\u001b');
    expect(done[1].error).toBe(complaints[1]);
  });

  it('convert the whole corpus', () => {
    const cwd = emptyFolder();
    const files = readdirSync(corpus).map((name) => join(corpus, name));
    const { code, stderr } = linewright(['convert', ...files, '--out', 'out', '--to', 'motif'], { cwd });
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(readdirSync(join(cwd, 'out'))).toHaveLength(files.length);
  });
});

describe('hostile names and titles', () => {
  it('show control characters instead of sending them to the terminal', () => {
    const cwd = emptyFolder();
    const { stderr } = linewright(['convert', 'a\u001b[31mred.svg', '--out', 'out'], { cwd });
    expect(stderr).toContain('\\u001b[31mred.svg');
    expect(stderr).not.toContain('\u001b');
  });

  it('keep a title with markup in it as text, in every form', () => {
    const cwd = emptyFolder();
    const title = '&lt;script>alert(1)&lt;/script> ]]&gt;&lt;b> &amp; "Sons"';
    writeFileSync(join(cwd, 'wave.svg'), waveSvg.replace('Wave', title));
    linewright(['convert', 'wave.svg', '--out', 'out', '--to', 'svg,motif'], { cwd });
    linewright(['convert', 'out/wave.svg', '--out', 'again', '--to', 'motif'], { cwd });
    const credit = (path: string) => JSON.parse(readFileSync(join(cwd, path), 'utf8')).credit;
    expect(credit('out/wave.motif.json').title).toBe('<script>alert(1)</script> ]]><b> & "Sons"');
    expect(credit('again/wave.motif.json').title).toBe(credit('out/wave.motif.json').title);
  });

  it('never lead out of the output folder', () => {
    const cwd = emptyFolder();
    mkdirSync(join(cwd, 'in'));
    writeFileSync(join(cwd, 'in', '..svg'), waveSvg);
    const { code } = linewright(['convert', 'in/..svg', '--out', 'out', '--to', 'csv'], { cwd });
    expect(code).toBe(0);
    expect(existsSync(join(cwd, 'out'))).toBe(true);
    expect(readdirSync(cwd).sort()).toEqual(['in', 'out']);
  });
});

describe('--curves', () => {
  const cwd = emptyFolder();

  it('writes few curves, and the other forms as ever', () => {
    const words = ['convert', join(corpus, 'kelp.svg'), '--out', 'out', '--to', 'svg,csv', '--curves'];
    expect(linewright(words, { cwd }).code).toBe(0);
    const svg = readFileSync(join(cwd, 'out', 'kelp.svg'), 'utf8');
    expect(svg.match(/C/g)!.length).toBeGreaterThan(20);
    expect(svg).not.toMatch(/L\d/);
    expect(svg.length).toBeLessThan(6000);
    expect(readFileSync(join(cwd, 'out', 'kelp.csv'), 'utf8').split('\n').length).toBeGreaterThan(500);
  });

  it('without SVG is a mistake in the call, and nothing is written', () => {
    for (const command of ['convert', 'mend']) {
      const words = [command, join(corpus, 'kelp.svg'), '--out', 'none', '--to', 'csv', '--curves'];
      const { code, stdout, stderr } = linewright(words, { cwd });
      expect([code, stdout]).toEqual([2, '']);
      expect(stderr).toBe('--curves is for SVG: name it among the forms to write, as in --to svg.\n');
    }
    expect(existsSync(join(cwd, 'none'))).toBe(false);
  });
});
