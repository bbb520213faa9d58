/** Which points lie near a place, against all of them. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { PointGrid } from '../../src/near/point-grid.js';

/** On a board of whole numbers on all sides of nothing, and a few far off. */
const coordinate = fc.oneof(
  { weight: 12, arbitrary: fc.integer({ min: -12, max: 12 }) },
  { weight: 1, arbitrary: fc.integer({ min: -3_000_000, max: 3_000_000 }) },
);
const places = fc.array(fc.tuple(coordinate, coordinate), { maxLength: 90 });

test('each point at most the reach away is visited once, however wide the cells, while points are added', () => {
  fc.assert(
    fc.property(
      places,
      fc.constantFrom(0.5, 1, 2.5, 5),
      fc.constantFrom(undefined, 0.7, 1, 4, 40),
      fc.constantFrom(undefined, 1, 200),
      (points, reach, times, room) => {
        const cellMm = times === undefined ? undefined : times * reach;
        const grid = new PointGrid(reach, Infinity, room, cellMm);
        for (const [k, [x, y]] of points.entries()) {
          expect(grid.add(x, y)).toBe(true);
          for (const [px, py] of [[x, y], [x + 0.5, y - 1], points[k >> 1]]) {
            const near: number[] = [];
            grid.visitNear(px, py, (id) => near.push(id));
            const isNear = (id: number) => Math.hypot(points[id][0] - px, points[id][1] - py) <= reach;
            expect(near.sort((a, b) => a - b)).toEqual(
              [...points.keys()].filter((id) => id <= k && isNear(id)),
            );
          }
        }
      },
    ),
    { seed: 11, numRuns: 150 },
  );
});

test('of the points of one cell only the first few are kept, and the others are told', () => {
  for (const limit of [1, 3, 20]) {
    const grid = new PointGrid(1, limit);
    // Two lumps far apart, of forty points each.
    const added = Array.from({ length: 80 }, (_, k) => grid.add(k % 2 ? 100.5 : 0.5, 0.01 * k));
    const near = (x: number) => {
      const found: number[] = [];
      grid.visitNear(x, 0.4, (id) => found.push(id));
      return found.sort((a, b) => a - b);
    };
    const first = (odd: number) => Array.from({ length: limit }, (_, k) => 2 * k + odd);
    expect(near(0.5)).toEqual(first(0));
    expect(near(100.5)).toEqual(first(1));
    expect(added.map((isIn, k) => (isIn ? k : -1)).filter((k) => k >= 0)).toEqual(
      Array.from({ length: 2 * limit }, (_, k) => k),
    );
  }
});
