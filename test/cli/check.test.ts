/** `linewright check` from end to end, on the built program. */
import { copyFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import pngjs from 'pngjs';
import { describe, expect, it, vi } from 'vitest';
import { pageOn } from '../../src/cli/page.js';
import { emptyFolder, linewright, waveSvg } from './run.js';

/** Whole processes, on a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000 });

const corpus = new URL('../../corpus/', import.meta.url).pathname;
const clean = `${corpus}motifs/net.svg`;
const gaps = `${corpus}rules/near-gap/fail-four-gaps.svg`;
const warned = `${corpus}rules/physical-size/fail-bare-viewbox.svg`;

/** A small drawing with this for its lines. */
function drawing(lines: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100"><g fill="none" stroke="#000">${lines}</g></svg>`;
}

describe('exit code', () => {
  it.each([
    ['clean', [clean], 0],
    ['warnings only', [warned], 0],
    ['errors', [gaps], 1],
    ['missing', ['nope.svg'], 2],
    ['clean and errors', [clean, gaps], 1],
    ['errors and missing', [gaps, 'nope.svg', clean], 2],
    ['no file at all', [], 2],
  ])('%s', (_, files, code) => {
    expect(linewright(['check', ...files]).code).toBe(code);
  });
});

describe('--json', () => {
  const { stdout, stderr } = linewright(['check', '--json', clean, gaps, 'nope.svg', warned]);
  const document = JSON.parse(stdout);

  it('is one document with the keys that scripts rely on', () => {
    expect(Object.keys(document)).toEqual(['linewright', 'setup', 'files', 'summary']);
    expect(document.linewright).toBe(JSON.parse(readFileSync(`${corpus}../package.json`, 'utf8')).version);
    const [first] = document.files;
    expect(Object.keys(first)).toEqual(['file', 'status', 'motif', 'rows', 'stitches', 'findings']);
    expect(Object.keys(first.motif)).toEqual([
      'widthMm',
      'heightMm',
      'lengthMm',
      'strokes',
      'points',
      'startMm',
      'endMm',
      'repeatMm',
      'crossings',
      'retraceMm',
      'assumedSize',
    ]);
    expect(Object.keys(first.rows)).toEqual([
      'layout',
      'clearanceMm',
      'closestSpacingMm',
      'evenSpacingMm',
      'nestingOffsetMm',
      'innerOpenMm',
      'seamOpenMm',
      'unevenness',
      'openness',
      'evenness',
    ]);
    expect(Object.keys(first.stitches)).toEqual([
      'stitchLengthMm',
      'count',
      'needleThreadM',
      'bobbinThreadM',
    ]);
  });

  it('sums up the files, the unreadable one among them', () => {
    expect(document.files.map(({ file, status }: Record<string, string>) => [file, status])).toEqual([
      [clean, 'clean'],
      [gaps, 'errors'],
      ['nope.svg', 'unreadable'],
      [warned, 'warnings'],
    ]);
    expect(document.summary).toEqual({ files: 4, clean: 1, warnings: 1, errors: 1, unreadable: 1 });
    expect(document.files[2]).toEqual({
      file: 'nope.svg',
      status: 'unreadable',
      error: 'nope.svg: there is no such file or folder.',
    });
    expect(stderr).toBe('nope.svg: there is no such file or folder.\n');
  });

  it('gives a finding its places and its number in millimetres, whatever the unit', () => {
    const inMm = JSON.parse(linewright(['check', '--json', '--unit', 'mm', gaps]).stdout);
    const found = inMm.files[0].findings.find(({ rule }: { rule: string }) => rule === 'near-gap');
    expect(Object.keys(found)).toEqual([
      'rule',
      'severity',
      'message',
      'placesMm',
      'measured',
      'limit',
      'unit',
      'mend',
    ]);
    expect(found).toMatchObject({
      severity: 'error',
      measured: expect.closeTo(0.8, 3),
      limit: 0.01,
      unit: 'mm',
      mend: 'join',
    });
    expect(found.placesMm.length).toBe(4);
    const inInches = document.files[1].findings.find(({ rule }: { rule: string }) => rule === 'near-gap');
    expect({ ...inInches, message: '' }).toEqual({ ...found, message: '' });
  });

  it('is not printed at all where the call is wrong', () => {
    expect(linewright(['check', '--json', '--hight', '3in', clean])).toMatchObject({ code: 2, stdout: '' });
  });
});

describe('the report', () => {
  const { stdout } = linewright(['check', clean, gaps, warned, 'nope.svg']);

  it('keeps to 80 columns and to plain text in a pipe', () => {
    const longPath = 1 + Math.max(...[clean, gaps, warned].map((path) => path.length)) + ' warnings'.length;
    for (const line of stdout.split('\n'))
      expect(line.length).toBeLessThanOrEqual(line.startsWith('/') ? longPath : 80);
    expect(stdout.includes('\u001b')).toBe(false);
  });

  it('says name, verdict, size in both units, and each finding with numbered places', () => {
    expect(stdout).toContain(`${clean}: clean\n  Size: 9 7/16 x 3 1/16 in (240 x 78 mm)\n`);
    expect(stdout).toContain(`${gaps}: errors\n`);
    expect(stdout).toContain('nope.svg: could not be read\n');
    const report = stdout.slice(stdout.indexOf(gaps), stdout.indexOf(warned));
    expect(report).toMatch(/ERROR At 4 places ends look joined .*\n.*\(near-gap\)\n {4}\[1\] .*\n {4}\[2\] /);
    expect([...report.matchAll(/\[(\d+)\]/g)].map(([, number]) => Number(number))).toEqual([1, 2, 3, 4, 5]);
  });

  it('ends with a line for all the files, but not for one alone', () => {
    const line = '4 files: 1 clean, 1 with warnings, 1 with errors, 1 that could not be read\n';
    expect(stdout.endsWith(line)).toBe(true);
    expect(linewright(['check', clean]).stdout).not.toContain('1 file:');
  });

  it('puts millimetres first where they are the unit', () => {
    expect(linewright(['check', '--unit', 'mm', clean]).stdout).toContain(
      'Size: 240 x 78 mm (9 7/16 x 3 1/16 in)',
    );
  });

  it('sums up dozens of places and tells the worst few', () => {
    const cwd = emptyFolder();
    const hooks = Array.from({ length: 24 }, (_, i) => `L${8 * i + 4} 20L${8 * i + 4.2} 80`).join('');
    writeFileSync(join(cwd, 'spikes.svg'), drawing(`<path d="M0 80${hooks}L200 80"/>`));
    const report = linewright(['check', 'spikes.svg'], { cwd }).stdout;
    expect(report).toMatch(
      /note The line doubles back at (\d\d) points[^[]*(\[\d+\].*\n\s+){5}and \d+ more places/,
    );
  });

  it('shows terminal codes in names instead of obeying them', () => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, 'a\u001b[31m.svg'), drawing('<path id="&#155;31m" d="M0 50L200 50M3 3L"/>'));
    const { stdout: shown } = linewright(['check', 'a\u001b[31m.svg'], { cwd });
    expect(shown).toContain('a\\u001b[31m.svg: ');
    expect(shown).toContain("path '\\u009b31m' breaks off");
    for (const code of ['\u001b', '\u009b']) expect(shown).not.toContain(code);
  });
});

