/** What the command line answers to what it cannot do: one sentence on stderr, exit code 2, nothing on stdout. */
import { mkdirSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { emptyFolder, linewright, waveSvg } from './run.js';

/** Whole processes, on a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

function folderWithWave(): string {
  const cwd = emptyFolder();
  writeFileSync(join(cwd, 'wave.svg'), waveSvg);
  return cwd;
}

describe('wrong usage', () => {
  const cwd = folderWithWave();
  symlinkSync('nothing-there', join(cwd, 'leads-nowhere'));
  const cases: readonly (readonly [words: string, says: RegExp])[] = [
    ['convrt wave.svg', /no command "convrt".*"convert"/],
    ['library bild', /"library bild".*"library build"/],
    ['convert wave.svg', /--out is needed/],
    ['resume wave.svg', /^--pass \(number of the pass\) and --at \(where it stopped, .+\) are needed\.$/m],
    ['convert wave.svg --ot o', /no option --ot.*"out"/],
    ['--json', /The command comes first/],
    ['library --json', /library takes one of these: library build, library list/],
    ['convert --out o', /Name at least one file/],
    ['convert wave.svg --out o --hight 5in', /no option --hight.*"height"/],
    ['convert wave.svg --out o --pixel 5', /no option --pixel.*"pixels"/],
    ['convert wave.svg --out o --height', /--height needs a value/],
    ['convert wave.svg --out o --height tall', /--height "tall" is not a length/],
    ['convert wave.svg --out o --height 0mm', /--height cannot be 0mm/],
    ['convert wave.svg --out o --height 5in --width 5in', /--height and --width cannot be set together/],
    ['convert wave.svg --out o --height 5in --height 6in', /--height is given twice/],
    ['check -', /"-" is no file/],
    ['rows ', /^A name is empty: name a file or a folder\.$/m],
    ['check wave.svg ', /^A name is empty/m],
    ['library list ', /^A name is empty/m],
    ['convert wave.svg --out ', /^--out is empty: give it a value \(folder for the results\)\.$/m],
    ['mend wave.svg --out=', /^--out is empty/m],
    ['plan wave.svg --quilt 60x72 --out ', /^--out is empty/m],
    ['check wave.svg --picture ', /^--picture is empty/m],
    ['check wave.svg --config ', /^--config is empty/m],
    ['check wave.svg --layer a --layer ', /^--layer is empty/m],
    ['check wave.svg --height ', /^--height is empty/m],
    ['library build wave.svg --out ', /^--out is empty/m],
    ['paper wave.svg --out wave.pdf --paper a5', /^--paper takes letter, .*, a4, .*not "a5"\./m],
    ['library list nowhere --name ', /^--name is empty/m],
    ['library tag nowhere wave --add ', /^--add is empty/m],
    [
      'mend wave.svg --out leads-nowhere',
      /^leads-nowhere.*cannot be written, there is a link that leads nowhere\.$/m,
    ],
    ['rows -', /"-" is no file/],
    ['convert wave.svg --out o --unit ft', /--unit takes one of "in", "mm"/],
    ['convert wave.svg --out o --take line', /--take takes one of.*"lines"/],
    ['convert wave.svg --out o --to motif,sgv', /--to takes motif, svg, .*"svg"/],
    ['convert wave.svg --out o --pixels 0', /--pixels takes a whole number/],
    ['convert wave.svg --out o --pixels 12.5', /--pixels takes a whole number/],
    ['convert wave.svg --out o --rows bricks', /--rows takes one of.*"brick"/],
    ['convert wave.svg --out o --spi 0', /--spi takes a number from 1/],
    ['check wave.svg -height 3in', /typed with two dashes: --height\.$/m],
    ['mend wave.svg --out o --layout brick', /mend has no option --layout\. check, .*have\.$/m],
    ['check --bogus wave.svg --json', /check has no option --bogus\.$/m],
    ['convert wave.svg --out o --to pdf', /not "pdf"\.$/m],
    ['convert wave.svg -o out', /typed with two dashes: --height, for instance\.$/m],
    ['convert wave.svg --out wave.svg', /^wave\.svg: this is a file; name a folder\.$/m],
    ['mend wave.svg --out wave.svg', /^wave\.svg: this is a file; name a folder\.$/m],
    ['sheet wave.svg --out wave.svg/wave.html', /^wave\.svg: this is a file; name a folder\.$/m],
    ['library build wave.svg --out wave.svg', /^wave\.svg: this is a file; name a folder\.$/m],
    ['sheet wave.svg --out .', /this is a folder; name a file in it/],
    ['sheet wave.svg --out sheets/', /this is a folder; name a file in it/],
    ['sheet wave.svg --out wave.pdf', /let --out end in \.html/],
    ['rows wave.svg --picture rows', /let --picture end in \.png/],
    ['check wave.svg --verdict clean', /check has no option --verdict\. library list has\.$/m],
    ['check wave.svg --appearance fine', /check has no option --appearance\.$/m],
    ['check wave.svg --clearence 1in', /Did you mean "clearance"\?$/m],
    ['rows wave.svg --picture rows.png/', /let --picture end in \.png/],
    ['library build nowhere --out library', /nowhere: there is no such file or folder/],
    ['check wave.svg --json=maybe', /^--json takes true or false, not "maybe"\.$/m],
    ['check wave.svg --json=', /^--json takes true or false, not ""\.$/m],
    ['check wave.svg --skip-dashed=yes', /^--skip-dashed takes true or false, not "yes"\.$/m],
    ['check wave.svg --skipDashed=no', /^--skip-dashed takes true or false, not "no"\.$/m],
    ['convert wave.svg --out o --force=1', /^--force takes true or false, not "1"\.$/m],
    ['check wave.svg --help=maybe', /^--help takes true or false, not "maybe"\.$/m],
    ['convert wave.svg --out o --config none.json', /none\.json: there is no such file/],
  ];

  it.each(cases)('linewright %s', (words, says) => {
    const { code, stdout, stderr } = linewright(words.split(' '), { cwd });
    expect(stderr).toMatch(says);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(stderr).not.toMatch(/^\s+at |Error:/m);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
  });

  it('takes a flag that is told true or false at its word', () => {
    for (const [word, start] of [
      ['--json=true', '{'],
      ['--json=false', 'wave.svg: '],
    ]) {
      const { code, stdout } = linewright(['check', 'wave.svg', word], { cwd });
      expect({ code, start: stdout.slice(0, start.length) }).toEqual({ code: 0, start });
    }
  });

  it('leaves nothing behind', () => {
    expect(readdirSync(cwd)).toEqual(['leads-nowhere', 'wave.svg']);
  });

  it('prints no document with --json either', () => {
    const { code, stdout } = linewright(['convert', 'wave.svg', '--json', '--oops'], { cwd });
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    for (const words of [
      'rows wave.svg --spacing wide',
      'resume q --pass 0 --at 1;1',
      'library list q --order x',
    ])
      expect(linewright([...words.split(' '), '--json'], { cwd })).toMatchObject({ code: 2, stdout: '' });
  });
});

describe('what cannot be done', () => {
  const cwd = folderWithWave();
  writeFileSync(join(cwd, 'blank.svg'), waveSvg.replace(/<path.*?>/, ''));
  mkdirSync(join(cwd, 'none'));

  it.each([
    'rows nowhere.svg',
    'rows blank.svg',
    'rows wave.svg --picture none/../blank.svg/x.png',
    'paper wave.svg --out blank.svg/x.pdf',
    'plan nowhere.svg --quilt 60x72',
    'resume nowhere --pass 1 --at 1;1',
    'align none --pass 1 --found 1,1;2,2',
    'library list none',
    'library list wave.svg',
    'library check none',
    'library build nowhere --out none',
    'check nowhere.svg',
    'check none/*.svg',
    'mend blank.svg --out none',
    'convert none --out made',
  ])('is told to a program in the one document: %s --json', (words) => {
    const { code, stdout, stderr } = linewright([...words.split(' '), '--json'], { cwd });
    expect(code).toBe(2);
    const sentence = stderr.trimEnd();
    expect(sentence).toMatch(/^[^\n]+\.$/);
    const { error, complaints, files } = JSON.parse(stdout);
    expect(error?.message ?? error ?? complaints?.[0] ?? files[0].error).toBe(sentence);
    expect(linewright(words.split(' '), { cwd })).toEqual({ code, stdout: '', stderr });
  });
});

describe('help', () => {
  it('is short and within 80 columns where no command is named', () => {
    const { stdout, stderr } = linewright([]);
    expect(stderr).toBe('');
    const lines = stdout.split('\n');
    // Two screens of a terminal at most.
    expect(lines.length).toBeLessThan(48);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(80);
    for (const command of ['check', 'convert', 'mend', 'rules', 'sheet', 'library']) {
      expect(stdout).toContain(`linewright ${command}`);
    }
  });

  it('is given for -h as for --help, with and without a command', () => {
    for (const words of [[], ['library'], ['check'], ['check', 'wave.svg']]) {
      const help = linewright([...words, '--help']);
      expect(help.code).toBe(0);
      expect(linewright([...words, '-h'])).toEqual(help);
    }
  });

  it('names every common option of a command, and ends with 0', () => {
    const { code, stdout } = linewright(['convert', '--help']);
    expect(code).toBe(0);
    for (const option of [
      'height',
      'width',
      'unit',
      'spi',
      'throat',
      'clearance',
      'batting',
      'take',
      'config',
    ]) {
      expect(stdout).toContain(`--${option}`);
    }
  });
});

describe('linewright.json', () => {
  it('is found upwards from the working folder, and a wrong key is answered with the nearest right one', () => {
    const cwd = folderWithWave();
    writeFileSync(join(cwd, 'linewright.json'), '{ "hieght": "2in" }');
    const { code, stderr } = linewright(['convert', 'wave.svg', '--out', 'o'], { cwd });
    expect(code).toBe(2);
    expect(stderr).toMatch(/linewright\.json: there is no setting "hieght"\. Did you mean "height"\?/);
  });

  it('gives the size, and the command line goes before it', () => {
    const cwd = folderWithWave();
    writeFileSync(join(cwd, 'linewright.json'), '{ "height": "2in" }');
    expect(linewright(['convert', 'wave.svg', '--out', 'a', '--to', 'csv'], { cwd }).stdout).toContain(
      '5 x 2 in',
    );
    const typed = ['convert', 'wave.svg', '--out', 'b', '--to', 'csv', '--width', '2 1/2in'];
    expect(linewright(typed, { cwd }).stdout).toContain('2 1/2 x 1 in');
  });
});
