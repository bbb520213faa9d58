/** What is wrong with a line as a row: 20 mm for the square of the places where repeats cross, and the way out to the edges. */
import { describe, expect, test } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { moved } from '../../src/geometry/polyline.js';
import { rowTroubleOf, troubleOf } from '../../src/mend/row-trouble.js';
import { line } from './drawings.js';

// One repeat is 80, and the next one begins with a level line from (80, 0) to (140, 0): it crosses an upright that
// hangs 20 over the end, and another that hangs 40 over it.
const once = line(0, 0, 60, 0, 100, 30, 100, -30, 80, 0);
const twice = line(0, 0, 60, 0, 100, 30, 100, -30, 120, -30, 120, 30, 80, 0);
/** A tip comes as near as `mm` to that level line; the whole hangs 21 over the end. */
const near = (mm: number) => line(0, 0, 60, 0, 100, 30, 100, mm, 101, 30, 80, 0);
const clear = line(0, 0, 60, 0, 100, 30, 80, 0);

describe('of a line', () => {
  const trouble = (drawn: Float64Array) => troubleOf(drawn, defaultSetup);

  test('grows with the square of the places, and with how far its ends lie inside', () => {
    expect(trouble(once)).toBeCloseTo(20 + 20, 6);
    expect(trouble(twice)).toBeCloseTo(20 * 2 ** 2 + 40, 6);
    // Wherever it lies, and turned round so that its start lies inside.
    expect(trouble(moved(twice, 500, 70))).toBeCloseTo(120, 6);
    expect(trouble(once.map((v, i) => (i % 2 === 0 ? 100 - v : v)))).toBeCloseTo(40, 6);
  });

  test('of one that only comes near counts as one place', () => {
    expect(trouble(near(0.5))).toBeCloseTo(20 + 21, 6);
    expect(trouble(near(0.75))).toBeCloseTo(20 + 21, 6);
    expect(trouble(near(0.9))).toBe(0);
  });

  test('is none where repeats keep clear, or where there is no row', () => {
    expect(trouble(clear)).toBe(0);
    expect(trouble(line(0, 0, 100, 30, 20, 10))).toBe(0);
  });
});

describe('of a drawing', () => {
  const trouble = (drawn: Float64Array, endX = 80) =>
    rowTroubleOf([drawn], defaultSetup)({ x: drawn[0], y: drawn[1] }, { x: drawn[0] + endX, y: drawn[1] });

  test('is the same for crossings, wherever it lies', () => {
    expect(trouble(once)).toBeCloseTo(40, 6);
    expect(trouble(twice)).toBeCloseTo(120, 6);
    expect(trouble(moved(twice, 500, 70))).toBeCloseTo(120, 6);
  });

  test('is none where repeats only come near, do not overhang, or run to the left', () => {
    expect(trouble(near(0.5))).toBe(0);
    expect(trouble(clear)).toBe(0);
    expect(trouble(once, 100)).toBe(0);
    expect(trouble(once, -80)).toBe(0);
  });
});
