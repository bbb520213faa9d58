import fc from 'fast-check';
import { expect, test } from 'vitest';
import { BoxPairs } from '../../src/near/box-pairs.js';

const number = fc.integer({ min: 0, max: 60 });
const box = fc
  .tuple(number, number, fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 6 }))
  .map(([x, y, width, height]) => [x, y, x + width, y + height]);

test('each two boxes that come near each other are visited once, and no others, in whatever order they are packed', () => {
  fc.assert(
    fc.property(
      fc.array(box, { maxLength: 200 }),
      fc.constantFrom(0, 1, 2.5),
      fc.boolean(),
      (boxes, withinMm, turned) => {
        const order = boxes.map((_, i) => (turned ? boxes.length - 1 - i : i));
        const pairs = new BoxPairs(Float64Array.from(boxes.flat()), order);
        const visited: string[] = [];
        const all = pairs.visit(withinMm, (a, b) => {
          visited.push(`${Math.min(a, b)} ${Math.max(a, b)}`);
          return true;
        });
        expect(all).toBe(true);
        expect(visited.sort()).toEqual(nearPairs(boxes, withinMm).sort());
      },
    ),
    { seed: 7, numRuns: 200 },
  );
});

/** All held against each other: two boxes come near where neither lies wholly beyond the other, across or down. */
function nearPairs(boxes: readonly number[][], withinMm: number): string[] {
  const gap = (p: readonly number[], q: readonly number[], axis: number) =>
    Math.max(p[axis] - q[axis + 2], q[axis] - p[axis + 2]);
  return boxes.flatMap((p, a) =>
    boxes.flatMap((q, b) => (b > a && Math.max(gap(p, q, 0), gap(p, q, 1)) <= withinMm ? [`${a} ${b}`] : [])),
  );
}

test('the search ends where it is told to', () => {
  const same = Float64Array.from({ length: 4 * 30 }, () => 1);
  let seen = 0;
  const pairs = new BoxPairs(
    same,
    Array.from({ length: 30 }, (_, i) => i),
  );
  expect([pairs.visit(0, () => ++seen < 5), seen]).toEqual([false, 5]);
});
