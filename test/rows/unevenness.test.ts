/** How unevenly rows cover the cloth, in closed form and against a grid; and the spacing of a line without pockets. */
import { describe, expect, test, vi } from 'vitest';
import { type Layout, layouts } from '../../shared/layout.js';
import { defaultSetup } from '../../shared/setup.js';
import { studyOf } from '../../src/measure/index.js';
import { nest, type Row, rowOf, rowOfMotif, rowsAt } from '../../src/rows/index.js';
import { kindsOfSeam } from '../../src/rows/layout.js';
import { distanceToRow, rowsIn, stackOf } from '../../src/rows/stack.js';
import { motifIn } from '../checked.js';
import { curve, points, randomCase, rowOfCase } from './lines.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

const level = rowOf([points(0, 0, 100, 0)], 100);

describe('unevenness', () => {
  // The distance to the nearest of lines s apart runs evenly from 0 to s / 2: its root mean square is s / sqrt(12), by
  // which it is measured.
  test.each([3, 25.4, 80])('of level lines %d mm apart is 1', (spacing) => {
    expect(rowsAt(level, 'straight', spacing).unevenness).toBeCloseTo(1, 3);
  });

  // Two lines to a row, d apart, rows s apart: gaps of d and s - d in turn. The mean square is
  // (d^3 + (s - d)^3) / (12 s), the mean line spacing s / 2; so the measure is sqrt((d^3 + (s - d)^3) / s) / (s / 2).
  test.each([
    [10, 20],
    [5, 20],
    [2, 40],
  ])('of pairs of lines %d mm apart, every %d mm, is as worked out', (d, s) => {
    const pair = rowOf([points(0, 0, 100, 0), points(0, d, 100, d)], 100);
    const worked = Math.sqrt((d ** 3 + (s - d) ** 3) / s) / (s / 2);
    expect(Math.abs(rowsAt(pair, 'straight', s).unevenness / worked - 1)).toBeLessThan(0.01);
  });

  // With more lines to a row there are more gaps: of gaps g the measure is sqrt(sum of g^3 / s) by the mean spacing. Flipped
  // or turned the row has the same gaps.
  test.each(layouts)('of three level lines, in %s rows, is as worked out', (layout) => {
    const three = rowOf(
      [0, 7, 20].map((y) => points(30, y - 90, 130, y - 90)),
      100,
    );
    const worked = Math.sqrt((7 ** 3 + 13 ** 3 + 12 ** 3) / 32) / (32 / 3);
    expect(rowsAt(three, layout, 32).unevenness / worked).toBeCloseTo(1, 3);
  });

  // Uprights that run on from row to row are parallel lines as well, as far apart as a repeat is wide.
  test('of uprights that go on from row to row is 1', () => {
    const upright = rowOf([points(-70, 10, -70, 50)], 30);
    for (const layout of ['straight', 'turned'] as const)
      expect(rowsAt(upright, layout, 40).unevenness).toBeCloseTo(1, 3);
  });

  /** The measure by the places of a square grid, `steps` each way. */
  const byGrid = (row: Row, layout: Layout, spacing: number, steps: number) => {
    const stack = stackOf(row, layout, spacing);
    const height = kindsOfSeam(layout) * spacing;
    let sum = 0;
    for (let i = 0; i < steps; i++)
      for (let j = 0; j < steps; j++) {
        const x = row.box.minX + ((i + 0.5) / steps) * row.repeatMm;
        const y = row.box.minY + ((j + 0.5) / steps) * height;
        let best = 2 * spacing + row.heightMm;
        const [first, last] = rowsIn(stack, y - best, y + best);
        for (let index = first; index <= last; index++) best = distanceToRow(stack, index, x, y, best);
        sum += best * best;
      }
    const mean = (row.repeatMm * spacing) / row.lengthMm;
    return Math.sqrt((12 * sum) / steps ** 2) / mean;
  };

  // Lines g apart that run on from row to row and from repeat to repeat are parallel lines: of whole numbers of them
  // across and down, since they slant by one of these over the other. Of some the points of a lattice all lie in the gaps.
  test('of slanted lines that go on all round is 1, however many there are', () => {
    let most = 0;
    for (let across = 1; across <= 60; across += 2) {
      for (let down = 1; down <= 60; down += 3) {
        // Each goes down by a row's height; they begin side by side.
        const lean = (100 * down) / across;
        const lines = Array.from({ length: across }, (_, k) =>
          points((100 * k) / across, 0, (100 * k) / across + lean, 70),
        );
        const { unevenness } = rowsAt(rowOf(lines, 100), 'straight', 70);
        most = Math.max(most, Math.abs(unevenness - 1));
      }
    }
    expect(most).toBeLessThan(0.04);
  });

  test('of random lines is that of a grid of 90,000 places and more, to 1 %', () => {
    for (let seed = 50; seed < 58; seed++) {
      const row = rowOfCase(randomCase(seed));
      const layout = layouts[seed % layouts.length];
      const spacing = Math.max(5, 0.7 * row.heightMm);
      const grid = byGrid(row, layout, spacing, 300);
      expect(Math.abs(rowsAt(row, layout, spacing).unevenness / grid - 1), `seed ${seed}`).toBeLessThan(0.01);
    }
  });

  // Waves whose length is in step with the places of a lattice, and motifs that a lattice short of points misjudges.
  test.each([
    ['ripples', 'mirrored', 0.8],
    ['hawser', 'brick', 0.8],
    ['tide-lines', 'turned', 1],
    ['lighthouse', 'turned', 0.6],
    ['swell', 'turned', 1],
  ] as const)(
    'of %s, %s, %d of its height apart, is that of a grid of 90,000 places, to 0.5 %',
    async (name, layout, share) => {
      const row = rowOfMotif(studyOf(await motifIn(`corpus/motifs/${name}.svg`), defaultSetup));
      const spacing = share * row.heightMm;
      const grid = byGrid(row, layout, spacing, 300);
      expect(Math.abs(rowsAt(row, layout, spacing).unevenness / grid - 1)).toBeLessThan(0.005);
    },
  );

  test('does not depend on the size', () => {
    const [small, large] = [1, 3].map((k) =>
      rowOf([points(0, 0, 20 * k, 15 * k, 40 * k, 0, 50 * k, 4 * k, 60 * k, 0)], 60 * k),
    );
    expect(rowsAt(large, 'brick', 60).unevenness).toBeCloseTo(rowsAt(small, 'brick', 20).unevenness, 6);
  });

  test('does not depend on where the line lies, about the origin neither', () => {
    const { strokes, repeatMm } = randomCase(7);
    const drawn = [
      { stroke: strokes[0], repeatMm, x: -repeatMm / 2, y: -30 },
      { stroke: points(0, 0, 1, 0), repeatMm: 1, x: 0, y: -45 },
    ];
    for (const { stroke, repeatMm, x, y } of drawn) {
      const [about, far] = [0, 1000].map((offMm) => {
        const moved = stroke.map((value, i) => value + offMm + (i % 2 === 0 ? x : y));
        return rowsAt(rowOf([moved], repeatMm), 'straight', 60).unevenness;
      });
      expect(about).toBeCloseTo(far, 9);
    }
  });
});

