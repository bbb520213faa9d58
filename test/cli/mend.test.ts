/** `linewright mend` from end to end, on the built program. */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import pngjs from 'pngjs';
import { describe, expect, it } from 'vitest';
import { emptyFolder, linewright, waveSvg } from './run.js';

/** The wave in two pieces 0.4 mm apart, with a dot. */
const gapSvg = (gap = 0.4) =>
  '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="40mm" viewBox="0 0 100 40">' +
  '<title>Wave</title><desc>Harbour studio</desc><g fill="none" stroke="#000">' +
  `<path d="M0 20L25 0L50 20"/><path d="M${50 + gap} 20L75 40L100 20"/><path d="M10 30h0.2"/></g></svg>`;

function folderWith(files: Readonly<Record<string, string>>): string {
  const cwd = emptyFolder();
  for (const [name, text] of Object.entries(files)) writeFileSync(join(cwd, name), text);
  return cwd;
}

describe('a wave in two pieces', { timeout: 30_000 }, () => {
  const cwd = folderWith({ 'wave.svg': gapSvg() });
  const run = linewright(['mend', 'wave.svg', '--out', 'out', '--picture', 'pictures', '--unit', 'mm'], {
    cwd,
  });

  it('says what it was, what was done and what it is now', () => {
    expect(run.stderr).toBe('');
    expect(run.stdout).toMatch(/^wave\.svg: errors before, (clean|warnings) now\n/);
    expect(run.stdout).toContain('before: ERROR near-gap');
    expect(run.stdout).toContain('drop: Left out 1 dot.');
    expect(run.stdout).toContain('join: Closed 1 gap of up to 0.4 mm');
    expect(run.stdout.split('\n').every((line) => line.length <= 80)).toBe(true);
    expect(run.code).toBe(0);
  });

  it('leaves the input alone and writes one stroke with its credit and history', () => {
    expect(readFileSync(join(cwd, 'wave.svg'), 'utf8')).toBe(gapSvg());
    const motif = JSON.parse(readFileSync(join(cwd, 'out/wave.motif.json'), 'utf8'));
    expect(motif.strokes).toHaveLength(1);
    expect(motif.credit).toEqual({ title: 'Wave', description: 'Harbour studio' });
    expect(motif.mended).toEqual([
      { mend: 'drop', addedMm: -0.2, movedMm: 0 },
      // Both legs grow: from 25 across and 20 up to 25.2 across.
      {
        mend: 'join',
        addedMm: expect.closeTo(2 * (Math.hypot(25.2, 20) - Math.hypot(25, 20)), 2),
        movedMm: 0.2,
      },
    ]);
    expect(motif.source.file).toBe('wave.svg');
    for (const name of ['wave.svg', 'wave.png']) expect(existsSync(join(cwd, 'out', name))).toBe(true);
  });

  it('draws before and after, with what was added in the second colour (Okabe and Ito, vermilion)', () => {
    const { data, width, height } = pngjs.PNG.sync.read(readFileSync(join(cwd, 'pictures/wave-mended.png')));
    const isAdded = (x: number, y: number) => {
      const i = 4 * (y * width + x);
      return data[i] === 0xd5 && data[i + 1] === 0x5e && data[i + 2] === 0x00;
    };
    let [left, right] = [0, 0];
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) if (isAdded(x, y)) x < width / 2 ? left++ : right++;
    expect(left).toBe(0);
    expect(right).toBeGreaterThan(0);
  });

  it('still tells what was done and written where only the picture cannot be', () => {
    const told = linewright(['mend', 'wave.svg', '--out', 'undrawn', '--picture', 'pictures'], { cwd });
    expect(told.code).toBe(2);
    expect(told.stderr).toBe('pictures/wave-mended.png: exists already; --force overwrites it.\n');
    expect(told.stdout).toMatch(/^wave\.svg: errors before/);
    expect(told.stdout).toMatch(
      /Written: undrawn\/wave\.motif\.json, undrawn\/wave\.svg, undrawn\/wave\.png\n$/,
    );
    expect(existsSync(join(cwd, 'undrawn/wave.svg'))).toBe(true);
  });

  it('needs --force to write again, and then writes the same bytes', () => {
    const before = readFileSync(join(cwd, 'out/wave.motif.json'), 'utf8');
    const refused = linewright(['mend', 'wave.svg', '--out', 'out'], { cwd });
    expect(refused).toMatchObject({ code: 2 });
    expect(refused.stderr).toMatch(/--force/);
    expect(linewright(['mend', 'wave.svg', '--out', 'out', '--force'], { cwd }).code).toBe(0);
    expect(readFileSync(join(cwd, 'out/wave.motif.json'), 'utf8')).toBe(before);
  });

  it('mending what was mended changes nothing, byte for byte', () => {
    const { code, stdout } = linewright(['mend', 'out/wave.motif.json', '--out', 'again', '--to', 'motif'], {
      cwd,
    });
    expect(stdout).toContain('Nothing to mend.');
    expect(code).toBe(0);
    const [first, second] = ['out', 'again'].map((folder) =>
      readFileSync(join(cwd, folder, 'wave.motif.json')),
    );
    expect(second.equals(first)).toBe(true);
  });

  it('never overwrites an input, even with --force', () => {
    const inside = folderWith({ 'wave.svg': gapSvg() });
    const { code } = linewright(['mend', 'wave.svg', '--out', '.', '--to', 'svg', '--force'], {
      cwd: inside,
    });
    expect(code).toBe(2);
    expect(readFileSync(join(inside, 'wave.svg'), 'utf8')).toBe(gapSvg());
  });
});

