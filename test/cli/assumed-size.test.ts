/** A drawing that does not say how large it is: every command that goes by its size says so, until somebody settles it. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { emptyFolder, linewright, waveSvg } from './run.js';

/** Whole processes, on a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000 });

/** 960 x 384 units: 10 x 4 in at 96 to the inch (CSS Values and Units 3, 6.2), at 72 a third more. */
const bareSvg =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 960 384">' +
  '<path fill="none" stroke="#000" d="M0 192L240 0L720 384L960 192"/></svg>';
const doubt =
  'The file does not say how large the motif is. At 96 units to the inch, as taken here, it is 10 x 4 in (254 x 101.6 mm); at 72 it would be 13 5/16 x 5 5/16 in (338.7 x 135.5 mm). Give its size with --height or --width.';
const carried =
  'The drawing that the motif was made from does not say how large it is: 10 x 4 in (254 x 101.6 mm) is only assumed. Give its size with --height or --width.';

const cwd = emptyFolder();
writeFileSync(join(cwd, 'bare.svg'), bareSvg);
writeFileSync(join(cwd, 'wave.svg'), waveSvg);
const off = JSON.stringify({ rules: { 'physical-size': { severity: 'off' } } });
writeFileSync(join(cwd, 'off.json'), off);

/** How often the text says so, wherever its lines break. */
const times = (text: string, sentence: string) => text.replace(/\s+/g, ' ').split(sentence).length - 1;
const run = (words: string) => linewright(words.split(' '), { cwd });
const quilt = '--quilt 40inx20in';

describe.each([
  ['check', 'check FILE'],
  ['mend', 'mend FILE --out OUT'],
  ['convert', 'convert FILE --out OUT'],
  ['rows', 'rows FILE'],
  ['paper', 'paper FILE --out OUT.pdf'],
  ['plan', `plan FILE ${quilt}`],
  ['plan, which comes to none', `plan FILE ${quilt} --throat 2in`],
])('%s', (name, call) => {
  const called = (file: string, out: string) =>
    call.replace('FILE', file).replace('OUT', `${name[0]}-${out}`);

  it('says that the size is a guess, once, and what to do', () => {
    expect(times(run(called('bare.svg', 'told')).stdout, doubt)).toBe(1);
  });

  it('says nothing where the file states its size, or where one is given', () => {
    const stated = run(called('wave.svg', 'stated')).stdout;
    const given = run(`${called('bare.svg', 'given')} --width 10in`).stdout;
    for (const text of [stated, given]) {
      expect(text).not.toBe('');
      expect(text).not.toMatch(/how large|assumed/);
    }
  });

  it('says nothing where the rule that finds it is switched off', () => {
    expect(run(`${called('bare.svg', 'off')} --config off.json`).stdout).not.toMatch(/how large/);
  });
});

it.each([
  ['convert FILE --out json', ({ files }: { files: object[] }) => files[0]],
  ['rows FILE', (document: object) => document],
  ['paper FILE --out json.pdf --force', (document: object) => document],
  [`plan FILE ${quilt}`, (document: object) => document],
  [`plan FILE ${quilt} --throat 2in`, (document: object) => document],
  ['check FILE', ({ files }: { files: { motif: object }[] }) => files[0].motif],
] as const)('%s --json has it too', (call, part) => {
  const said = (file: string) => part(JSON.parse(run(`${call.replace('FILE', file)} --json`).stdout));
  expect(said('bare.svg')).toMatchObject({ assumedSize: true });
  expect(said('wave.svg')).not.toMatchObject({ assumedSize: true });
});

it('goes along in the motif file until a size is given; a drawing with a size in it states that', () => {
  const motif = (file: string) => JSON.parse(readFileSync(join(cwd, file), 'utf8'));
  run('convert bare.svg --out first');
  expect(motif('first/bare.motif.json')).toMatchObject({ size: [254, 101.6], assumedSize: true });
  run('mend first/bare.motif.json --out second');
  expect(times(run('rows second/bare.motif.json').stdout, carried)).toBe(1);
  run('convert second/bare.motif.json --out third --height 5in');
  expect(motif('third/bare.motif.json')).toMatchObject({ size: [317.5, 127] });
  expect(motif('third/bare.motif.json')).not.toHaveProperty('assumedSize');
  expect(run('check third').stdout).not.toMatch(/how large|assumed/);
  expect(readFileSync(join(cwd, 'first/bare.svg'), 'utf8')).toContain('width="254mm" height="101.6mm"');
  expect(run('check first/bare.svg').stdout).not.toMatch(/how large|assumed/);
});

it('stands on the sheet of a plan and beside the heights of a library', () => {
  run(`plan bare.svg ${quilt} --out quilt`);
  const sheet = readFileSync(join(cwd, 'quilt/plan.html'), 'utf8').replaceAll('\u00a0', ' ');
  expect(sheet).toMatch(/\d in \([\d.]+ mm\), assumed: its file states no size/);
  run('library build bare.svg wave.svg --out library');
  const { stdout } = run('library list library');
  expect(times(stdout, 'Nobody has said how large bare is, and the height is assumed')).toBe(1);
});
