import { expect, test } from 'vitest';
import { RunLinker } from '../../src/measure/company/run-linker.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { line } from './lines.js';

// Two strokes of segments 1 mm long: 0 to 9, and 11 to 30.
const index = new SegmentIndex([
  line(...Array.from({ length: 11 }, (_, k) => [k, 0]).flat()),
  line(...Array.from({ length: 21 }, (_, k) => [k, 5]).flat()),
]);

/** Pairs i, j with what they cover, as [i, j, from, to along i's stroke, from, to along j's]. */
function runs(...pairs: [number, number, number, number, number, number][]) {
  const linker = new RunLinker(0.1);
  for (const [i, j, ...parts] of pairs) linker.add(i, j, index, Float64Array.from(parts));
  return linker.runs(0).map(({ first, second }) => Array.from(first, (i, k) => [i, second[k]]));
}

test('pairs that go on from each other are one run, in either direction', () => {
  expect(runs([0, 11, 0, 1, 0, 1], [1, 12, 1, 2, 1, 2], [2, 13, 2, 3, 2, 3])).toHaveLength(1);
  expect(runs([0, 16, 0, 1, 5, 6], [1, 15, 1, 2, 4, 5], [2, 14, 2, 3, 3, 4])).toHaveLength(1);
});

test('pairs elsewhere along either stroke are runs of their own', () => {
  expect(runs([0, 11, 0, 1, 0, 1], [1, 15, 1, 2, 4, 5])).toHaveLength(2);
  expect(runs([0, 11, 0, 1, 0, 1], [4, 12, 4, 5, 1, 2])).toHaveLength(2);
});

test('a run that forks stays one, and runs that grow together become one', () => {
  const wide: [number, number, number, number, number, number][] = [
    [0, 11, 0, 1, 0, 1],
    [0, 12, 0, 1, 1, 2],
    [0, 13, 0, 1, 2, 3],
  ];
  expect(runs(...wide, [1, 11, 1, 2, 0, 0.3], [1, 13, 1, 2, 2.7, 3])).toHaveLength(1);
  expect(
    runs(
      [0, 11, 0, 1, 0, 0.3],
      [0, 13, 0, 1, 2.7, 3],
      ...wide.map(([, j, , , ...part]) => [1, j, 1, 2, ...part] as (typeof wide)[0]),
    ),
  ).toHaveLength(1);
});

test('runs too short along one of their strokes are left out', () => {
  const linker = new RunLinker(0.1);
  linker.add(0, 11, index, Float64Array.of(0, 1, 0, 0.2));
  linker.add(1, 11, index, Float64Array.of(1, 2, 0.2, 0.4));
  expect(linker.runs(0.4)).toHaveLength(1);
  expect(linker.runs(0.5)).toEqual([]);
});
