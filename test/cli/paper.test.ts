/** `linewright paper` as it is typed: what it writes, says and refuses. Pages are told by poppler (pdfinfo, Debian). */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { pdfinfo, pdftotext } from '../paper/printed.js';
import { emptyFolder, linewright, waveSvg } from './run.js';

function folderWithWave(svg = waveSvg): string {
  const cwd = emptyFolder();
  writeFileSync(join(cwd, 'wave.svg'), svg);
  return cwd;
}

function paperJson(words: readonly string[], cwd = folderWithWave()) {
  const { code, stdout, stderr } = linewright(
    ['paper', 'wave.svg', '--out', 'wave.pdf', '--json', ...words],
    { cwd },
  );
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  return { ...JSON.parse(stdout), cwd };
}

describe('a pattern on paper', () => {
  it('lies on the sheet that was asked for, turned so that it needs fewest', () => {
    // Two repeats of 100 mm and two rows 60 mm apart, 40 mm high: 200 x 100 mm, more than letter is wide.
    const { cwd, tiles, ...said } = paperJson(['--spacing', '60mm', '--layout', 'straight']);
    expect(said).toMatchObject({
      file: 'wave.svg',
      layout: 'straight',
      spacingMm: 60,
      repeats: 2,
      rows: 2,
      paperMm: [279.4, 215.9],
      overlapMm: 12.7,
      written: ['wave.pdf'],
    });
    expect(tiles).toEqual([{ page: 2, fromMm: [0, 0], sizeMm: [254, 190.5], atMm: [12.7, 12.7] }]);
    const info = pdfinfo(join(cwd, 'wave.pdf'));
    expect(info.Pages).toBe('2');
    expect(info['Page 2 size']).toContain('792 x 612 pts');
  });

  it('shares exactly the overlap between neighbours, and leaves empty pages out', () => {
    const { tiles, overlapMm } = paperJson([
      ...['--spacing', '21in', '--layout', 'straight', '--repeats', '4'],
      ...['--paper', 'a4', '--overlap', '20mm'],
    ]);
    expect(overlapMm).toBe(20);
    const rows = new Map<number, number[]>();
    for (const { fromMm } of tiles) rows.set(fromMm[1], [...(rows.get(fromMm[1]) ?? []), fromMm[0]]);
    // A4 lying: 271.6 x 184.6 mm. 400 mm are two pages; the second row, 533.4 mm down, lies on the fourth of pages that begin 164.6 mm apart.
    expect([...rows]).toEqual([
      [0, [0, 251.6]],
      [493.8, [0, 251.6]],
    ]);
  });

  it('takes rows stored with the motif, unless others are asked for', () => {
    const cwd = folderWithWave();
    const convert = [
      'convert',
      'wave.svg',
      '--out',
      '.',
      '--to',
      'motif',
      '--rows',
      'mirrored',
      '--spacing',
      '47mm',
    ];
    expect(linewright(convert, { cwd }).code).toBe(0);
    const print = (...words: string[]) =>
      JSON.parse(
        linewright(['paper', 'wave.motif.json', '--out', 'w.pdf', '--json', '--force', ...words], { cwd })
          .stdout,
      );
    expect(print()).toMatchObject({ layout: 'mirrored', spacingMm: 47 });
    expect(print('--spacing', '50mm')).toMatchObject({ layout: 'mirrored', spacingMm: 50 });
    expect(print('--layout', 'brick').layout).toBe('brick');
  });

  it('takes what rows recommends where nothing is stored', () => {
    const cwd = folderWithWave();
    const { recommended, layouts } = JSON.parse(linewright(['rows', 'wave.svg', '--json'], { cwd }).stdout);
    const { evenSpacingMm } = layouts.find(({ layout }: { layout: string }) => layout === recommended);
    const { layout, spacingMm } = paperJson([], cwd);
    expect(layout).toBe(recommended);
    expect(Math.abs(spacingMm - evenSpacingMm)).toBeLessThanOrEqual(0.001);
  });

  it('is the same, byte for byte, when it is made again', () => {
    const cwd = folderWithWave();
    for (const out of ['a.pdf', 'b.pdf']) linewright(['paper', 'wave.svg', '--out', out], { cwd });
    expect(readFileSync(join(cwd, 'a.pdf'))).toEqual(readFileSync(join(cwd, 'b.pdf')));
  });

  it('replaces letters that the font lacks, and keeps them in the properties', () => {
    const cwd = folderWithWave(
      waveSvg.replace(
        'Wave',
        'Hullám ⅜ ő 波 <b>&amp;\u0007'.replace('<b>', '&lt;b&gt;').replace('\u0007', ''),
      ),
    );
    paperJson([], cwd);
    expect(pdftotext(join(cwd, 'wave.pdf'), 1)).toContain('Hullám 3/8 o ? <b>&');
    expect(pdfinfo(join(cwd, 'wave.pdf')).Title).toBe('Hullám ⅜ ő 波 <b>&');
  });

  it('prints credits however long they are', () => {
    const words = Array.from({ length: 900 }, (_, i) => `word${i}`).join(' ');
    const cwd = folderWithWave(waveSvg.replace('</title>', `</title><desc>${words}</desc>`));
    const { tiles } = paperJson([], cwd);
    const file = join(cwd, 'wave.pdf');
    const pages = Number(pdfinfo(file).Pages);
    expect(pages).toBeGreaterThan(tiles.length + 1);
    const printed = Array.from({ length: pages }, (_, i) => pdftotext(file, i + 1)).join(' ');
    for (const word of ['word0', 'word450', 'word899']) expect(printed).toContain(word);
  });
});

describe('what cannot be printed', () => {
  it.each([
    [['--out', 'wave.png'], /let --out end in \.pdf/],
    [['--paper', 'letr'], /Did you mean "letter"\?/],
    [['--paper', '4in x 6in'], /must measure 6in x 8in/],
    [['--paper', '24in x 400in'], /200in .* at most/],
    [['--overlap', '4in'], /--overlap cannot be 4 in .* at most/],
    [['--repeats', '0'], /--repeats takes a whole number from 1 to 1000, not "0"/],
    [['--rows', '1.5'], /--rows takes a whole number/],
    [['--repeats', '300', '--rows', '300'], /more than 2,000 pages/],
    [['--repeats', '1000', '--rows', '500'], /more than 100,000 repeats, the limit/],
  ])('is one sentence: %j', (words, sentence) => {
    const cwd = folderWithWave();
    const out = words.includes('--out') ? [] : ['--out', 'wave.pdf'];
    const { code, stdout, stderr } = linewright(['paper', 'wave.svg', ...out, ...words], { cwd });
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(sentence);
    expect(stderr.trim().split('\n')).toHaveLength(1);
    expect(existsSync(join(cwd, 'wave.pdf'))).toBe(false);
  });

  it('is a pattern that exists, unless --force is said', () => {
    const cwd = folderWithWave();
    const words = ['paper', 'wave.svg', '--out', 'wave.pdf'];
    expect(linewright(words, { cwd }).code).toBe(0);
    expect(linewright(words, { cwd }).code).toBe(2);
    expect(linewright([...words, '--force'], { cwd }).code).toBe(0);
  });
});
