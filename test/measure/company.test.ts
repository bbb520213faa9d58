/** How long two passes keep company, by its definition: from what share of each straight piece lies within which distance. */
import { describe, expect, test } from 'vitest';
import type { Beside } from '../../src/measure/company/beside.js';
import {
  companyOf,
  distanceHolding,
  leastDistance,
  stretchesWithin,
} from '../../src/measure/company/company.js';
import { merged, totalMm } from '../../src/measure/company/stretches.js';
import { randomFrom } from './lines.js';

/** Passes whose distance goes straight from place to place: [along, off, along, off, …], mm. */
function passes(...places: number[]): Beside {
  return {
    stroke: 0,
    alongMm: Float64Array.from(places.filter((_, i) => i % 2 === 0)),
    offMm: Float64Array.from(places.filter((_, i) => i % 2 === 1)),
    foldMm: null,
  };
}

/** Passes whose distance is a function of the way walked. */
function passesOf(fromMm: number, toMm: number, offMm: (s: number) => number): Beside {
  const steps = 4000;
  return passes(
    ...Array.from({ length: steps + 1 }, (_, k) => fromMm + (k / steps) * (toMm - fromMm)).flatMap((s) => [
      s,
      offMm(s),
    ]),
  );
}

function randomPasses(random: () => number, most = 1.2): Beside {
  let s = 20 * random();
  const places = [];
  for (let k = 3 + Math.floor(12 * random()); k > 0; k--) {
    places.push(s, random() < 0.3 ? 0.15 + 0.05 * random() : most * random());
    s += 0.1 + 6 * random();
  }
  return passes(...places);
}

/** How much of each piece lies within a distance is a matter of proportion. */
function lengthWithin({ alongMm, offMm }: Beside, mm: number): number {
  let sum = 0;
  for (let k = 1; k < alongMm.length; k++) {
    const [low, high] = [offMm[k - 1], offMm[k]].sort((a, b) => a - b);
    const share = low === high ? Number(low <= mm) : Math.max(0, Math.min((mm - low) / (high - low), 1));
    sum += share * (alongMm[k] - alongMm[k - 1]);
  }
  return sum;
}

describe('what no meeting explains', () => {
  const [aboveMm, withinMm] = [0.1, 0.8];

  // 2 F - A: of a crossing a quarter lies in each band, of a touch the root of a quarter in the nearest.
  test('is nothing where passes cross or touch, and all of it where they keep apart', () => {
    expect(companyOf(passesOf(-20, 20, Math.abs), 0, 0.8)).toMatchObject({ lengthMm: 0, times: 1 });
    expect(
      companyOf(
        passesOf(-20, 20, (s) => 0.01 * s * s),
        0,
        0.8,
      ),
    ).toMatchObject({ lengthMm: 0, times: 1 });
    for (const off of [0.05, 0.3, 0.79]) {
      const { lengthMm, allMm, fromMm, toMm } = companyOf(passes(5, off, 35, off), 0, 0.8);
      expect(lengthMm).toBeCloseTo(30, 9);
      expect(allMm).toBeCloseTo(30, 9);
      expect(fromMm).toBeLessThanOrEqual(off);
      expect(toMm).toBeGreaterThanOrEqual(off);
    }
  });

  test('is the stretch of constant distance where they part from there', () => {
    // 20 mm at 0.1, and 8 mm on which they part to 0.8.
    const parting = passes(0, 0.1, 20, 0.1, 28, 0.8);
    const { lengthMm, allMm } = companyOf(parting, 0, 0.8);
    expect(allMm).toBeCloseTo(28, 9);
    expect(lengthMm).toBeCloseTo(2 * (20 + (8 * 0.1) / 0.7) - 28, 9);
  });

  test('is none where it is less than three tenths of all', () => {
    // Of 100 mm so many at 0.1, the others at 0.7: one band has the more.
    const steps = (mm: number) => companyOf(passes(0, 0.1, mm, 0.1, mm, 0.7, 100, 0.7), 0, 0.8).lengthMm;
    expect(steps(64)).toBe(0);
    expect(steps(66)).toBeCloseTo(32, 6);
    expect(steps(36)).toBe(0);
    expect(steps(34)).toBeCloseTo(32, 6);
  });

  test('is twice the fullest band of distances less all, for distances that go anyhow', () => {
    const random = randomFrom(404);
    let [kept, met] = [0, 0];
    for (let round = 0; round < 400; round++) {
      const drawn = randomPasses(random);
      const above = round % 2 ? aboveMm : 0;
      const least = Math.min(...drawn.offMm);
      const meets = least < above + (withinMm - above) / 8;
      const from = meets ? above : Math.max(above, least);
      const level = (k: number) => from + ((withinMm - from) * k) / 8;
      const bands = [0, 1, 2, 3, 4, 5, 6].map(
        (k) => lengthWithin(drawn, level(k + 2)) - lengthWithin(drawn, level(k)),
      );
      const allMm = lengthWithin(drawn, withinMm) - lengthWithin(drawn, from);
      const found = companyOf(drawn, above, withinMm);
      expect(found.allMm).toBeCloseTo(allMm, 9);
      const fullest = Math.max(...bands);
      // A band with nearly all of it is as good as the fullest.
      const slack = fullest > 0.95 * allMm ? 0.1 * allMm : 1e-9;
      const explained = 2 * fullest - allMm;
      if (explained > 0.3 * allMm + slack) {
        expect(Math.abs(found.lengthMm - explained)).toBeLessThanOrEqual(slack);
        kept++;
      } else if (explained < 0.3 * allMm - 1e-9) expect(found.lengthMm).toBe(0);
      const inBand = lengthWithin(drawn, found.toMm) - lengthWithin(drawn, found.fromMm);
      expect(inBand).toBeGreaterThanOrEqual(fullest - slack);
      expect(found.toMm - found.fromMm).toBeCloseTo((withinMm - from) / 4, 9);
      if (meets) met++;
    }
    expect(Math.min(kept, met, 400 - met)).toBeGreaterThan(40);
  });

  // Within a quarter of 0.8 mm at 0 to 10, at 12 to 20 and at 30 to 40, with the line 0.5 mm off between.
  test('tells how often they come near: not twice where they part for no longer than 0.8 mm', () => {
    const near = (gapMm: number) =>
      companyOf(passes(0, 0.1, 10, 0.1, 10, 0.5, 10 + gapMm, 0.5, 10 + gapMm, 0.1, 30, 0.1), 0, 0.8).times;
    expect(near(0.79)).toBe(1);
    expect(near(0.81)).toBe(2);
    const weaving = passesOf(0, 50, (s) => 0.4 + 0.35 * Math.cos((2 * Math.PI * s) / 10));
    // Near 5, 15, 25, 35 and 45.
    expect(companyOf(weaving, 0, 0.8).times).toBe(5);
  });
});

