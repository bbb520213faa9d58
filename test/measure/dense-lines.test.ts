/** Lines that lie on themselves thousands of times, or are drawn in a million steps: an answer, at once. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { totalLength } from '../../src/geometry/polyline.js';
import { requireStitchable, studyOf } from '../../src/measure/index.js';
import { mendMotif } from '../../src/mend/index.js';
import { densityOf } from '../../src/near/density.js';
import { motifOf } from '../../src/size/motif-of.js';
import { withRows } from '../../src/tasks/stored-rows.js';

const motif = (...strokes: number[][]) => motifOf(strokes.map((stroke) => Float64Array.from(stroke)));
const study = (...strokes: number[][]) => studyOf(motif(...strokes), defaultSetup);
/** The facts where more than a dozen passes in any one square are a lump already. */
const strictly = (...strokes: number[][]) =>
  studyOf(motif(...strokes), { ...defaultSetup, limits: { ...defaultSetup.limits, pairsOfPasses: 0 } });

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

/** The squares of 1 mm that a line runs through in its order, and how much of it lies in each, by cutting it at the grid. */
function squaresAlong(line: Float64Array): { square: string; mm: number }[] {
  const runs: { square: string; mm: number }[] = [];
  for (let i = 2; i < line.length; i += 2) {
    const [ax, ay, bx, by] = line.subarray(i - 2, i + 2);
    const between = (a: number, b: number) =>
      Array.from({ length: 14 }, (_, k) => (k - a) / (b - a)).filter((t) => t > 0 && t < 1);
    const cuts = [0, ...between(ax, bx), ...between(ay, by), 1].sort((s, t) => s - t);
    for (let k = 1; k < cuts.length; k++) {
      const t = (cuts[k - 1] + cuts[k]) / 2;
      const square = `${Math.floor(ax + t * (bx - ax))} ${Math.floor(ay + t * (by - ay))}`;
      const mm = (cuts[k] - cuts[k - 1]) * Math.hypot(bx - ax, by - ay);
      if (runs.at(-1)?.square === square) runs.at(-1)!.mm += mm;
      else runs.push({ square, mm });
    }
  }
  return runs;
}

describe('what lies outside the squares through which many passes run', () => {
  // Never on an edge of the grid, where it would be a matter of taste which square a line runs through.
  const coordinate = fc.integer({ min: 0, max: 11_999 }).map((k) => (k + 0.37) / 1000);
  const drawn = fc.array(fc.tuple(coordinate, coordinate), { minLength: 20, maxLength: 80 });

  it('is as long as cutting the line at the grid finds', () => {
    fc.assert(
      fc.property(drawn, fc.integer({ min: 1, max: 9 }), (places, over) => {
        // From the corner of the grid, so that its squares are whole numbers here too.
        const line = Float64Array.from([[0, 0], ...places].flat());
        const runs = squaresAlong(line);
        const passes = new Map<string, number>();
        for (const { square } of runs) passes.set(square, (passes.get(square) ?? 0) + 1);
        const thinMm = runs.reduce((sum, { square, mm }) => sum + (passes.get(square)! > over ? 0 : mm), 0);
        expect(totalLength(densityOf([line], over).outside(line))).toBeCloseTo(thinMm, 6);
      }),
      { numRuns: 100 },
    );
  });

  it('is the line itself where there are none', () => {
    const line = Float64Array.of(0, 0, 30, 7, 60, 0);
    const stretches = densityOf([line], 1).outside(line);
    expect(stretches).toHaveLength(1);
    expect(stretches[0]).toBe(line);
  });

  it('ends where they begin: by hand on a block of twenty uprights in one column of the grid', () => {
    const block = Array.from({ length: 20 }, (_, i) => [10.05 + 0.045 * i, [0, 3.5, 3.5, 0][i % 4]]);
    const line = Float64Array.from([0, 0, ...block.flat(), 30, 0]);
    expect(
      densityOf([line], 4)
        .outside(line)
        .map((each) => Array.from(each)),
    ).toEqual([
      [0, 0, 10, 0],
      [11, 0, 30, 0],
    ]);
  });
});

describe('a line that cannot be stitched', () => {
  /** Up and down between x = 60 and 61, 40 times. */
  const block = Array.from({ length: 80 }, (_, i) => [60.1 + 0.01 * i, [0, 8, 8, 0][i % 4]]).flat();
  /** A loop, a stretch there and back, and a third pass half a millimetre beside it. */
  const line = [0, 0, 20, 20, 20, 0, 0, 20, 0, 40, 15, 40, 0, 40, 0, 40.5, 30, 40.5];

  it('is told by its lump, and by the facts outside, which say that there is more', () => {
    const plain = study(line);
    const lumped = strictly(line, block);
    expect(plain.lump).toBeNull();
    // In the rows where none turn, each upright is a pass.
    expect(lumped.lump).toEqual({ at: { x: 60.5, y: 1.5 }, passes: 40 });
    expect(plain.crossings.places).toHaveLength(1);
    expect(lumped.crossings).toEqual({ ...plain.crossings, more: true });
    expect(plain.retraces.totalMm).toBeCloseTo(15, 2);
    expect(lumped.retraces).toEqual({ ...plain.retraces, more: true });
    expect(plain.crowding(0.8, 5).places.length).toBeGreaterThan(0);
    expect(lumped.crowding(0.8, 5)).toEqual({ ...plain.crowding(0.8, 5), more: true });
    expect(lumped.piles(2)).toEqual({ ...plain.piles(2), more: true });
    expect(lumped.lengthMm).toBeCloseTo(plain.lengthMm + study(block).lengthMm, 9);
    expect([lumped.spareMm, lumped.partGapsMm, lumped.outline]).toEqual([null, null, null]);
    expect([lumped.marks, lumped.copies(0.8, 10)]).toEqual([[], { places: [], more: true }]);
  });

  it('has no copies told that lie in its lump', () => {
    const beside = block.map((value, i) => (i % 2 === 0 ? value : value + 0.3));
    const lone = [0, 0, 50, 30];
    const again = lone.map((value, i) => (i % 2 === 0 ? value + 0.3 : value));
    const copies = (...strokes: number[][]) => strictly(...strokes).copies(0.8, 10);
    expect(copies(lone, again, block, beside)).toEqual({ places: copies(lone, again).places, more: true });
    expect(copies(lone, again).places).toHaveLength(1);
  });

  it.each([
    [
      'one step 50,000 times over',
      [49_999, 50_000],
      () => [Array.from({ length: 50_001 }, (_, i) => [i % 2 ? 20 : 0, 50]).flat()],
    ],
    [
      '20,000 spokes through one point',
      // Their middle lies where four squares meet.
      [5_000, 20_000],
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
      [999, 1_001],
      () => [Array.from({ length: 5_000 }, (_, i) => [0.001 * i, i % 2 ? 1000 : 0]).flat()],
    ],
  ])('%s is told where, and nothing goes on from there', (_, [least, most], strokes) => {
    const drawing = motif(...strokes());
    const thick = studyOf(drawing, defaultSetup);
    expect(thick.lump!.passes).toBeGreaterThanOrEqual(least);
    expect(thick.lump!.passes).toBeLessThanOrEqual(most);
    expect(thick.crossings.more).toBe(true);
    const sentence =
      /the line runs .* times through one place, .*: that cannot be stitched\. Take out in your/;
    expect(() => requireStitchable(thick)).toThrow(sentence);
    expect(() => mendMotif(drawing, defaultSetup)).toThrow(sentence);
    expect(() => withRows(drawing, 'brick', defaultSetup)).toThrow(sentence);
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
