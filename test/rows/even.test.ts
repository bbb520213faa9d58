/** The even spacing: the largest one whose seam circle is no larger than the inner one. */
import { describe, expect, test } from 'vitest';
import { type Layout, layouts } from '../../shared/layout.js';
import { nest, rowOf, rowsAt } from '../../src/rows/index.js';
import type { Case } from './jts.js';
import { curve, randomCase, randomDashes, randomRings, rowOfCase } from './lines.js';

/** Loops of 12 mm along a wave 60 mm tall: pockets of their own, and rows that nest far into each other. */
const loops = rowOf(
  [
    curve(3000, (t) => [
      200 * t - 11 * Math.sin(2 * Math.PI * 9 * t),
      30 + 30 * Math.cos(2 * Math.PI * t) - 9 * Math.cos(2 * Math.PI * 9 * t),
    ]),
  ],
  200,
);

describe('loops along a wave', () => {
  test.each(layouts)('%s', (layout) => {
    const { closestSpacingMm, evenSpacingMm, even, evened } = nest(loops, layout, 3);
    const highest = Math.max(loops.heightMm, closestSpacingMm);
    expect(evenSpacingMm).toBeGreaterThanOrEqual(closestSpacingMm);
    expect(evenSpacingMm).toBeLessThanOrEqual(highest);
    if (evened) expect(even.seam!.diameterMm).toBeLessThanOrEqual(even.inner!.diameterMm);
    // Looked for by hand, from the top down: no spacing above the even one evens the seam.
    const from = evened ? evenSpacingMm + 0.1 : closestSpacingMm;
    for (let spacing = from; spacing <= highest; spacing += Math.max(0.05, (highest - from) / 40)) {
      const { seam, inner } = rowsAt(loops, layout, spacing);
      expect(seam!.diameterMm, `at ${spacing}`).toBeGreaterThan(inner!.diameterMm - 0.05);
    }
  });
  test('some layout is evened strictly between the closest spacing and the height', () => {
    const between = layouts
      .map((layout) => nest(loops, layout, 3))
      .filter(
        ({ evened, evenSpacingMm, closestSpacingMm }) =>
          evened && evenSpacingMm > closestSpacingMm + 1 && evenSpacingMm < loops.heightMm - 1,
      );
    expect(between.length).toBeGreaterThan(0);
  });
});

/** Holds the even spacing against as many others: none that evens the seam is larger, but by what may be missed. */
function triesAll(drawn: Case, layout: Layout, missed: (rangeMm: number) => number, name: string) {
  const row = rowOfCase(drawn);
  const { closestSpacingMm, evenSpacingMm, evened } = nest(row, layout, 3);
  const rangeMm = Math.max(row.heightMm - closestSpacingMm, 0);
  const steps = 24;
  for (let k = 0; k <= steps; k++) {
    const spacing = closestSpacingMm + (k / steps) * rangeMm;
    const { seam, inner } = rowsAt(row, layout, spacing);
    if (inner === null || (seam?.diameterMm ?? 0) >= inner.diameterMm - 0.1) continue;
    const where = `${name}, ${layout}, at ${spacing} of ${closestSpacingMm} to ${closestSpacingMm + rangeMm}`;
    expect(evened, where).toBe(true);
    expect(evenSpacingMm, where).toBeGreaterThanOrEqual(spacing - missed(rangeMm));
  }
}

describe('the largest, by trying them all', () => {
  test.each(layouts.map((layout, i) => ({ layout, i })))('of random lines, $layout', ({ layout, i }) => {
    for (let seed = 2000 + i; seed < 2060; seed += layouts.length)
      triesAll(randomCase(seed), layout, () => 0.1, `seed ${seed}`);
  });
  // Where a row reaches into the largest pocket no step of the search is longer than a 64th of the range.
  test.each(layouts)('of rows that reach into one another’s pockets, %s', (layout) => {
    for (const seed of [220, 226])
      triesAll(randomRings(seed), layout, (rangeMm) => rangeMm / 64, `rings ${seed}`);
    for (const seed of [255, 272, 309])
      triesAll(randomDashes(seed), layout, (rangeMm) => rangeMm / 64, `dashes ${seed}`);
  });
});

describe('a wave many times as high as the gap wanted', () => {
  const wave = (heightMm: number) =>
    rowOf(
      [curve(400, (t) => [2.5 * heightMm * t, (heightMm / 2) * Math.sin(2 * Math.PI * t)])],
      2.5 * heightMm,
    );

  // At a crown, flat beside the gap, the circle between two rows is as wide as they are apart.
  test.each([{ heightMm: 400 }, { heightMm: 4000 }])(
    'of $heightMm mm: the gap is the spacing',
    ({ heightMm }) => {
      const { evenSpacingMm, evened } = nest(wave(heightMm), 'straight', 3, 25.4);
      expect(evened).toBe(true);
      expect(evenSpacingMm).toBeGreaterThan(25.38);
      expect(evenSpacingMm).toBeLessThan(25.41);
    },
  );

  test('deeper than rows are looked at, it is not evened, and the search ends', () => {
    const { evened, evenSpacingMm, closestSpacingMm } = nest(wave(11_000), 'straight', 3, 25.4);
    expect(evened).toBe(false);
    expect(evenSpacingMm).toBe(closestSpacingMm);
  });
});

describe('where a row reaches into the largest pocket', () => {
  test.each([
    { layout: 'straight', drawn: randomDashes(37) },
    { layout: 'brick', drawn: randomDashes(41) },
    { layout: 'brick', drawn: randomRings(49) },
  ] as const)('$layout: none on a fine scale of spacings is even above it', ({ layout, drawn }) => {
    const row = rowOfCase(drawn);
    const { evenSpacingMm, evened } = nest(row, layout, 3);
    expect(evened).toBe(true);
    for (let spacing = evenSpacingMm + 0.02; spacing <= row.heightMm; spacing += 0.02) {
      const { inner, largestOpenMm } = rowsAt(row, layout, spacing);
      expect(inner?.diameterMm, `at ${spacing}`).not.toBe(largestOpenMm);
    }
  });
});
