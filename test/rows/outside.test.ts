/** Closest spacing and open circles against jsts, on every motif of the corpus and on a hundred random lines. */
import { readdirSync } from 'node:fs';
import { describe, expect, test, vi } from 'vitest';
import { layouts } from '../../shared/layout.js';
import { defaultSetup } from '../../shared/setup.js';
import { studyOf } from '../../src/measure/index.js';
import { nest, rowsAt } from '../../src/rows/index.js';
import { motifIn } from '../checked.js';
import { type Case, closestByDistance, largestEmptyCircle } from './jts.js';
import { randomCase, rowOfCase } from './lines.js';
import { thinned } from './thinned.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

const clearance = 3;

function compare(motif: Case, layout: (typeof layouts)[number]): void {
  const row = rowOfCase(motif);
  const { closestSpacingMm, even } = nest(row, layout, clearance);
  // jsts 2.12, DistanceOp; the search starts where the rows' boxes are the clearance apart.
  const byDistance = closestByDistance(motif, layout, clearance, row.heightMm + clearance);
  expect(Math.abs(closestSpacingMm - byDistance), `closest, ${layout}`).toBeLessThan(1e-3);
  // jsts 2.12, LargestEmptyCircle.
  const byJts = largestEmptyCircle(motif, layout, even.spacingMm, 0.02);
  expect(Math.abs(even.largestOpenMm - byJts), `open circle, ${layout}`).toBeLessThan(0.1);
}

// jsts compares every segment with every other: what both sides get are the motifs thinned to a third of a millimetre.
describe('every motif of the corpus, in all four layouts', () => {
  const folder = 'corpus/motifs';
  test.each(readdirSync(folder).filter((file) => file.endsWith('.svg')))('%s', async (file) => {
    const { strokes, repeat, start, end } = studyOf(await motifIn(`${folder}/${file}`), defaultSetup);
    const motif = {
      strokes: strokes.map((line) => thinned(line, 0.33)),
      repeatMm: repeat.dx,
      middleXMm: (start.at.x + end.at.x) / 2,
    };
    for (const layout of layouts) compare(motif, layout);
  });
});

describe('a hundred random lines that overhang their repeat and cross themselves', () => {
  test.each(layouts.map((layout, i) => ({ layout, i })))('$layout', ({ layout, i }) => {
    for (let seed = i; seed < 100; seed += layouts.length) compare(randomCase(seed), layout);
  });
});

// Rows set closer than is good cross, and a circle may touch two of them where they do: seed 362 has its largest there.
test('open circles where rows cross', () => {
  for (const [seed, layout] of [
    [362, 'straight'],
    [216, 'turned'],
    [17, 'brick'],
    [18, 'mirrored'],
  ] as const) {
    const motif = randomCase(seed);
    const row = rowOfCase(motif);
    for (const spacing of [0.6 * nest(row, layout, clearance).closestSpacingMm, row.heightMm]) {
      const { largestOpenMm } = rowsAt(row, layout, spacing);
      // jsts 2.12, LargestEmptyCircle.
      expect(Math.abs(largestOpenMm - largestEmptyCircle(motif, layout, spacing, 0.02))).toBeLessThan(0.1);
    }
  }
});