test('what lies within a distance is in proportion, in ascending stretches', () => {
  const random = randomFrom(9);
  for (let round = 0; round < 200; round++) {
    const drawn = randomPasses(random);
    const withinMm = 0.05 + random();
    const stretches = stretchesWithin(drawn, withinMm);
    expect(totalMm(stretches)).toBeCloseTo(lengthWithin(drawn, withinMm), 9);
    expect(stretches).toEqual([...stretches].sort((a, b) => a - b));
    const { alongMm, offMm } = drawn;
    alongMm.forEach((s, k) => {
      const isIn = stretches.filter((mm) => mm <= s).length % 2 === 1;
      const isEnd = stretches.some((mm) => Math.abs(mm - s) < 1e-9);
      if (!isEnd) expect(isIn).toBe(offMm[k] <= withinMm);
    });
    expect(leastDistance(drawn)).toBe([...offMm].sort((a, b) => a - b)[0]);
  }
});

test('the least distance that holds a length, to a thousandth', () => {
  // Of |s| from -10 to 10 there lie 2 h within h.
  const drawn = passesOf(-10, 10, Math.abs);
  for (const lengthMm of [0.5, 3, 7.7]) {
    const found = distanceHolding(lengthMm, (mm) => lengthWithin(drawn, mm), 0, 8);
    expect(found).toBeGreaterThanOrEqual(lengthMm / 2 - 1e-9);
    expect(found).toBeLessThan(lengthMm / 2 + 0.001);
  }
});

// With whole numbers each millimetre is covered or not.
test('stretches made one cover the same ground and what gaps there are of no more than the given', () => {
  const random = randomFrom(55);
  for (let round = 0; round < 300; round++) {
    const stretches = Array.from({ length: Math.floor(8 * random()) }, () => {
      const from = Math.floor(60 * random());
      return [from, from + 1 + Math.floor(9 * random())];
    });
    const gapMm = Math.floor(4 * random());
    const covered = Array.from({ length: 80 }, (_, mm) =>
      stretches.some(([from, to]) => from <= mm && mm < to),
    );
    const filled = covered.map((is, mm) => {
      if (is) return true;
      const before = covered.lastIndexOf(true, mm);
      const after = covered.indexOf(true, mm);
      return before >= 0 && after >= 0 && after - before - 1 <= gapMm;
    });
    const found = merged(stretches.flat(), gapMm);
    expect(found).toEqual([...found].sort((a, b) => a - b));
    expect(new Set(found).size).toBe(found.length);
    expect(Array.from({ length: 80 }, (_, mm) => found.filter((end) => end <= mm).length % 2 === 1)).toEqual(
      filled,
    );
    expect(totalMm(found)).toBe(filled.filter((is) => is).length);
  }
  expect(merged([3, 5, 0, 2])).toEqual([0, 2, 3, 5]);
});