describe('colour', () => {
  const painted = (stream: { isTTY?: boolean }, env: Record<string, string>) =>
    pageOn(stream, env).paint.red('x') !== 'x';

  it('on a terminal only, and not where NO_COLOR is set (no-color.org) or the terminal is dumb', () => {
    expect(painted({ isTTY: true }, { TERM: 'xterm' })).toBe(true);
    expect(painted({}, { TERM: 'xterm' })).toBe(false);
    expect(painted({ isTTY: true }, { TERM: 'xterm', NO_COLOR: '1' })).toBe(false);
    expect(painted({ isTTY: true }, { TERM: 'xterm', NO_COLOR: '' })).toBe(true);
    expect(painted({ isTTY: true }, { TERM: 'dumb' })).toBe(false);
  });
});

describe('--picture', () => {
  it('draws each motif, gives two of the same name two pictures, and overwrites only with --force', () => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, 'net.svg'), waveSvg);
    const words = ['check', clean, 'net.svg', '--picture', 'seen'];
    expect(linewright(words, { cwd }).code).toBe(0);
    for (const name of ['net.png', 'net-2.png']) {
      const { width } = pngjs.PNG.sync.read(readFileSync(join(cwd, 'seen', name)));
      expect(width).toBe(1200);
    }
    expect(linewright(words, { cwd }).code).toBe(2);
    expect(linewright([...words, '--force'], { cwd }).code).toBe(0);
  });

  it('gives its report also where the picture cannot be written, and does not call the motif unreadable', () => {
    const cwd = emptyFolder();
    copyFileSync(clean, join(cwd, 'net.svg'));
    writeFileSync(join(cwd, 'net.png'), 'mine');
    const { code, stdout, stderr } = linewright(['check', 'net.svg', '--picture', '.'], { cwd });
    expect(code).toBe(2);
    expect(stdout).toMatch(/^net\.svg: clean\n {2}Size: /);
    expect(stderr).toBe('net.png: exists already; --force overwrites it.\n');
    // Nor among others, where the line at the end counts it with its verdict.
    writeFileSync(join(cwd, 'wave.svg'), waveSvg);
    const both = linewright(['check', 'net.svg', 'wave.svg', '--picture', '.'], { cwd });
    expect(both.code).toBe(2);
    expect(both.stdout).not.toMatch(/: could not be read/);
    expect(both.stdout).toMatch(/^2 files: 2 clean, .* 0 that could not be read$/m);
    expect(both.stderr).toBe('net.png: exists already; --force overwrites it.\n');
  });

  it('says of a file named as its folder what it is, and reports all the same', () => {
    const cwd = emptyFolder();
    copyFileSync(clean, join(cwd, 'net.svg'));
    const { code, stdout, stderr } = linewright(['check', 'net.svg', '--picture', 'net.svg'], { cwd });
    expect(code).toBe(2);
    expect(stdout).toMatch(/^net\.svg: clean\n {2}Size: /);
    expect(stderr).toBe('net.svg: this is a file; name a folder.\n');
  });

  it('takes files by any name, also after --', () => {
    const cwd = emptyFolder();
    for (const name of ['12', '-3.svg', 'net.svg']) copyFileSync(clean, join(cwd, name));
    const { stdout } = linewright(['check', '--json', 'net.svg', '12', '--', '-3.svg', '0012'], { cwd });
    const { files } = JSON.parse(stdout);
    expect(files.map(({ file, status }: Record<string, string>) => [file, status])).toEqual([
      ['net.svg', 'clean'],
      ['12', 'clean'],
      ['./-3.svg', 'clean'],
      ['0012', 'unreadable'],
    ]);
  });

  it('writes none where it is not asked for', () => {
    const cwd = emptyFolder();
    copyFileSync(clean, join(cwd, 'net.svg'));
    linewright(['check', 'net.svg'], { cwd });
    expect(existsSync(join(cwd, 'net.png'))).toBe(false);
  });
});

