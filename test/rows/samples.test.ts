/** Places sampled along stacked rows: on the line, all along it, at its ends and corners, in even steps. */
import { describe, expect, test, vi } from 'vitest';
import { layouts } from '../../shared/layout.js';
import { samplesAround } from '../../src/rows/samples.js';
import { aloneOf, stackOf } from '../../src/rows/stack.js';
import { nearestOn, rowsAround, segmentsOfRow } from './laid-out.js';
import { generator, points, randomCase, randomDashes, rowOfCase, shiftedCase } from './lines.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

interface Sample {
  readonly x: number;
  readonly y: number;
}

function samplesOf(stack: ReturnType<typeof stackOf>, window: readonly number[], step: number, margin = 0) {
  const [leftMm, topMm, rightMm, bottomMm] = window;
  const samples = samplesAround(stack, { leftMm, topMm, rightMm, bottomMm }, step, margin)!;
  return Array.from(
    { length: samples.length / 2 },
    (_, i): Sample => ({ x: samples[2 * i], y: samples[2 * i + 1] }),
  );
}

/** One repeat alone, 1000 mm from the next. */
function alongOf(step: number, ...xy: number[]): [number, number][] {
  const row = rowOfCase({ strokes: [points(...xy)], repeatMm: 1000, middleXMm: 0 });
  return samplesOf(aloneOf(row), [-400, -400, 400, 400], step).map(({ x, y }) => [x, y]);
}

const close = (places: number[][]) => places.map((place) => place.map((v) => expect.closeTo(v, 9)));

describe('a stroke is sampled', () => {
  test('at its ends and in as many even steps between as none is wider than asked for', () => {
    expect(alongOf(5, 3, 7, 13, 7)).toEqual(
      close([
        [3, 7],
        [8, 7],
        [13, 7],
      ]),
    );
    expect(alongOf(4.9, 3, 7, 12, 19)).toEqual(
      close([
        [3, 7],
        [5.25, 10],
        [7.5, 13],
        [9.75, 16],
        [12, 19],
      ]),
    );
    expect(alongOf(50, 12, 19, 3, 7)).toEqual([
      [12, 19],
      [3, 7],
    ]);
  });
  test('in the same steps however finely it is drawn', () => {
    const finely = Array.from({ length: 38 }, (_, i) => [(20 * i) / 37, (15 * i) / 37]).flat();
    expect(alongOf(6, ...finely)).toEqual(close([0, 4, 8, 12, 16, 20].map((x) => [x, 0.75 * x])));
    expect(alongOf(6, 0, 0, 0, 0, 20, 15, 20, 15)).toEqual(
      close([0, 4, 8, 12, 16, 20].map((x) => [x, 0.75 * x])),
    );
  });
  test('at corners of more than 30 degrees, and past flatter ones', () => {
    const bent = (turn: number) => {
      const [dx, dy] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
      return alongOf(4, 0, 0, 9, 0, 9 + 8 * dx, 8 * dy);
    };
    for (const turn of [31, -31, 90, -135, 180]) {
      const [dx, dy] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
      const straight = [
        [0, 0],
        [3, 0],
        [6, 0],
        [9, 0],
      ];
      expect(bent(turn)).toEqual(close([...straight, [9 + 4 * dx, 4 * dy], [9 + 8 * dx, 8 * dy]]));
    }
    // 17 mm in five steps of 3.4: the third lies 1.2 past the bend.
    for (const turn of [0, 29, -29])
      expect(bent(turn)[3]).toEqual(
        close([[9 + 1.2 * Math.cos((turn * Math.PI) / 180), 1.2 * Math.sin((turn * Math.PI) / 180)]])[0],
      );
  });
  test('at no corner nearer than half a step to the one before', () => {
    const stairs = (mm: number) => alongOf(4, 0, 0, 9, 0, 9, mm, 18, mm);
    expect(stairs(2.1)).toContainEqual(close([[9, 2.1]])[0]);
    expect(stairs(1.9)).toContainEqual(close([[9, 0]])[0]);
    expect(stairs(1.9)).not.toContainEqual(close([[9, 1.9]])[0]);
  });
  test('of no length at the one place that it has', () => {
    const strokes = [points(5, 6, 5, 6), points(900, 6, 909, 6)];
    const row = rowOfCase({ strokes, repeatMm: 1000, middleXMm: 0 });
    expect(samplesOf(aloneOf(row), [0, 0, 10, 10], 4)).toEqual([{ x: 5, y: 6 }]);
  });
});

