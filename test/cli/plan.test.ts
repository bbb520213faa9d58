/** `linewright plan`, `resume` and `align` from end to end, on the built program. */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { emptyFolder, linewright, waveSvg } from './run.js';

/** Whole processes, on a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

/** 20 in x 24 in, rolled on twice. */
const quilt = ['plan', 'wave.svg', '--quilt', '20in x 24in', '--throat', '9in', '--unit', 'in'];

function studio(): string {
  const cwd = emptyFolder();
  writeFileSync(join(cwd, 'wave.svg'), waveSvg);
  return cwd;
}

describe('a plan in its folder', () => {
  const cwd = studio();
  const run = (...words: string[]) => linewright(words, { cwd });
  const json = (...words: string[]) => {
    const { code, stdout } = run(...words, '--json');
    return { code, document: JSON.parse(stdout) };
  };
  let plan: ReturnType<typeof JSON.parse>;
  beforeAll(() => {
    const { code, stderr } = run(...quilt, '--out', 'quilt', '--to', 'svg,motif,dxf,csv', '--bobbin', '20yd');
    expect([code, stderr]).toEqual([0, '']);
    plan = JSON.parse(readFileSync(join(cwd, 'quilt/plan.json'), 'utf8'));
  });

  it('holds plan, sheet, picture and every pass in every form, and nothing else', () => {
    const passes = plan.passes.flatMap(({ written }: { written: string[] }) => written);
    expect(readdirSync(join(cwd, 'quilt')).sort()).toEqual(
      ['plan.json', 'plan.html', 'plan.png', ...passes].sort(),
    );
    expect(passes).toHaveLength(4 * plan.passes.length);
    expect(plan.passes.length).toBeGreaterThan(2);
  });

  it('says in a motif file where it lies, and carries the coordinates of the top in the others', () => {
    const [first] = plan.passes;
    const motif = JSON.parse(readFileSync(join(cwd, 'quilt/pass-01.motif.json'), 'utf8'));
    const [x, y] = motif.strokes[0][0];
    expect([motif.place[0] + x, motif.place[1] + y]).toEqual([
      expect.closeTo(first.startMm[0], 2),
      expect.closeTo(first.startMm[1], 2),
    ]);
    const [, row] = readFileSync(join(cwd, 'quilt/pass-01.csv'), 'utf8').split('\r\n');
    expect(row).toBe(`1,1,${first.startMm[0]},${first.startMm[1]}`);
    const layers = readFileSync(join(cwd, 'quilt/pass-01.dxf'), 'utf8').match(/^ {2}8\r\n\w+/gm);
    expect(new Set(layers)).toEqual(new Set(['  8\r\n0', '  8\r\nstitch', '  8\r\nlink']));
  });

  it('goes on from a place, with a picture', () => {
    const [x, y] = plan.passes[1].strokes[0][5];
    const at = `${x}mm; ${y}mm`;
    const { code, document } = json('resume', 'quilt', '--pass', '2', '--at', at, '--out', 'rest');
    expect(code).toBe(0);
    expect(Object.keys(document)).toEqual([
      'pass',
      'atMm',
      'offMm',
      'doneMm',
      'leftMm',
      'stitchesLeft',
      'ways',
      'strokes',
      'written',
    ]);
    expect(document).toMatchObject({ pass: 2, atMm: [x, y], offMm: 0, ways: [{ which: 1 }] });
    expect(document.doneMm + document.leftMm).toBeCloseTo(plan.passes[1].lengthMm, 1);
    expect(document.strokes[0].at(-1)).toEqual(plan.passes[1].endMm);
    expect(document.written).toEqual(['rest/pass-02-rest.svg', 'rest/pass-02-rest.png']);
    expect(readdirSync(join(cwd, 'rest')).sort()).toEqual(['pass-02-rest.png', 'pass-02-rest.svg']);
    const told = run('resume', 'quilt/plan.json', '--pass', '2', '--at', at);
    expect(told.code).toBe(0);
    expect(told.stdout.replace(/\s+/g, ' ')).toMatch(
      /^Pass 2, stopped at [\d /]+ in across, [^:]*: [^:]* are left: [\d,]+ stitches/,
    );
  });

  it('lines a pass up where the needle found its places, and the rest of one too', () => {
    const [[ax, ay], [bx, by]] = plan.passes[1].checkMm;
    const found = `${ax + 10}mm, ${ay - 4}mm; ${bx + 10}mm, ${by - 4}mm`;
    const { code, document } = json('align', 'quilt', '--pass', '2', '--found', found, '--out', 'lined');
    expect(code).toBe(0);
    expect(document).toMatchObject({
      pass: 2,
      turnDeg: 0,
      moveMm: [10, -4],
      stretchPercent: 0,
      warning: null,
    });
    expect(document.written).toEqual(['lined/pass-02-aligned.svg']);
    const [[[x, y]]] = document.strokes;
    expect([x - 10, y + 4]).toEqual(plan.passes[1].startMm.map((mm: number) => expect.closeTo(mm, 2)));
    // Spaces serve where the semicolon stood.
    expect(json('align', 'quilt', '--pass', '2', '--found', found.replace(';', '')).document.moveMm).toEqual([
      10, -4,
    ]);
    const [px, py] = plan.passes[1].strokes[0][5];
    const rest = json(
      'resume',
      'quilt',
      '--pass',
      '2',
      '--at',
      `${px}mm; ${py}mm`,
      '--overlap',
      '0',
      '--found',
      found,
    );
    expect(rest.document.strokes[0][0]).toEqual([expect.closeTo(px + 10, 2), expect.closeTo(py - 4, 2)]);
    expect(rest.document.aligned).toMatchObject({ moveMm: [10, -4] });
  });

  it('is not written over, and of a new plan with fewer passes none of the old ones stay', () => {
    const again = run(...quilt, '--out', 'quilt');
    expect(again.code).toBe(2);
    expect(again.stderr).toMatch(/exists already; --force overwrites it/);
    const other = emptyFolder();
    writeFileSync(join(other, 'wave.svg'), waveSvg);
    writeFileSync(join(other, 'mine.svg'), waveSvg);
    expect(linewright([...quilt, '--out', '.', '--to', 'svg'], { cwd: other }).code).toBe(0);
    expect(existsSync(join(other, 'pass-03.svg'))).toBe(true);
    const one = ['plan', 'wave.svg', '--quilt', '20in x 24in', '--out', '.', '--force'];
    expect(linewright(one, { cwd: other }).code).toBe(0);
    expect(readdirSync(other).sort()).toEqual([
      'mine.svg',
      'pass-01.svg',
      'plan.html',
      'plan.json',
      'plan.png',
      'wave.svg',
    ]);
  });

  it('is written all or not at all', () => {
    const other = studio();
    // A folder in the place of the last of its files.
    mkdirSync(join(other, 'quilt/pass-02.svg'), { recursive: true });
    const { code, stderr } = linewright([...quilt, '--out', 'quilt'], { cwd: other });
    expect(code).toBe(2);
    expect(stderr).toMatch(/pass-02\.svg: cannot be written, this is a folder/);
    expect(readdirSync(join(other, 'quilt'))).toEqual(['pass-02.svg']);
  });
});

