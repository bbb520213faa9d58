/** Copies a little off, and exact ones, on strokes whose distances can be seen. */
import { describe, expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { reversed } from '../../src/geometry/polyline.js';
import { copiesOf } from '../../src/measure/ends/copies.js';
import { duplicatesOf } from '../../src/measure/ends/duplicates.js';
import { line } from './lines.js';
import { turned } from './shapes.js';

/** Off by more than 0.1 mm and no more than 0.5 mm. */
function copies(strokes: readonly Polyline[], apart: readonly number[] = [], withinMm = 0.5) {
  return copiesOf(strokes, new Set(apart), { nearMm: 0.1, withinMm, most: Infinity }).places;
}

const which = (strokes: readonly Polyline[], apart?: readonly number[]) =>
  copies(strokes, apart).map(({ stroke }) => stroke);

const level = line(0, 0, 100, 0);

/** 2.2 mm long, its middle on the level line at 50. */
function aslant(degrees: number): Polyline {
  const [dx, dy] = [1.1 * Math.cos((degrees * Math.PI) / 180), 1.1 * Math.sin((degrees * Math.PI) / 180)];
  return line(50 - dx, -dy, 50 + dx, dy);
}

describe('a copy drawn a little off', () => {
  test('has its length, the place halfway along it, and how far it lies off', () => {
    const found = { at: { x: 35, y: 0.375 }, lengthMm: 50, offMm: 0.375, stroke: 1 };
    expect(copies([level, line(10, 0.375, 60, 0.375)])).toEqual([found]);
    expect(copies([level, line(60, 0.375, 10, 0.375)])).toEqual([found]);
    // How far it lies off at the farthest; a repeated point is no step.
    expect(copies([level, line(10, 0.125, 10, 0.125, 60, 0.375)])).toMatchObject([{ offMm: 0.375 }]);
    expect(copies([level, line(10, 0.375, 60, 0.125)])).toMatchObject([{ offMm: 0.375 }]);
  });

  test('lies farther off than a retrace, and no farther than the limit', () => {
    expect(which([level, line(10, 0.1, 60, 0.1)])).toEqual([]);
    expect(which([level, line(10, 0.1001, 60, 0.1001)])).toEqual([1]);
    expect(which([level, line(10, 0.5, 60, 0.5)])).toEqual([1]);
    expect(which([level, line(10, 0.5001, 60, 0.5001)])).toEqual([]);
  });

  test('is the shorter of two, of two as long the later', () => {
    expect(which([line(10, 0.3, 60, 0.3), level])).toEqual([0]);
    expect(which([level, line(0, 0.3, 100, 0.3)])).toEqual([1]);
  });

  // Left out, it is no company for others: of three side by side one stays.
  test('is no company for further ones', () => {
    expect(which([level, line(0, 0.3, 100, 0.3), line(0, 0.6, 100, 0.6)])).toEqual([1, 2]);
    expect(which([line(0, 0.3, 100, 0.3), line(0, -0.3, 50, -0.3), level, line(40, 0.6, 60, 0.6)])).toEqual([
      1, 2, 3,
    ]);
  });

  test('is measured to the nearest of those beside it', () => {
    expect(copies([level, line(0, 0.625, 100, 0.625), line(10, 0.25, 60, 0.25)])).toMatchObject([
      { stroke: 2, offMm: 0.25 },
    ]);
    expect(copies([line(0, 0.625, 100, 0.625), level, line(10, 0.25, 60, 0.25)])).toMatchObject([
      { stroke: 2, offMm: 0.25 },
    ]);
  });

  test('has company all the way', () => {
    const beside = line(10, 0.3, 30, 0.3);
    expect(which([line(0, 0, 20, 0), line(20, 0, 40, 0), beside])).toEqual([2]);
    // A gap of 3 mm leaves 1 mm out of it 1.5 mm from either end; so does an end that is 1 mm longer.
    expect(which([line(0, 0, 18.5, 0), line(21.5, 0, 40, 0), beside])).toEqual([]);
    expect(which([line(0, 0, 29, 0), beside])).toEqual([]);
    expect(which([line(11, 0, 40, 0), beside])).toEqual([]);
  });

  test('runs the same way or back, to 30 degrees', () => {
    const off = (degrees: number) => copies([level, aslant(degrees)], [], 1);
    expect(off(29)).toMatchObject([
      { stroke: 1, offMm: expect.closeTo(1.1 * Math.sin((29 * Math.PI) / 180), 9) },
    ]);
    expect(off(151)).toHaveLength(1);
    expect(off(31)).toEqual([]);
    expect(off(149)).toEqual([]);
  });

  test('is one whichever way the two lie', () => {
    for (const deg of [20, 45, 90, 135, 200, 300]) {
      const laid = (...strokes: Polyline[]) => strokes.map((stroke) => turned(stroke, deg));
      expect(copies(laid(level, line(10, 0.375, 60, 0.375)))).toMatchObject([
        { stroke: 1, offMm: expect.closeTo(0.375, 9), lengthMm: expect.closeTo(50, 9) },
      ]);
      expect(which(laid(level, line(10, 0.5001, 60, 0.5001)))).toEqual([]);
      expect(copies(laid(level, aslant(29)), [], 1)).toHaveLength(1);
      expect(copies(laid(level, aslant(31)), [], 1)).toEqual([]);
    }
  });

  test('is 2 mm long and more', () => {
    expect(which([level, line(10, 0.3, 12, 0.3)])).toEqual([1]);
    expect(which([level, line(10, 0.3, 11.99, 0.3)])).toEqual([]);
  });

  test('is not looked for among strokes that are set aside', () => {
    const beside = line(10, 0.3, 60, 0.3);
    expect(which([level, beside], [0])).toEqual([]);
    expect(which([level, beside], [1])).toEqual([]);
    expect(which([level, line(0, 50, 100, 50), beside], [0])).toEqual([]);
    expect(which([level, line(0, 50, 100, 50), beside], [2])).toEqual([]);
    expect(which([level, line(0, 50, 100, 50), beside], [1])).toEqual([2]);
    expect(which([level])).toEqual([]);
  });
});

describe('an exact duplicate', () => {
  const hook = line(0, 0, 10, 0, 20, 5, 20, 30);
  const changed = (i: number, by: number) => {
    const other = hook.slice();
    other[i] += by;
    return other;
  };
  const duplicates = (...strokes: Polyline[]) => duplicatesOf(strokes).map(({ stroke }) => stroke);

  test('has its length and the place halfway along it', () => {
    const lengthMm = 10 + Math.hypot(10, 5) + 25;
    const [{ at, ...copy }] = duplicatesOf([hook, hook]);
    expect(copy).toEqual({ lengthMm, stroke: 1 });
    expect(at.x).toBeCloseTo(20, 9);
    expect(at.y).toBeCloseTo(5 + lengthMm / 2 - 10 - Math.hypot(10, 5), 9);
  });

  test.each([0, 1, 2, 3, 4, 5, 6, 7])('has the same coordinates to 0.001 mm, number %d among them', (i) => {
    for (const sign of [1, -1]) {
      expect(duplicates(hook, changed(i, sign * 0.0009))).toEqual([1]);
      expect(duplicates(hook, changed(i, sign * 0.0011))).toEqual([]);
      expect(duplicates(hook, reversed(changed(i, sign * 0.0009)))).toEqual([1]);
      expect(duplicates(hook, reversed(changed(i, sign * 0.0011)))).toEqual([]);
    }
  });

  // All of it moved by as much as it may be, in either direction, moves its middle and its spread by no more.
  test('may be moved or spread by 0.001 mm as a whole', () => {
    for (const [dx, dy] of [
      [0.00099, 0.00099],
      [-0.00099, 0.00099],
      [0.00099, -0.00099],
    ])
      expect(
        duplicates(
          hook,
          hook.map((value, i) => value + (i % 2 ? dy : dx)),
        ),
      ).toEqual([1]);
    const ring = (radius: number) =>
      Float64Array.from({ length: 82 }, (_, i) => {
        const angle = ((i >> 1) * Math.PI) / 20;
        return radius * (i % 2 ? Math.sin(angle) : Math.cos(angle));
      });
    expect(duplicates(ring(20), ring(20.00099), ring(20.0031))).toEqual([1]);
  });

  test('may be drawn with more points on its straight stretches', () => {
    const finer = line(0, 0, 5, 0.0005, 10, 0, 10, 0, 14, 2, 20, 5, 20, 17, 20, 30);
    expect(duplicates(hook, finer, reversed(finer))).toEqual([1, 2]);
    expect(duplicates(hook, line(0, 0, 5, 0.01, 10, 0, 20, 5, 20, 30))).toEqual([]);
  });

  test('may begin anywhere where it is closed', () => {
    const around = [0, 0, 30, 2, 33, 20, 12, 31, -4, 14];
    const begun = (k: number) => line(...around.slice(2 * k), ...around.slice(0, 2 * k + 2));
    expect(duplicates(...[0, 1, 2, 3, 4].map(begun), reversed(begun(2)))).toEqual([1, 2, 3, 4, 5]);
    // Begun on the way from the second corner to the third.
    const halfway = line(31.5, 11, 33, 20, 12, 31, -4, 14, 0, 0, 30, 2, 31.5, 11);
    expect(duplicates(begun(0), halfway)).toEqual([1]);
    const other = begun(0).map((value, i) => (i === 4 ? value + 0.01 : value));
    expect(duplicates(begun(1), other)).toEqual([]);
  });

  test('repeats the first of its kind, not another duplicate', () => {
    const far = line(0, 100, 10, 100, 20, 105, 20, 130);
    expect(duplicates(hook, far, reversed(hook), hook, reversed(far))).toEqual([2, 3, 4]);
    expect(duplicates(hook, changed(0, 0.0008), changed(0, 0.0016))).toEqual([1]);
  });

  test('goes the whole way', () => {
    expect(duplicates(line(0, 0, 20, 0), line(0, 0, 10, 0))).toEqual([]);
    expect(duplicates(line(0, 0, 20, 0), line(0, 0, 20, 0, 0, 0))).toEqual([]);
  });
});

test('where no more are wanted there are the shortest, and there may be more', () => {
  const beside = [line(10, 0.4, 60, 0.4), line(10, -0.4, 40, -0.4), line(70, 0.3, 75, 0.3)];
  const found = (most: number) => {
    const { places, more } = copiesOf([level, ...beside], new Set(), { nearMm: 0.1, withinMm: 0.5, most });
    return [places.map(({ stroke }) => stroke), more];
  };
  expect(found(Infinity)).toEqual([[1, 2, 3], false]);
  expect(found(2)).toEqual([[2, 3], true]);
  expect(found(1)).toEqual([[3], true]);
});