describe.each(layouts)('of %s rows in a window', (layout) => {
  test('all samples lie on a row, and all of the line of each lies near one of it', () => {
    for (let seed = 1; seed <= 6; seed++) {
      const drawn = seed % 2 ? randomCase(seed) : randomDashes(seed);
      const motif = shiftedCase(
        { ...drawn, repeatMm: drawn.repeatMm * [0.4, 1, 2][seed % 3] },
        seed % 2 ? -300 : 0,
      );
      const random = generator(seed);
      const row = rowOfCase(motif);
      const [spacing, step, margin] = [(0.4 + random()) * row.heightMm, 2 + 4 * random(), 9 * random()];
      const [left, top] = [400 * random() - 200, 400 * random() - 200];
      const window = [left, top, left + 80 * random(), top + 50 * random()];
      const samples = samplesOf(stackOf(row, layout, spacing), window, step, margin);
      const isIn = ({ x, y }: { x: number; y: number }, moreMm: number) =>
        x >= window[0] - moreMm &&
        x <= window[2] + moreMm &&
        y >= window[1] - moreMm &&
        y <= window[3] + moreMm;
      const centre = { x: (window[0] + window[2]) / 2, y: (window[1] + window[3]) / 2 };
      const far = 60 + margin + step;
      const rows = rowsAround(motif, spacing, centre.y, far);
      const onRows = new Set<Sample>();
      for (const index of rows) {
        const line = segmentsOfRow(motif, layout, spacing, index, centre.x, far);
        const own = samples.filter((sample) => line.some((segment) => nearestOn(segment, sample).mm < 1e-9));
        for (const sample of own) onRows.add(sample);
        for (const [ax, ay, bx, by] of line)
          for (const share of [0.1, 0.37, 0.5, 0.81]) {
            const place = { x: ax + share * (bx - ax), y: ay + share * (by - ay) };
            // No farther from a sample than half a step, as far as that is in as well.
            if (!isIn(place, margin - step / 2)) continue;
            const nearest = Math.min(...own.map(({ x, y }) => Math.hypot(x - place.x, y - place.y)));
            expect(nearest, `seed ${seed}`).toBeLessThanOrEqual(step / 2 + 1e-9);
          }
      }
      expect(onRows.size).toBe(samples.length);
      for (const sample of samples) expect(isIn(sample, margin)).toBe(true);
    }
  });
});

describe('of a window with more line than is good there are none, so that a wider step is taken', () => {
  /** Level rows this far apart, of repeats of 100 mm, in a window far from the first of them. */
  const level = (spacing: number, width: number, height: number, step: number) =>
    samplesAround(
      stackOf(
        rowOfCase({ strokes: [points(0, 0, 100, 0)], repeatMm: 100, middleXMm: 50 }),
        'straight',
        spacing,
      ),
      { leftMm: 5000, rightMm: 5000 + width, topMm: -9000, bottomMm: -9000 + height },
      step,
      0,
    );
  // 500 or 250 rows of 1000 mm of line, a sample to a millimetre: half a million, a quarter of a million.
  test('more than 300,000 samples', () => {
    expect(level(1, 1000, 500, 1)).toBeNull();
    expect(level(1, 1000, 250, 1)!.length / 2).toBeGreaterThan(250_000);
    expect(level(2, 1000, 500, 1)!.length / 2).toBeGreaterThan(250_000);
    expect(level(1, 1000, 500, 2)!.length / 2).toBeGreaterThan(250_000);
  });
  // A comb 1000 mm deep, of 20,000 mm of line to 100: where rows are 10 mm apart a hundred lie over one another.
  test('not where much is looked at of which little lies in the window, up to 20,000,000 looks', () => {
    const comb = Array.from({ length: 21 }, (_, i) => [
      5 * i,
      i % 2 ? 0 : 1000,
      5 * i,
      i % 2 ? 1000 : 0,
    ]).flat();
    const row = rowOfCase({ strokes: [points(...comb)], repeatMm: 105, middleXMm: 50 });
    const of = (spacing: number) =>
      samplesAround(
        stackOf(row, 'straight', spacing),
        { leftMm: -3000, rightMm: -2990, topMm: 4000, bottomMm: 4001 },
        1,
        0,
      );
    // 21,000 samples to a repeat, once or twice, by 100 rows, by 1000 and by 2000.
    // Those of rows 10 mm apart stand in the same places: a millimetre apart on two or three teeth.
    expect(of(10)!.length / 2).toBeGreaterThan(10);
    expect(of(1)).toBeNull();
    expect(of(0.5)).toBeNull();
  });
  // 200 to a repeat of a millimetre, in 200 of them and 11 rows: 440,000 however wide the step.
  test('but where no wider step would leave fewer', () => {
    const dashes = Array.from({ length: 100 }, (_, i) => points(i / 100, 0, i / 100, 1));
    const row = rowOfCase({ strokes: dashes, repeatMm: 1, middleXMm: 0 });
    const by = (step: number) =>
      samplesAround(
        stackOf(row, 'straight', 1),
        { leftMm: 0, rightMm: 2000, topMm: 0, bottomMm: 100 },
        step,
        0,
      );
    expect(by(1.9)).toBeNull();
    expect(by(2.1)!.length / 2).toBeGreaterThan(400_000);
  });
});

describe('of short strokes that lie together', () => {
  const random = generator(3);
  const dust = (count: number) =>
    Array.from({ length: count }, () => {
      const [x, y] = [2 * random() - 37, 2 * random() - 21];
      return points(x, y, x + 0.001, y);
    });
  const of = (strokes: Float64Array[]) =>
    samplesOf(aloneOf(rowOfCase({ strokes, repeatMm: 50, middleXMm: 0 })), [-60, -40, -20, 0], 1);
  test('all ends are taken where they are few for so much cloth', () => {
    expect(of(dust(40))).toHaveLength(80);
  });
  // A field of 2 by 2 mm has 64 squares of a quarter of a step, and a rim.
  test('one to a square of a quarter of the step is taken where they are thousands', () => {
    const strokes = dust(4000);
    const samples = of(strokes);
    expect(samples.length).toBeGreaterThanOrEqual(64);
    expect(samples.length).toBeLessThanOrEqual(81);
    for (const [x, y] of strokes)
      expect(Math.min(...samples.map((s) => Math.hypot(s.x - x, s.y - y)))).toBeLessThan(0.25 * Math.SQRT2);
  });
});