describe('what cannot be planned', () => {
  const cwd = studio();
  const refused = (words: readonly string[], sentence: RegExp, code = 2) => {
    const run = linewright([...words, '--out', 'never'], { cwd });
    expect(run.code, run.stderr + run.stdout).toBe(code);
    const told = code === 2 ? run.stderr : run.stdout;
    expect(told.replace(/\s+/g, ' ')).toMatch(sentence);
    expect(existsSync(join(cwd, 'never'))).toBe(false);
  };
  const plan = (...words: string[]) => ['plan', 'wave.svg', ...words];

  it.each([
    ['0 x 60in', /width and height are above 0/],
    ['-5in x 60in', /no length is below 0/],
    ['60in', /--quilt takes a width and a height such as "60in x 72in", not "60in"/],
    ['sixty x 60in', /--quilt takes a width and a height/],
    ['1km x 1km', /not a length/],
  ])('a top of %s', (size, sentence) => refused(plan('--quilt', size), sentence));

  it('a top of a kilometre, with the number of points', () =>
    refused(plan('--quilt', '1000m x 1000m'), /would have at least [\d,]{9,} points; at most 5,000,000/));

  it('a margin larger than the top', () =>
    refused(
      plan('--quilt', '10in x 10in', '--margin', '6in'),
      /A margin of 6 in .* is more than the top itself/,
    ));

  it('a throat under the motif, with the row and the largest height', () => {
    refused(plan('--quilt', '60in x 72in', '--throat', '1in'), /is taller than the throat/, 1);
    const { stdout, code } = linewright([...plan('--quilt', '60in x 72in', '--throat', '1in'), '--json'], {
      cwd,
    });
    expect(code).toBe(1);
    const { error, passes } = JSON.parse(stdout);
    expect(error).toMatchObject({ row: 1 });
    expect(error.largestHeightMm).toBeLessThanOrEqual(25.4);
    expect(passes).toEqual([]);
  });

  it('passes, where no throat is given: it says so, and how to give one', () => {
    const without = /No throat was given, so all rows are taken as one pass\. .*--throat 18in/;
    const said = (...words: string[]) =>
      linewright(plan('--quilt', '60in x 72in', ...words), { cwd }).stdout.replace(/\s+/g, ' ');
    expect(said()).toMatch(without);
    expect(said('--throat', '18in')).not.toMatch(without);
  });

  it('choices, runs and shares that there are not', () => {
    const top = ['--quilt', '20in x 24in'];
    refused(plan(...top, '--choose', '99'), /--choose takes/);
    refused(plan(...top, '--choose', '0'), /--choose takes the number of a choice, from 1, not "0"/);
    refused(plan(...top, '--runs', 'sideways'), /--runs takes back-and-forth or one-way, not "sideways"/);
    refused(plan(...top, '--resize', '80%'), /--resize takes a percentage from 0 to 50/);
    refused(plan(...top, '--to', 'gold'), /--to takes .* not "gold"/);
  });

  it('a motif in pieces, naming the mend', () => {
    writeFileSync(
      join(cwd, 'pieces.svg'),
      '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="40mm" viewBox="0 0 100 40">' +
        '<path fill="none" stroke="#000" d="M0 20L40 0M60 40L100 20"/></svg>',
    );
    refused(
      ['plan', 'pieces.svg', '--quilt', '20in x 24in'],
      /pieces\.svg is not planned: .*linewright mend .*--reshape/,
      1,
    );
  });
});

