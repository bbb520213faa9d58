/** What lies near a place of the stacked rows, held against a look at every segment of rows laid out from the words. */
import { describe, expect, test, vi } from 'vitest';
import { layouts } from '../../shared/layout.js';
import {
  aloneOf,
  distanceToRow,
  distanceToStack,
  eachNear,
  repeatsIn,
  rowsIn,
  stackOf,
} from '../../src/rows/stack.js';
import { distanceToRow as byLook, nearestOn, rowsAround, segmentsOfRow } from './laid-out.js';
import { generator, points, randomCase, randomDashes, rowOfCase } from './lines.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

/** Motifs whose repeats and rows lie apart, touch, and overhang several others. */
const motifs = Array.from({ length: 12 }, (_, seed) => {
  const drawn = seed % 2 ? randomCase(seed) : randomDashes(seed + 1);
  return { ...drawn, repeatMm: drawn.repeatMm * [0.3, 1, 2.5][seed % 3] };
});

describe.each(layouts)('%s', (layout) => {
  test('the distance to a row, and to the nearest of all, is that of looking at every segment', () => {
    motifs.forEach((motif, m) => {
      const row = rowOfCase(motif);
      const random = generator(m);
      const stack = stackOf(row, layout, (0.3 + random()) * row.heightMm);
      for (let i = 0; i < 8; i++) {
        const at = { x: 600 * random() - 300, y: 400 * random() - 200 };
        const rows = rowsAround(motif, stack.spacingMm, at.y, row.heightMm + stack.spacingMm);
        const each = rows.map((index) => byLook(motif, layout, stack.spacingMm, index, at));
        rows.forEach((index, k) => {
          expect(distanceToRow(stack, index, at.x, at.y, Infinity)).toBeCloseTo(each[k], 9);
          expect(distanceToRow(stack, index, at.x, at.y, 0.7 * each[k])).toBeCloseTo(0.7 * each[k], 9);
        });
        const least = Math.min(...each);
        expect(distanceToStack(stack, at.x, at.y)).toBeCloseTo(least, 9);
        expect(distanceToStack(stack, at.x, at.y, least + 1)).toBeCloseTo(least, 9);
        expect(distanceToStack(stack, at.x, at.y, 0.7 * least)).toBeCloseTo(0.7 * least, 9);
      }
    });
  });

  test('what is near is each segment within reach, at its nearest place', () => {
    motifs.forEach((motif, m) => {
      const row = rowOfCase(motif);
      const random = generator(m + 50);
      const stack = stackOf(row, layout, (0.3 + random()) * row.heightMm);
      const told = (x: number, y: number, mm: number) => [x, y, mm].map((v) => v.toFixed(5)).join();
      for (const withinMm of [4, 25, 0.8 * row.heightMm]) {
        const at = { x: 600 * random() - 300, y: 400 * random() - 200 };
        const seen: string[] = [];
        eachNear(
          stack,
          at.x,
          at.y,
          withinMm,
          (...foot) => seen.push(told(...foot)),
          () => false,
        );
        const all = rowsAround(motif, stack.spacingMm, at.y, withinMm)
          .flatMap((index) => segmentsOfRow(motif, layout, stack.spacingMm, index, at.x, withinMm))
          .map((segment) => nearestOn(segment, at))
          .filter(({ mm }) => mm <= withinMm);
        expect(seen.sort()).toEqual(all.map(({ x, y, mm }) => told(x, y, mm)).sort());
      }
    });
  });
});

test('a row alone is all there is: nothing lies near but its own repeats', () => {
  for (const motif of motifs) {
    const alone = aloneOf(rowOfCase(motif));
    for (const at of [
      { x: 20, y: 10 },
      { x: -90, y: 400 },
    ]) {
      const mm = byLook(motif, 'straight', 1000, 0, at);
      expect(distanceToStack(alone, at.x, at.y)).toBeCloseTo(mm, 9);
      expect(distanceToStack(alone, at.x, at.y, mm / 2)).toBeCloseTo(mm / 2, 9);
      const seen: number[] = [];
      eachNear(
        alone,
        at.x,
        at.y,
        mm + 5,
        (_x, _y, far) => seen.push(far),
        () => false,
      );
      expect(Math.min(...seen)).toBeCloseTo(mm, 9);
      const own = segmentsOfRow(motif, 'straight', 1000, 0, at.x, mm + 5);
      expect(seen).toHaveLength(own.filter((segment) => nearestOn(segment, at).mm <= mm + 5).length);
    }
    expect(rowsIn(alone, -500, 500)).toEqual([0, 0]);
  }
});

test('rows and repeats that touch a band are those whose boxes do, edges with it', () => {
  // 30 high from 10 to 40, every 20: rows at 10 + 20 k to 40 + 20 k; 50 wide from -5 to 45, every 40.
  const row = rowOfCase({ strokes: [points(-5, 10, 45, 40)], repeatMm: 40, middleXMm: 15 });
  const touching = (from: number, to: number, begin: number, end: number, every: number) => {
    const all = Array.from({ length: 81 }, (_, i) => i - 40);
    const touch = all.filter((k) => begin + every * k <= to && end + every * k >= from);
    return [touch[0], touch.at(-1)];
  };
  for (const [from, to] of [
    [0, 5],
    [40, 50],
    [-110, -90.5],
    [41, 49],
    [85, 95],
    [-300, 300],
  ]) {
    const plain = (numbers: number[]) => numbers.map((k) => k + 0);
    expect(plain(rowsIn(stackOf(row, 'brick', 20), from, to))).toEqual(touching(from, to, 10, 40, 20));
    expect(plain(repeatsIn(row, from, to))).toEqual(touching(from, to, -5, 45, 40));
  }
});
