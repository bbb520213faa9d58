/** Tables keep within 80 columns, and lose no name and no number. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { table } from '../../src/cli/table.js';
import { linewright } from './run.js';

const head = ['name', 'designer', 'height', 'rows', 'layout', 'open', 'stitches', 'verdict'].map((each) => ({
  head: each,
  isNumber: ['height', 'rows', 'open', 'stitches'].includes(each),
}));

/** Unicode Standard Annex 11: these two ranges are wide. */
const columnsOf = (line: string) => line.length + (line.match(/[\u4e00-\u9fff\uac00-\ud7a3]/g)?.length ?? 0);

const text = fc.string({ unit: fc.constantFrom(...'abc -_.3海각'), minLength: 1, maxLength: 120 });
const length = fc
  .tuple(fc.integer({ min: 0, max: 99 }), fc.constantFrom('', ' 1/2', ' 15/16'))
  .map(([whole, part]) => `${whole}${part} in`);
const row = fc.tuple(
  text.map((each) => `n${each.trim()}`),
  text,
  length,
  length,
  fc.constantFrom('straight', 'brick', 'mirrored', 'turned'),
  length,
  fc.integer({ min: 0, max: 5_000_000 }).map((count) => count.toLocaleString('en-US')),
  fc.constantFrom('clean', 'warnings', 'errors'),
);

describe('a table', () => {
  it('is no wider than 80 columns, and tells every name and number whole', () => {
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 8 }), (rows) => {
        const told = table(head, rows);
        for (const line of told.join('\n').split('\n')) expect(columnsOf(line)).toBeLessThanOrEqual(80);
        rows.forEach((cells, i) => {
          const inOneLine = told[i + 1].replaceAll('\n', '');
          expect(inOneLine.replaceAll(' ', '')).toContain(cells[0].replaceAll(' ', ''));
          for (const number of [2, 3, 5, 6]) expect(told[i + 1]).toContain(cells[number]);
        });
      }),
    );
  });

  it('cuts no word where all find room', () => {
    const cells = ['kelp', '3 Hens', '9 in', '5 in', 'straight', '1 in', '1,234', 'warnings'];
    expect(table(head, [cells])).toEqual([
      'name  designer  height  rows  layout    open  stitches  verdict',
      'kelp  3 Hens      9 in  5 in  straight  1 in     1,234  warnings',
    ]);
  });
});

it.each([['4in'], ['31.7in'], ['97.3in']])(
  'linewright rows at %s keeps within 80 columns',
  (height) => {
    for (const motif of ['gull-wing', 'breakers', 'anchor-chain']) {
      const file = new URL(`../../corpus/motifs/${motif}.svg`, import.meta.url).pathname;
      const { stdout } = linewright(['rows', file, '--height', height]);
      expect(stdout).toContain('nesting by');
      for (const line of stdout.split('\n')) expect(line.length, line).toBeLessThanOrEqual(80);
    }
  },
  60_000,
);