describe('going on with what is no plan, or with places that cannot be', () => {
  const cwd = studio();
  beforeAll(() => {
    expect(linewright([...quilt, '--out', 'quilt'], { cwd }).code).toBe(0);
    const text = readFileSync(join(cwd, 'quilt/plan.json'), 'utf8');
    writeFileSync(join(cwd, 'cut.json'), text.slice(0, -1000));
    writeFileSync(join(cwd, 'newer.json'), text.replace('"version":1', '"version":7'));
    writeFileSync(join(cwd, 'other.json'), text.replace('"widthMm":508', '"widthMm":300'));
  });
  const align = (plan: string, found: string, ...words: string[]) => [
    'align',
    plan,
    '--found',
    found,
    ...words,
  ];

  it.each([
    [['align', 'quilt', '--pass', '9', '--found', '0,0;5,0'], /there is no pass 9; the plan has \d/],
    [
      ['align', 'quilt', '--pass', 'two', '--found', '0,0;5,0'],
      /--pass takes the number of a pass, from 1, not "two"/,
    ],
    [align('quilt', '1in, 9in; 1in, 9in', '--pass', '2'), /two found places are one and the same/],
    [align('quilt', '1in, 9in', '--pass', '2'), /--found takes two places such as/],
    [align('quilt', '1in, 9in; 20in, 9in', '--pass', '1'), /Pass 1 has no two places to check: .*--expected/],
    [align('cut.json', '1in, 9in; 20in, 9in', '--pass', '2'), /cut\.json: this plan is damaged/],
    [align('newer.json', '1in, 9in; 20in, 9in', '--pass', '2'), /plan version 7 is newer than version 1/],
    [align('other.json', '1in, 9in; 20in, 9in', '--pass', '2'), /of another top/],
    [
      align('wave.svg', '1in, 9in; 20in, 9in', '--pass', '2'),
      /wave\.svg: this is no plan: name the folder that linewright plan wrote/,
    ],
    [align('none', '1in, 9in; 20in, 9in', '--pass', '2'), /none: there is no such file or folder/],
    [['resume', 'quilt', '--pass', '1', '--at', '5in; 100in'], /off the line of pass 1/],
    [['resume', 'quilt', '--pass', '1', '--at', '5in'], /--at takes a place such as/],
    [['resume', 'quilt', '--pass', '1', '--at', '-1in; 0', '--which', '7'], /--which|off the line/],
    [
      ['resume', 'quilt', '--pass', '1', '--at', '5in; 0', '--overlap', 'some'],
      /--overlap "some" is not a length/,
    ],
  ])('%j', (words, sentence) => {
    const { code, stdout, stderr } = linewright([...words, '--out', 'never'], { cwd });
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^[^\n]+\n$/);
    expect(stderr).toMatch(sentence);
    expect(existsSync(join(cwd, 'never'))).toBe(false);
  });
});