describe('a line without pockets', () => {
  test.each([5, 25.4, 60])('level: the rows stand as far apart as the gap, %d mm', (gap) => {
    const { evenSpacingMm, even, gapMm } = nest(level, 'straight', 3, gap);
    expect(evenSpacingMm).toBeCloseTo(gap, 1);
    expect(even.largestOpenMm).toBeCloseTo(gap, 1);
    expect(gapMm).toBe(gap);
  });

  test('a zigzag: the circle between two legs at angle a is as wide as the gap at spacing gap / cos a', () => {
    // Legs of 60 by 15: cos a = 4 / sqrt(17). A circle of 25.4 lies between straight stretches of 61.8.
    const zigzag = rowOf([points(0, 15, 60, 0, 120, 15)], 120);
    const { evenSpacingMm, even } = nest(zigzag, 'straight', 3, 25.4);
    // In the bends the circle is wider than between the legs, so the spacing is a little less.
    expect(evenSpacingMm).toBeLessThanOrEqual((25.4 * Math.sqrt(17)) / 4);
    expect(evenSpacingMm).toBeGreaterThan(25.4 - 1);
    expect(Math.abs(even.largestOpenMm - 25.4)).toBeLessThan(0.1);
  });

  // Between a closest spacing that is narrower and the height and the gap, where a band as wide runs free, some spacing
  // has it: the circle grows steadily on waves as slow as these.
  test('waves: the largest circle is the gap to 0.05 mm, in every layout', () => {
    let between = 0;
    for (let k = 1; k < 30; k += 2) {
      const wave = curve(90, (t) => [
        200 * t,
        (5 + 3 * k) * Math.sin(2 * Math.PI * t) + 3 * (k % 5) * Math.sin(6 * Math.PI * t + k),
      ]);
      const layout = layouts[(k >> 1) % layouts.length];
      const { evenSpacingMm, closestSpacingMm, even, gapMm } = nest(rowOf([wave], 200), layout, 3, 10);
      if (gapMm === null || evenSpacingMm === closestSpacingMm) continue;
      expect(Math.abs(even.largestOpenMm - 10), `wave ${k}, ${layout}`).toBeLessThanOrEqual(0.05);
      between++;
    }
    expect(between).toBeGreaterThan(5);
  });

  test('is never set nearer than the clearance allows', () => {
    const { evenSpacingMm, closestSpacingMm } = nest(level, 'straight', 8, 5);
    expect(closestSpacingMm).toBeCloseTo(8, 9);
    expect(evenSpacingMm).toBeCloseTo(8, 6);
  });
});
