/** The drawings in pieces: each has what its mend is for, and holds nothing that cannot be read. */
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, test } from 'vitest';
import { motifOf } from '../../src/size/motif-of.js';
import { findingsOf, motifIn } from '../checked.js';

const folder = fileURLToPath(new URL('../../corpus/pieces/', import.meta.url));

/** What stands in the way of stitching each, by the rule that finds it, and how many strokes it comes in. */
const known: Readonly<Record<string, readonly [rule: string, strokes: number]>> = {
  'breakers-cut-in-the-curl.svg': ['opposite-edges', 1],
  'buoys.svg': ['one-stroke', 4],
  'driftwood.svg': ['one-stroke', 6],
  'eddy.svg': ['one-stroke', 2],
  'gulls-on-a-slope.svg': ['level-ends', 3],
  'kelp-outlined.svg': ['outlined-line', 1],
  'pier.svg': ['one-stroke', 7],
  'sail-with-copies.svg': ['repeated-line', 9],
  'sea-vine.svg': ['one-stroke', 7],
  'swell-in-six.svg': ['near-gap', 6],
};

test('of the outline of a tall wave neither line nor rows are judged before it is mended', () => {
  const side = (offMm: number) =>
    Array.from({ length: 201 }, (_, i) => {
      const [x, slope] = [1.27 * i, 0.74 * Math.cos((Math.PI * i) / 100)];
      const size = Math.hypot(1, slope);
      return [x - (offMm * slope) / size, 30 + 30 * Math.sin((Math.PI * i) / 100) + offMm / size];
    });
  const around = [...side(0.9), ...side(-0.9).reverse(), side(0.9)[0]];
  const found = findingsOf(motifOf([Float64Array.from(around.flat())])).map(({ rule }) => rule);
  expect(found).toContain('outlined-line');
  expect(found).not.toContain('row-nesting');
});

describe('the drawings in pieces', () => {
  it('are all listed here', () => {
    expect(readdirSync(folder).sort()).toEqual(Object.keys(known));
  });

  it.each(Object.entries(known))('%s has what its mend is for', async (file, [rule, strokes]) => {
    const motif = await motifIn(folder + file);
    expect(motif.strokes.length).toBe(strokes);
    expect(findingsOf(motif).map((finding) => finding.rule)).toContain(rule);
  });
});