describe('settings', () => {
  const rulesOf = (cwd: string, words: readonly string[] = []) =>
    JSON.parse(linewright(['check', '--json', ...words, gaps], { cwd }).stdout).files[0].findings.map(
      ({ severity, rule }: Record<string, string>) => `${severity} ${rule}`,
    );

  it('of a rule: its weight, its limits, or off', () => {
    const cwd = emptyFolder();
    expect(rulesOf(cwd)).toEqual(['error near-gap', 'info opposite-edges']);
    const rules = { 'near-gap': { severity: 'warning' }, 'opposite-edges': { limits: { insideMm: 20 } } };
    writeFileSync(join(cwd, 'linewright.json'), JSON.stringify({ rules }));
    expect(rulesOf(cwd)).toEqual(['warning near-gap']);
    writeFileSync(join(cwd, 'linewright.json'), '{"rules": {"near-gap": {"severity": "off"}}}');
    expect(rulesOf(cwd)).toEqual(['info opposite-edges']);
  });

  it('--throat asks whether the motif fits', () => {
    expect(rulesOf(emptyFolder(), ['--throat', '4in'])).toContain('error fits-throat');
    expect(rulesOf(emptyFolder(), ['--throat', '6in'])).not.toContain('error fits-throat');
  });

  it('answers what was asked, also where nothing is wrong, and nothing that was not', () => {
    const asked = linewright(['check', clean, '--throat', '9in', '--spacing', '8in', '--batting', '9in']);
    const text = asked.stdout.replace(/\s+/g, ' ');
    expect(text).toContain('Throat: fits the 9 in (228.6 mm) there are');
    expect(text).toMatch(/At 8 in \(203.2 mm\): straight rows keep clear, [^;]+ apart at the nearest/);
    expect(text).toMatch(
      /Open circles at 8 in \(203.2 mm\): up to [^;]+; the batting allows 9 in \(228.6 mm\)/,
    );
    expect(linewright(['check', clean]).stdout).not.toMatch(/Throat:|Open circles|^ {2}At /m);
  });
});
