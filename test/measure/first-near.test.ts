import { expect, test } from 'vitest';
import { firstNear } from '../../src/measure/stitching/first-near.js';
import { randomFrom } from './lines.js';

test('the first whole number that holds is the one that trying each finds, in few looks', () => {
  for (const low of [0, 3]) {
    for (const high of [low, low + 1, low + 40]) {
      for (let first = low + 1; first <= high + 1; first++) {
        for (let guess = low - 2.5; guess <= high + 3; guess += 2.25) {
          const looked: number[] = [];
          const found = firstNear(guess, low, high, (n) => {
            looked.push(n);
            return n >= first;
          });
          expect(found).toBe(first <= high ? first : null);
          expect(looked.filter((n) => n <= low || n > high)).toEqual([]);
          expect(new Set(looked).size).toBe(looked.length);
          // Strides that double come past it, and halving what lies between them finds it.
          const from = Math.min(Math.max(Math.ceil(guess), low + 1), Math.max(high, low + 1));
          expect(looked.length).toBeLessThanOrEqual(2 + 2 * Math.log2(1 + Math.abs(from - first)));
        }
      }
    }
  }
  expect(firstNear(-Infinity, 0, 9, (n) => n > 6)).toBe(7);
  expect(firstNear(Infinity, 0, 9, (n) => n > 6)).toBe(7);
});

test('where what holds does not go on holding, it is one that holds while the one before does not', () => {
  const random = randomFrom(77);
  let found = 0;
  for (let round = 0; round < 400; round++) {
    const holds = Array.from({ length: 31 }, () => random() < 0.5);
    const n = firstNear(40 * random() - 5, 0, 30, (k) => holds[k]);
    if (n === null) continue;
    expect(holds[n]).toBe(true);
    expect(n === 1 || !holds[n - 1]).toBe(true);
    found++;
  }
  expect(found).toBeGreaterThan(200);
});
