import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pairsWithin } from '../../src/near/point-pairs.js';
import { neighboursTogether } from '../../src/near/together.js';

/** Coordinates to a millionth, of all sizes, most of them shared, so that points lie in heaps as well as far apart. */
const mm = fc.oneof(
  fc.integer({ min: 0, max: 3 }),
  fc.integer({ min: -1e9, max: 1e9 }).map((n) => n / 1e6),
  fc.integer({ min: 0, max: 1000 }).map((n) => n / 1e6),
);
const places = fc.array(fc.tuple(mm, mm), { maxLength: 120 }).map((all) => Float64Array.from(all.flat()));

/** No two places lie just as far apart as the reaches below. */
function byTryingAll(points: Float64Array, reachMm: number): string[] {
  const found: string[] = [];
  for (let later = 0; 2 * later < points.length; later++) {
    for (let earlier = 0; earlier < later; earlier++) {
      const dx = points[2 * later] - points[2 * earlier];
      const dy = points[2 * later + 1] - points[2 * earlier + 1];
      if (dx * dx + dy * dy <= reachMm * reachMm) found.push(`${later} ${earlier}`);
    }
  }
  return found.sort();
}

function told(pairs: Uint32Array | null): string[] {
  return Array.from({ length: pairs!.length / 2 }, (_, k) => `${pairs![2 * k]} ${pairs![2 * k + 1]}`).sort();
}

test('pairs are those found by trying all', () => {
  fc.assert(
    fc.property(
      places,
      fc.constantFrom(0.0001000137, 0.5000137, 1.0000137, 40.0000137, 5000),
      (points, reachMm) => {
        expect(told(pairsWithin(points, reachMm))).toEqual(byTryingAll(points, reachMm));
      },
    ),
  );
});

test('a heap of points beside one far away has the pairs it has alone', () => {
  const heap = Float64Array.from({ length: 400 }, (_, i) => ((i * 7919) % 401) / 1e5);
  const beside = Float64Array.of(...heap, 1e6, 1e6);
  expect(told(pairsWithin(beside, 2e-4))).toEqual(byTryingAll(heap, 2e-4));
});

test('more pairs than wanted are none, and so many are given', () => {
  const points = new Float64Array(20);
  expect(told(pairsWithin(points, 1, 45))).toHaveLength(45);
  expect(pairsWithin(points, 1, 44)).toBeNull();
});

test('in a full cell the points beyond its limit are in no pair', () => {
  expect(told(pairsWithin(new Float64Array(20), 1, Infinity, 4))).toEqual(
    byTryingAll(new Float64Array(8), 1),
  );
});

test('neighbours stand together: along a line of places in any order, each next to the one before it', () => {
  const shuffled = Array.from({ length: 1000 }, (_, k) => (k * 389) % 1000);
  const order = neighboursTogether(Float64Array.from(shuffled.flatMap((k) => [k, 0])));
  const walked = Array.from(order, (k) => shuffled[k]);
  expect([...walked].sort((a, b) => a - b)).toEqual(Array.from(shuffled.keys()));
  // The squares are as many as the places, in rows of their root: 32 places share a square of the only row.
  walked.slice(1).forEach((k, i) => {
    expect(Math.abs(k - walked[i])).toBeLessThan(64);
  });
});
