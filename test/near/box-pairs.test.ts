import fc from 'fast-check';
import { expect, test } from 'vitest';
import { BoxPairs } from '../../src/near/box-pairs.js';

/** Boxes on a board of 66, of which a few lie so far off that all others are rounded to the same place. */
const number = fc.oneof(
  { weight: 60, arbitrary: fc.integer({ min: 0, max: 60 }) },
  { weight: 1, arbitrary: fc.constantFrom(-2_000_000, 2_000_000) },
);
const box = fc
  .tuple(number, number, fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 6 }))
  .map(([x, y, width, height]) => [x, y, x + width, y + height]);

test('each two that come near each other in both frames are visited once, and no others, in whatever order they are packed', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(box, box), { maxLength: 200 }),
      fc.constantFrom(0, 1, 2.5, 20),
      fc.boolean(),
      (boxes, withinMm, turned) => {
        const order = boxes.map((_, i) => (turned ? boxes.length - 1 - i : i));
        const frames = [0, 1].map((frame) => Float64Array.from(boxes.flatMap((both) => both[frame])));
        const pairs = new BoxPairs(frames[0], frames[1], order, withinMm);
        const visited: string[] = [];
        const all = pairs.visit((a, b) => {
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
function nearPairs(boxes: readonly number[][][], withinMm: number): string[] {
  const gap = (p: readonly number[], q: readonly number[], axis: number) =>
    Math.max(p[axis] - q[axis + 2], q[axis] - p[axis + 2]);
  const near = (p: readonly number[], q: readonly number[]) =>
    Math.max(gap(p, q, 0), gap(p, q, 1)) <= withinMm;
  return boxes.flatMap((p, a) =>
    boxes.flatMap((q, b) => (b > a && near(p[0], q[0]) && near(p[1], q[1]) ? [`${a} ${b}`] : [])),
  );
}

test('the search ends where it is told to', () => {
  const same = Float64Array.from({ length: 4 * 30 }, () => 1);
  let seen = 0;
  const order = Array.from({ length: 30 }, (_, i) => i);
  const pairs = new BoxPairs(same, same, order, 0);
  expect([pairs.visit(() => ++seen < 5), seen]).toEqual([false, 5]);
});
