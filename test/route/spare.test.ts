/** What can be left out of a line that can be seen to go back, or to have to. */
import { expect, test } from 'vitest';
import { networkOf } from '../../src/network/network.js';
import { leastSpareMm, spareOf } from '../../src/route/spare.js';

const spareIn = (...xy: number[]) => {
  const line = Float64Array.from(xy);
  return spareOf(line, networkOf([line], 1000));
};

test('a stretch gone back over is spare, as far as it is gone back over', () => {
  expect(spareIn(0, 0, 60, 0, 40, 0, 100, 0)).toEqual({
    line: Float64Array.of(0, 0, 40, 0, 60, 0, 100, 0),
    spareMm: 40,
    movedMm: 0,
  });
  // Drawn 0.06 mm aside on its way back, so that its end has to come down to the line by that.
  const aside = spareIn(0, 0, 60, 0, 40, 0.06, 100, 0)!;
  expect(aside.spareMm).toBeCloseTo(40, 1);
  expect(aside.movedMm).toBeLessThanOrEqual(0.06);
});

test('start and end stay, wherever they lie', () => {
  // Three times over the last 20 mm of its foot, and back over itself to the left at the top.
  const { line, spareMm } = spareIn(0, 0, 60, 0, 40, 0, 60, 0, 60, 30, 20, 30)!;
  expect(spareMm).toBe(40);
  expect([...line.subarray(0, 2), ...line.subarray(-2)]).toEqual([0, 0, 20, 30]);
});

test('what a line cannot do without is not', () => {
  expect(spareIn(0, 0, 50, 20, 100, 0)).toBeNull();
  // A branch that has to be come back from, though it could be by another way than it was drawn.
  expect(spareIn(0, 0, 50, 0, 50, 20, 50, 0, 100, 0)).toBeNull();
});

test('a millimetre is the least', () => {
  expect(leastSpareMm).toBe(1);
  expect(spareIn(0, 0, 60, 0, 59.5, 0, 100, 0)).toMatchObject({ spareMm: 1 });
  expect(spareIn(0, 0, 60, 0, 59.51, 0, 100, 0)).toBeNull();
});

test('a speck has none', () => {
  expect(spareIn(0, 0, 0.05, 0)).toBeNull();
});
