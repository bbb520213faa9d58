/** The take-up roll, the passes and the bobbins, each against a plainer way to the same answer. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bobbinsFor } from '../../src/plan/bobbins.js';
import { splitIntoPasses } from '../../src/plan/passes.js';
import { largestHeightMm, rollRadiusMm, usableDepthMm } from '../../src/plan/roll.js';

const machine = { throatMm: 457.2, reserveMm: 0, rollerMm: 63.5, quiltThicknessMm: 3 };

describe('the take-up roll', () => {
  it('is as thick as the turns wound on it one by one', () => {
    // Turn k of an Archimedean spiral of pitch t has the mean radius r0 + (k - 1/2) t: length 2 pi (r0 + (k - 1/2) t).
    let lengthMm = 0;
    for (let turn = 1; turn <= 40; turn++) {
      lengthMm += 2 * Math.PI * (31.75 + (turn - 0.5) * 3);
      expect(rollRadiusMm(lengthMm, machine)).toBeCloseTo(31.75 + 3 * turn, 9);
    }
  });

  it('is as thick as a spiral of that length, to a hundredth of a millimetre', () => {
    // The arc of an Archimedean spiral r = b theta, b = pitch / 2 pi, from 0 to theta is b / 2 (theta sqrt(1 + theta^2) +
    // arsinh theta) (Bronshtein and Semendyayev, Handbook of Mathematics, plane curves).
    const b = 3 / (2 * Math.PI);
    const arc = (r: number) => {
      const theta = r / b;
      return (b / 2) * (theta * Math.sqrt(1 + theta * theta) + Math.asinh(theta));
    };
    for (const r of [32, 40, 60, 120, 250])
      expect(Math.abs(rollRadiusMm(arc(r) - arc(31.75), machine) - r)).toBeLessThan(0.01);
  });

  it('takes what its diameter has grown', () => {
    // r = 31.75 + 3 after one turn, 2 pi 33.25 long.
    expect(usableDepthMm(2 * Math.PI * 33.25, machine)).toBeCloseTo(457.2 - 6, 9);
  });

  it('leaves room for the largest height at the last row, and for no more', () => {
    const tallest = largestHeightMm(2000, machine);
    expect(usableDepthMm(2000 - tallest, machine)).toBeGreaterThanOrEqual(tallest);
    expect(usableDepthMm(2000 - tallest - 0.01, machine)).toBeLessThan(tallest + 0.01);
  });
});

/** Fewest passes by trying every split. */
function fewest(rows: readonly { topMm: number; bottomMm: number }[], from = 0): number {
  if (from === rows.length) return 0;
  let best = Infinity;
  for (let to = from + 1; to <= rows.length; to++) {
    const depth = rows[to - 1].bottomMm - rows[from].topMm;
    if (depth <= usableDepthMm(rows[from].topMm, machine)) best = Math.min(best, 1 + fewest(rows, to));
  }
  return best;
}

describe('passes', () => {
  it('are as few as any split has', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 30, max: 300 }),
        fc.integer({ min: 20, max: 280 }),
        fc.integer({ min: 1, max: 11 }),
        (height, spacing, count) => {
          const rows = Array.from({ length: count }, (_, i) => ({
            topMm: i * spacing,
            bottomMm: i * spacing + height,
          }));
          const split = splitIntoPasses(rows, 0, machine);
          const least = fewest(rows);
          if (Array.isArray(split)) {
            expect(split.length).toBe(least);
            expect(split.flatMap(({ from, to }) => rows.slice(from, to))).toEqual(rows);
          } else expect(least).toBe(Infinity);
        },
      ),
    );
  });

  it('name the row that no longer fits', () => {
    // 440 mm of a throat of 457.2: a roll that has grown by 17.2 is r = 40.35, (40.35^2 - 31.75^2) pi / 3 = 649.3 mm
    // of quilt. Rows 300 apart begin at 0, 300, 600, 900: the fourth is the first beyond.
    const rows = [0, 300, 600, 900].map((topMm) => ({ topMm, bottomMm: topMm + 440 }));
    expect(splitIntoPasses(rows, 0, machine)).toEqual({ tooTall: 3 });
  });
});

describe('bobbins', () => {
  it('never run out inside a row that one holds, and are changed as seldom as can be', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 10 }), { minLength: 1, maxLength: 12 }), (rows) => {
        const { needed, changeAfter, runsOut } = bobbinsFor(rows, 10);
        expect(runsOut).toEqual([]);
        expect(changeAfter).toHaveLength(needed - 1);
        const starts = [0, ...changeAfter.map((row) => row + 1), rows.length];
        for (let i = 1; i < starts.length; i++)
          expect(rows.slice(starts[i - 1], starts[i]).reduce((a, b) => a + b, 0)).toBeLessThanOrEqual(10);
        // Every choice of places to change at.
        let least = Infinity;
        for (let mask = 0; mask < 2 ** (rows.length - 1); mask++) {
          let [used, count] = [0, 1];
          rows.forEach((thread, i) => {
            if (i > 0 && mask & (1 << (i - 1))) [used, count] = [0, count + 1];
            used += thread;
            if (used > 10) count = Infinity;
          });
          least = Math.min(least, count);
        }
        expect(needed).toBe(least);
      }),
    );
  });

  it('start a row that needs more than one with a full one, and the rest serves the next', () => {
    expect(bobbinsFor([4, 25, 5, 1], 10)).toEqual({
      needed: 5,
      changeAfter: [0, 2],
      runsOut: [
        { row: 1, after: 10 },
        { row: 1, after: 20 },
      ],
    });
  });
});
