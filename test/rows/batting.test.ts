/** The widest spacing that a batting allows: in closed form, and against every wider spacing. */
import { describe, expect, test } from 'vitest';
import { layouts } from '../../shared/layout.js';
import { battingRows, nest, rowOf, rowsAt } from '../../src/rows/index.js';
import { points, randomCase, rowOfCase } from './lines.js';

describe('the widest spacing within a batting', () => {
  // Between level lines the largest circle is as wide as they are apart.
  test.each([10, 25.4, 203.2])('of level lines is %d mm itself', (openMm) => {
    const level = rowOf([points(0, 0, 100, 0)], 100);
    expect(battingRows(level, 'straight', 3, openMm)?.spacingMm).toBeCloseTo(openMm, 1);
  });

  // Two lines 40 mm apart hold a circle of 40 mm between them, however near the next two lie.
  test('there is none where the motif itself holds a larger circle', () => {
    const pairs = rowOf([points(0, 0, 100, 0), points(0, 40, 100, 40)], 100);
    expect(battingRows(pairs, 'straight', 3, 30)).toBeNull();
  });

  test('is within the limit, never under the clearance, and nothing wider is', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const row = rowOfCase(randomCase(seed));
      for (const layout of layouts) {
        const { closestSpacingMm, even } = nest(row, layout, 3);
        const openMm = 1.2 * even.largestOpenMm;
        const widest = battingRows(row, layout, 3, openMm);
        expect(widest).not.toBeNull();
        const { spacingMm, largestOpenMm } = widest!;
        expect(largestOpenMm).toBeLessThanOrEqual(openMm);
        expect(spacingMm).toBeGreaterThanOrEqual(closestSpacingMm - 1e-9);
        for (const moreMm of [0.2, 1, 3, 10, 30])
          expect(rowsAt(row, layout, spacingMm + moreMm).largestOpenMm).toBeGreaterThan(openMm - 0.1);
      }
    }
  });
});