describe('exit codes and JSON', { timeout: 30_000 }, () => {
  it('exits with 1 where an error is left, and 0 once reshaping mends it', () => {
    const cwd = folderWith({ 'wave.svg': gapSvg(6) });
    const words = ['mend', 'wave.svg', '--to', 'motif', '--json', '--out'];
    const plain = linewright([...words, 'a'], { cwd });
    expect(plain.code).toBe(1);
    const shaped = linewright([...words, 'b', '--reshape'], { cwd });
    expect(shaped.code).toBe(0);
    const { linewright: version, files, summary } = JSON.parse(shaped.stdout);
    expect(version).toMatch(/^\d+\.\d+\.\d+$/);
    expect(summary).toMatchObject({ files: 1, errors: 0 });
    expect(files[0].motif.strokes).toBe(1);
    expect(files[0].before.map(({ rule }: { rule: string }) => rule)).toContain('one-stroke');
    expect(files[0].findings.map(({ rule }: { rule: string }) => rule)).not.toContain('one-stroke');
    expect(files[0].mended).toContainEqual({ mend: 'route', places: 1, addedMm: 6, movedMm: 0 });
    expect(files[0].written).toEqual([join('b', 'wave.motif.json')]);
  });

  it('does the mends that are named, and no others', () => {
    const cwd = folderWith({ 'wave.svg': gapSvg() });
    const mended = (...words: string[]) =>
      JSON.parse(
        linewright(['mend', 'wave.svg', '--out', words[0].slice(2), '--to', 'csv', '--json', ...words], {
          cwd,
        }).stdout,
      ).files[0].mended.map(({ mend }: { mend: string }) => mend);
    expect(mended('--only', 'drop')).toEqual(['drop']);
    expect(mended('--skip', 'drop')).toEqual(['join']);
  });

  it('says which mends there are where one is misspelt', () => {
    const cwd = folderWith({ 'wave.svg': waveSvg });
    const { code, stdout, stderr } = linewright(['mend', 'wave.svg', '--out', 'o', '--only', 'jion'], {
      cwd,
    });
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(/--only takes .*drop, join, .*"jion".*"join"/);
  });

  it('does the others where one file cannot be read, and exits with 2', () => {
    const cwd = folderWith({ 'wave.svg': gapSvg(), 'bad.svg': '<svg' });
    mkdirSync(join(cwd, 'out'));
    const { code, stdout } = linewright(['mend', 'bad.svg', 'wave.svg', '--out', 'out', '--json'], { cwd });
    expect(code).toBe(2);
    expect(JSON.parse(stdout).summary).toMatchObject({ files: 2, unreadable: 1 });
    expect(existsSync(join(cwd, 'out/wave.motif.json'))).toBe(true);
  });
});

