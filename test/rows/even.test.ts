/** The even spacing: the largest one whose seam circle is no larger than the inner one. */
import { describe, expect, test } from 'vitest';
import { layouts } from '../../shared/layout.js';
import { nest, rowOf, rowsAt } from '../../src/rows/index.js';
import { curve, randomCase, rowOfCase } from './lines.js';

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

describe('random lines', () => {
  test.each(layouts.map((layout, i) => ({ layout, i })))(
    '$layout: the largest, by trying them all',
    ({ layout, i }) => {
      for (let seed = 2000 + i; seed < 2060; seed += layouts.length) {
        const row = rowOfCase(randomCase(seed));
        const { closestSpacingMm, evenSpacingMm, evened } = nest(row, layout, 3);
        const highest = Math.max(row.heightMm, closestSpacingMm);
        const steps = 24;
        for (let k = 0; k <= steps; k++) {
          const spacing = closestSpacingMm + (k / steps) * (highest - closestSpacingMm);
          const { seam, inner } = rowsAt(row, layout, spacing);
          const isEven = inner !== null && (seam?.diameterMm ?? 0) < inner.diameterMm - 0.1;
          const where = `seed ${seed}, ${layout}, at ${spacing} of ${closestSpacingMm} to ${highest}`;
          if (isEven) expect(evened, where).toBe(true);
          if (isEven) expect(evenSpacingMm, where).toBeGreaterThanOrEqual(spacing - 0.1);
        }
      }
    },
  );
});

describe('a wave many times as high as the gap wanted', () => {
  const wave = (heightMm: number) =>
    rowOf(
      [curve(2000, (t) => [2.5 * heightMm * t, (heightMm / 2) * Math.sin(2 * Math.PI * t)])],
      2.5 * heightMm,
    );

  // At a crown, flat beside the gap, the circle between two rows is as wide as they are apart.
  test.each([{ heightMm: 400 }, { heightMm: 4000 }, { heightMm: 20_000 }])(
    'of $heightMm mm: the gap is the spacing',
    ({ heightMm }) => {
      const { evenSpacingMm, evened } = nest(wave(heightMm), 'straight', 3, 25.4);
      expect(evened).toBe(true);
      expect(evenSpacingMm).toBeGreaterThan(25.38);
      expect(evenSpacingMm).toBeLessThan(25.41);
    },
  );

  test('deeper than rows are looked at, it is not evened, and the search ends', () => {
    const { evened, evenSpacingMm, closestSpacingMm } = nest(wave(40_000), 'straight', 3, 25.4);
    expect(evened).toBe(false);
    expect(evenSpacingMm).toBe(closestSpacingMm);
  });
});
