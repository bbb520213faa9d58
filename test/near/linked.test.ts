/** Which points hang together, against every pair of them. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { linkedWithin } from '../../src/near/linked.js';

/** For each point the first of those it hangs together with: the way of each pair is asked, again and again. */
function firstOfEach(points: readonly number[], reach: number): number[] {
  const first = points.flatMap((_, i) => (i % 2 ? [] : [i / 2]));
  for (let changed = true; changed; ) {
    changed = false;
    for (let p = 0; p < first.length; p++) {
      for (let q = 0; q < first.length; q++) {
        const apart = Math.hypot(points[2 * p] - points[2 * q], points[2 * p + 1] - points[2 * q + 1]);
        if (apart > reach || first[q] >= first[p]) continue;
        first[p] = first[q];
        changed = true;
      }
    }
  }
  return first;
}

function foundFirst(points: readonly number[], reach: number): number[] {
  const first: number[] = [];
  for (const group of linkedWithin(Float64Array.from(points), reach).members())
    for (const member of group) first[member] = group[0];
  return first;
}

test('points hang together that others between them link, on either side of nothing', () => {
  // A sixteenth of the reach and more apart, so that none stands for another.
  const place = fc.tuple(fc.integer({ min: -40, max: 40 }), fc.integer({ min: -12, max: 12 }));
  fc.assert(
    fc.property(
      fc.uniqueArray(place, { maxLength: 60, selector: String }),
      fc.constantFrom(1, 1.5, 3, 5),
      (found, reach) => {
        const points = found.flat();
        expect(foundFirst(points, reach)).toEqual(firstOfEach(points, reach));
      },
    ),
    { numRuns: 400 },
  );
});

test('a lump of thousands of points is one, and a chain to the next lump makes them one', () => {
  const lump = (x: number) =>
    Array.from({ length: 5000 }, (_, i) => [x + 0.3 * Math.sin(i), 0.3 * Math.cos(1.7 * i)]).flat();
  const chain = (steps: number) => Array.from({ length: steps }, (_, i) => [0.9 * (i + 1), 0]).flat();
  const groupsOf = (...parts: number[][]) =>
    linkedWithin(Float64Array.from(parts.flat()), 1).members().length;
  expect(groupsOf(lump(0))).toBe(1);
  expect(groupsOf(lump(0), lump(10))).toBe(2);
  expect(groupsOf(lump(0), chain(8), lump(10))).toBe(2);
  expect(groupsOf(lump(0), chain(10), lump(10))).toBe(1);
});

test('nothing hangs together with nothing', () => {
  expect(linkedWithin(new Float64Array(0), 1).members()).toEqual([]);
});