describe('what is stitched is chosen', { timeout: 30_000 }, () => {
  const guided = waveSvg.replace(
    '</svg>',
    '<g id="Centre"><path fill="none" stroke="blue" stroke-dasharray="3" d="M0 20H100"/></g></svg>',
  );
  const cwd = folderWith({ 'wave.svg': guided });
  const mended = (...words: string[]) =>
    linewright(['mend', 'wave.svg', '--out', 'out', '--force', '--to', 'motif', '--json', ...words], { cwd });

  it.each([['--skip-dashed'], ['--colour', 'black', '--colour', 'green'], ['--colour', '#000']])(
    '%s %s %s %s',
    (...words) => {
      const run = mended(...words);
      expect(run.stderr).toBe('');
      const [file] = JSON.parse(run.stdout).files;
      expect(file.motif).toMatchObject({
        strokes: 1,
        lengthMm: expect.closeTo(2 * Math.hypot(25, 20) + Math.hypot(50, 40), 3),
      });
      expect(JSON.parse(readFileSync(join(cwd, 'out/wave.motif.json'), 'utf8')).strokes).toHaveLength(1);
    },
  );

  it('names the guide where nothing is said, and says what is there where nothing is left', () => {
    const { stdout } = linewright(['check', 'wave.svg'], { cwd });
    expect(stdout).toContain('1 dashed line looks like a guide');
    const none = linewright(['check', 'wave.svg', '--layer', 'Quilting'], { cwd });
    expect(none).toMatchObject({ code: 2 });
    expect(none.stderr).toMatch(/only lines that were not asked for by layer, colour or dash\. /);
    expect(none.stderr).toMatch(
      /(The (?:only layer with lines in it is|layers with lines in it are) ".*"|in no layer that has a name)\./,
    );
  });
});

describe('what no mend can put right', { timeout: 30_000 }, () => {
  const corner =
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="110mm" viewBox="0 0 100 110">' +
    '<path fill="none" stroke="#000" d="M0 100L30 60L60 110L90 60L100 0"/></svg>';

  it('is said in a sentence and in JSON, and the motif stays as it was', () => {
    const cwd = folderWith({ 'corner.svg': corner });
    const text = linewright(['mend', 'corner.svg', '--out', 'out', '--reshape', '--unit', 'mm'], { cwd });
    expect(text.stdout.replaceAll(/\s+/g, ' ')).toContain('reach: left as it is. The ends are 100 mm');
    // What the mend could not do is not advised again.
    expect(text.stdout).toContain('(level-ends)');
    expect(text.stdout).not.toContain('let linewright');
    expect(text.code).toBe(1);
    const json = linewright(['mend', 'corner.svg', '--out', 'out', '--reshape', '--json', '--force'], {
      cwd,
    });
    const [file] = JSON.parse(json.stdout).files;
    expect(file.notMended).toEqual([{ mend: 'reach', message: expect.stringContaining('more than half') }]);
    expect(file.motif.lengthMm).toBeCloseTo(
      Math.hypot(30, 40) + 2 * Math.hypot(30, 50) + Math.hypot(10, 60),
      2,
    );
  });

  it('--smooth without --reshape is a slip of the call', () => {
    const run = linewright(['mend', 'corner.svg', '--out', 'out', '--smooth', '0.5mm'], {
      cwd: folderWith({ 'corner.svg': corner }),
    });
    expect(run).toMatchObject({ code: 2, stdout: '', stderr: expect.stringContaining('add --reshape') });
  });

  it.each([
    [['--only', 'route', '--skip', 'route'], 'both name route'],
    [['--only', 'smooth'], 'needs a distance'],
  ])('%j is a contradiction, and told', (words, sentence) => {
    const run = linewright(['mend', 'corner.svg', '--out', 'out', ...words], {
      cwd: folderWith({ 'corner.svg': corner }),
    });
    expect(run).toMatchObject({ code: 2, stdout: '', stderr: expect.stringContaining(sentence) });
  });
});
