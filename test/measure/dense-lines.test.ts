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

  const drawing = (...lines: number[][]) =>
    densityOf(lines.map((line) => Float64Array.from(line, (mm, i) => mm + (i % 2 ? -400 : 50))));

  // Five strokes of half a millimetre in one place; two more, of next to nothing, reach to the corners.
  it.each([
    ['a metre by half a metre, 1 mm', [1000, 500], 1],
    ['four metres by four, 2 mm, so that they are four million', [4000, 4000], 2],
    ['eight kilometres by one millimetre, 2 mm', [8_000_000, 1], (8_000_000 + 1) / 4_000_000],
    ['one millimetre by sixteen kilometres, 4 mm', [1, 16_000_000], (16_000_000 + 1) / 4_000_000],
  ])('is that of squares as small as may be: %s', (_, [width, height], side) => {
    const [x, y] = [width > 1 ? 8.1 : 0.1, height > 1 ? 16.1 : 0.1];
    const [dx, dy] = width > 1 ? [0.5, 0] : [0, 0.5];
    const short = Array.from({ length: 5 }, () => [x, y, x + dx, y + dy]);
    const { at, passes, pairs } = drawing(...short, [0, 0, 0, 1e-6], [width, height, width, height - 1e-6]);
    // A line shorter than a square is the part of a pass that it is of a side.
    expect(passes).toBe(Math.round(2.5 / side));
    expect(pairs).toBeCloseTo((2.5 / side) ** 2, 4);
    expect(at.x).toBeCloseTo(50 + (Math.floor(x / side) + 0.5) * side, 6);
    expect(at.y).toBeCloseTo(-400 + (Math.floor(y / side) + 0.5) * side, 6);
  });

  it('is what cutting each line at the grid counts', () => {
    const coordinate = (most: number) =>
      fc.integer({ min: 0, max: 1000 * most - 1 }).map((k) => (k + 0.37) / 1000);
    const line = fc.array(fc.tuple(coordinate(12), coordinate(4)), { minLength: 2, maxLength: 9 });
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 0, max: 5 }),
        (drawn, over) => {
          const lines = [
            [
              [0, 0],
              [0, 0],
            ],
            ...drawn,
          ].map((places) => Float64Array.from(places.flat()));
          const counted = new Map<string, number>();
          for (const each of lines) {
            const runs = squaresAlong(each);
            const share = Math.min(
              1,
              runs.reduce((sum, { mm }) => sum + mm, 0),
            );
            for (const { square } of runs) counted.set(square, (counted.get(square) ?? 0) + share);
          }
          const shifted = lines.map((each) => each.map((mm, i) => mm + (i % 2 ? 3 : -7)));
          const { at, passes, pairs } = densityOf(shifted, over);
          const expected = [...counted.values()].filter((each) => each > over);
          expect(pairs).toBeCloseTo(
            expected.reduce((sum, each) => sum + each * each, 0),
            3,
          );
          const most = Math.max(...counted.values());
          expect(Math.abs(passes - most)).toBeLessThan(0.5001);
          expect(counted.get(`${at.x + 6.5} ${at.y - 3.5}`)).toBeCloseTo(most, 5);
        },
      ),
      { numRuns: 100 },
    );
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

  it('is all but what lies in the block that a line begins or ends in, level or upright', () => {
    for (const turn of [0, 1]) {
      const turned = (places: number[]) =>
        places.map((_, i) => (turn ? places[i % 2 ? i - 1 : i + 1] : places[i]));
      const block = Array.from({ length: 20 }, (_, i) => [
        10.05 + 0.045 * i,
        [3.5, 0.5, 0.5, 3.5][i % 4],
      ]).flat();
      // The last of them comes back to where it began, at the edge of the block.
      const lines = [
        { drawn: [10.5, 0.5, 30, 0.5], thin: [11, 0.5, 30, 0.5] },
        { drawn: [0, 0.5, 10.5, 0.5], thin: [0, 0.5, 10, 0.5] },
        { drawn: [0, 0, 0, 4], thin: [0, 0, 0, 4] },
        { drawn: [10, 0.5, 10.5, 0.5, 9.5, 0.5], thin: [10, 0.5, 9.5, 0.5] },
      ].map(({ drawn, thin }) => ({ drawn: Float64Array.from(turned(drawn)), thin: turned(thin) }));
      const { outside } = densityOf(
        [Float64Array.from(turned(block)), ...lines.map(({ drawn }) => drawn)],
        4,
      );
      for (const { drawn, thin } of lines)
        expect(outside(drawn).map((stretch) => Array.from(stretch))).toEqual([thin]);
    }
  });

  it('has no stretch without length where a line runs through corners of the grid', () => {
    // Ten times there and back: squares beside the diagonal are touched at a corner, some on the way there, the others back.
    const line = Float64Array.from(
      Array.from({ length: 11 }, (_, i) => (i % 2 ? [5.5, 5.5] : [0.5, 0.5])).flat(),
    );
    const stretches = densityOf([line, Float64Array.of(0, 0, 0, 0)], 7).outside(line);
    // At both ends of it the line turns, in a square it comes into half as often.
    expect(stretches).toHaveLength(11);
    for (const stretch of stretches) expect(totalLength([stretch])).toBeGreaterThan(0.7);
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
