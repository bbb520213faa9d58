import fc from 'fast-check';
import { expect, test } from 'vitest';
import { areaOf, sideOf } from '../../src/geometry/side.js';

// Three different points of a small grid: many lie in line, and many in one place.
const three = fc.record({
  at: fc
    .array(fc.integer({ min: 0, max: 2 }), { minLength: 8, maxLength: 8 })
    .map((all) => Float64Array.from(all)),
  names: fc.shuffledSubarray([0, 1, 2, 3], { minLength: 3, maxLength: 3 }),
});

/**
 * The same in whole numbers of any length, each point really moved aside: with coordinates 2^200 times as large, the
 * lowest point goes up by 2^160 and across by 2^120, the next one up by 2^60. Each step is too small to undo what a
 * larger one decides (Edelsbrunner and Muecke 1990).
 */
function sideMovedAside(points: Float64Array, a: number, b: number, c: number): number {
  const [lowest, next] = [a, b, c].sort((p, q) => p - q);
  const x = (p: number) => (BigInt(points[2 * p]) << 200n) + (p === lowest ? 1n << 120n : 0n);
  const y = (p: number) =>
    (BigInt(points[2 * p + 1]) << 200n) + (p === lowest ? 1n << 160n : p === next ? 1n << 60n : 0n);
  const area = (y(a) - y(c)) * (x(b) - x(c)) - (x(a) - x(c)) * (y(b) - y(c));
  return area > 0n ? 1 : area < 0n ? -1 : 0;
}

test('no point is in line: its side is the one it has when it is really moved aside by a hair', () => {
  fc.assert(
    fc.property(three, ({ at, names: [a, b, c] }) => {
      expect(Math.sign(sideOf(at, a, b, c))).toBe(sideMovedAside(at, a, b, c));
    }),
    { seed: 3, numRuns: 2000 },
  );
});

test('where points are not in line their side is that of the area, which turns about with two of them', () => {
  fc.assert(
    fc.property(three, ({ at, names: [a, b, c] }) => {
      const area = areaOf(at, a, b, c);
      if (area !== 0) expect(sideOf(at, a, b, c)).toBe(area);
      expect(areaOf(at, b, a, c) + area).toBeCloseTo(0, 12);
    }),
    { seed: 4, numRuns: 500 },
  );
});
