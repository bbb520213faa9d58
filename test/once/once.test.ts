import { expect, test } from 'vitest';
import { once, onceFor, oncePer, onDemand } from '../../src/once.js';

test('nothing is worked out before it is asked for, nor twice', () => {
  const asked: string[] = [];
  const facts: { width: number; area: number } = onDemand<{ width: number; area: number }>({
    width: () => asked.push('width') && 3,
    area: () => asked.push('area') && facts.width ** 2,
  });
  expect(asked).toEqual([]);
  expect([facts.area, facts.area, facts.width]).toEqual([9, 9, 3]);
  expect(asked).toEqual(['area', 'width']);
  expect({ ...facts }).toEqual({ width: 3, area: 9 });
});

test('what is undefined is kept as well', () => {
  let made = 0;
  const nothing = () => void made++;
  const [alone, each] = [once(nothing), oncePer<object, void>(nothing)];
  const key = {};
  for (let k = 0; k < 3; k++) expect([alone(), each(key)]).toEqual([undefined, undefined]);
  expect(made).toBe(2);
});

test('one value is kept for each list of arguments, and one for each thing', () => {
  let made = 0;
  const sums = onceFor((a: number, b: number) => [made++, a + b]);
  expect([sums(1, 2), sums(2, 1), sums(1, 2)]).toEqual([
    [0, 3],
    [1, 3],
    [0, 3],
  ]);
  const lengths = oncePer((list: readonly number[]) => [made++, list.length]);
  const list = [1, 2];
  expect([lengths(list), lengths([1, 2]), lengths(list)]).toEqual([
    [2, 2],
    [3, 2],
    [2, 2],
  ]);
});
