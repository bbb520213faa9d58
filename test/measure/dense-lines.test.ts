/** Lines that lie on themselves thousands of times, or are drawn in a million steps: a sentence or an answer, at once. */
import { describe, expect, it } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { studyOf } from '../../src/measure/index.js';
import { densityOf } from '../../src/near/density.js';
import { motifOf } from '../../src/size/motif-of.js';

const study = (...strokes: number[][]) =>
  studyOf(motifOf(strokes.map((stroke) => Float64Array.from(stroke))), defaultSetup);

describe('density', () => {
  it('counts the passes through a square: by hand on a comb of ten teeth in one square of 1 mm', () => {
    // Ten uprights 0.05 mm apart and 10 mm high: each runs through each of ten squares once; the turns at the ends
    // stay in their squares.
    const comb = Array.from({ length: 20 }, (_, i) => [
      0.05 * Math.floor(i / 2),
      [0, 9.9, 9.9, 0][i % 4],
    ]).flat();
    const { passes, pairs } = densityOf([Float64Array.from(comb)]);
    expect(passes).toBe(10);
    // The turns are in the first and in the last square, where two uprights are one pass: at one end five, at the other six.
    expect(pairs).toBe(8 * 100 + 25 + 36);
  });

  it('walks long segments square by square, whichever way they run', () => {
    for (const [dx, dy] of [
      [50, 20],
      [-50, 20],
      [50, -20],
      [-20, -50],
    ]) {
      const { passes, pairs } = densityOf([Float64Array.of(0, 0, dx, dy)]);
      expect(passes).toBe(1);
      // A line enters one square more for each line of the grid that it crosses; at corners of the grid one of two.
      expect(pairs).toBeGreaterThanOrEqual(51);
      expect(pairs).toBeLessThanOrEqual(71);
    }
  });
});

it('a line drawn as thousands of strokes end to end is as thick as one drawn in one go', () => {
  const steps = 20_000;
  const at = (i: number) => [(100 * i) / steps, 20 * Math.sin((20 * i) / steps)];
  const pieces = Array.from({ length: steps }, (_, i) => Float64Array.from([...at(i), ...at(i + 1)]));
  const whole = Float64Array.from(Array.from({ length: steps + 1 }, (_, i) => at(i)).flat());
  const { passes } = densityOf(pieces);
  expect(passes).toBeGreaterThanOrEqual(1);
  expect(passes).toBeLessThanOrEqual(densityOf([whole]).passes + 1);
});

describe('a line that cannot be stitched', () => {
  it.each([
    [
      'one step 50,000 times over',
      () => [Array.from({ length: 50_001 }, (_, i) => [i % 2 ? 20 : 0, 50]).flat()],
    ],
    [
      '20,000 spokes through one point',
      () =>
        Array.from({ length: 20_000 }, (_, i) => [
          100,
          50,
          100 + 50 * Math.cos(i / 3183),
          50 + 50 * Math.sin(i / 3183),
        ]),
    ],
    [
      'a comb of 5,000 teeth a micrometre apart, a metre deep',
      () => [Array.from({ length: 5_000 }, (_, i) => [0.001 * i, i % 2 ? 1000 : 0]).flat()],
    ],
  ])('%s is told where', (_, strokes) => {
    expect(() => study(...strokes()).crossings).toThrow(
      /passes of the line run through one place, .*: that cannot be stitched\. Take out in your drawing program/,
    );
  });

  it('is not one that crosses itself often', () => {
    // 2,000 passes of 100 mm, half a millimetre apart both ways: a net that could be stitched.
    const net = Array.from({ length: 400 }, (_, i) =>
      i < 200 ? [0, 0.5 * i, 100, 0.5 * i] : [0.5 * (i - 200), 0, 0.5 * (i - 200), 100],
    );
    expect(study(...net).lengthMm).toBeCloseTo(40_000, 6);
  });
});

it('a retrace is as long as what is stitched again, and no longer', () => {
  // Out and back over 30 mm; twice more over 20 mm; out and back over 36.056 mm on a slant.
  const lines: [number[], number][] = [
    [[0, 50, 100, 50, 100, 20, 100, 50, 200, 50], 30],
    [[0, 50, 100, 50, 80, 50, 100, 50, 200, 50], 40],
    [[0, 50, 100, 50, 120, 20, 100, 50, 200, 50], Math.hypot(20, 30)],
  ];
  for (const [line, mm] of lines) expect(Math.abs(study(line).retraces.totalMm - mm)).toBeLessThan(0.002);
});

it('rows of a line drawn in steps of a fiftieth of a millimetre are those of the same line drawn plainly', () => {
  // A zigzag of 200 mm: 60,000 points on its legs change nothing.
  const corners = Array.from({ length: 11 }, (_, i) => [20 * i, i % 2 ? 30 : 0]);
  const fine = corners
    .slice(1)
    .flatMap(([x, y], i) =>
      Array.from({ length: 6_000 }, (_, k) => [
        corners[i][0] + ((x - corners[i][0]) * k) / 6_000,
        corners[i][1] + ((y - corners[i][1]) * k) / 6_000,
      ]),
    )
    .flat();
  const [plain, dense] = [study(corners.flat()), study([...fine, 200, 0])];
  for (const layout of ['straight', 'brick'] as const) {
    expect(dense.nesting(layout).closestSpacingMm).toBeCloseTo(plain.nesting(layout).closestSpacingMm, 6);
    expect(dense.nesting(layout).even.largestOpenMm).toBeCloseTo(plain.nesting(layout).even.largestOpenMm, 1);
  }
});
