import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  exitShare,
  nearestToSegment,
  pointToSegment,
  segmentToSegment,
  sharesWithin,
} from '../../src/geometry/segment.js';

const coordinate = fc.integer({ min: -40, max: 40 }).map((n) => n / 4);
const ends = fc.tuple(coordinate, coordinate, coordinate, coordinate);
type Ends = readonly [number, number, number, number];

/** The shares, or null, of a segment within a distance of another. */
function within(one: Ends, other: Ends, mm: number): [number, number] | null {
  const out = new Float64Array(2);
  return sharesWithin(...one, ...other, mm, out) ? [out[0], out[1]] : null;
}

function placeOn([ax, ay, bx, by]: Ends, share: number): [number, number] {
  return [ax + share * (bx - ax), ay + share * (by - ay)];
}

// By brute force: a place of the segment lies in the part that was found just when it is near enough.
test('the part of a segment within a distance of another holds the places that are, and no others', () => {
  fc.assert(
    fc.property(ends, ends, fc.integer({ min: 1, max: 20 }), (one, other, quarter) => {
      const mm = quarter / 4 + 0.01;
      const part = within(one, other, mm);
      for (let share = 0; share <= 1; share += 1 / 64) {
        const off = pointToSegment(...placeOn(one, share), ...other);
        const isIn = part !== null && part[0] <= share && share <= part[1];
        if (Math.abs(off - mm) > 1e-9) expect(isIn).toBe(off < mm);
      }
      for (const share of part ?? [])
        if (share > 0 && share < 1)
          expect(pointToSegment(...placeOn(one, share), ...other)).toBeCloseTo(mm, 9);
      expect(part !== null).toBe(segmentToSegment(...one, ...other) <= mm);
    }),
    { seed: 2, numRuns: 400 },
  );
});

test('segments of no length are places', () => {
  expect(within([3, 0, 3, 0], [0, 0, 10, 0], 0.5)).toEqual([0, 1]);
  expect(within([3, 1, 3, 1], [0, 0, 10, 0], 0.5)).toBeNull();
  expect(within([0, 0, 10, 0], [5, 0, 5, 0], 2)).toEqual([0.3, 0.7]);
});

test('the place of a segment that is nearest to another lies on it, and as far off as the two are apart', () => {
  fc.assert(
    fc.property(ends, ends, (one, other) => {
      const { x, y } = nearestToSegment(...one, ...other);
      expect(pointToSegment(x, y, ...one)).toBeLessThan(1e-9);
      expect(pointToSegment(x, y, ...other)).toBeCloseTo(segmentToSegment(...one, ...other), 9);
    }),
  );
});

test('from within a circle a step leaves it on the circle, and goes outwards there', () => {
  fc.assert(
    fc.property(ends, ([x, y, dx, dy]) => {
      const radius = Math.hypot(x, y) + 0.5;
      fc.pre(dx !== 0 || dy !== 0);
      const share = exitShare(x, y, dx, dy, radius);
      const at = [x + share * dx, y + share * dy];
      expect(Math.hypot(...at)).toBeCloseTo(radius, 9);
      expect(at[0] * dx + at[1] * dy).toBeGreaterThan(0);
    }),
  );
});
