/** The direction of the line at a segment: its own, or that of half a millimetre of the line about it. */
import { expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { directionFinder } from '../../src/measure/company/stroke-direction.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { curve, line } from './lines.js';

/** Degrees from the second stroke's first segment to each segment of the first stroke. */
function degrees(drawn: Polyline, other = line(0, 900, 50, 900)): number[] {
  const index = new SegmentIndex([drawn, other]);
  const { sine, cosine } = directionFinder(index);
  const from = index.firstPoints[1];
  const degrees = (k: number) => (Math.atan2(sine(from, k), cosine(from, k)) * 180) / Math.PI;
  return Array.from({ length: drawn.length / 2 - 1 }, (_, k) => degrees(k));
}

test('segments of half a millimetre and more have their own', () => {
  expect(degrees(line(0, 0, 3, 0, 3.4, 0.3, 8, 0.3, 8, -9, 2, -9))).toEqual([
    0,
    expect.closeTo((Math.atan2(0.3, 0.4) * 180) / Math.PI, 9),
    0,
    -90,
    180,
  ]);
});

// From the upright step the stretch goes back and on in turn: 0.25 mm to the left, then 0.25 to the right of it.
test('a shorter one has that of a chord over its neighbours', () => {
  const [, , , upright] = degrees(
    line(0, 0, 1, 0, 1.2, 0, 1.45, 0, 1.45, 0.05, 1.7, 0.05, 1.9, 0.05, 4, 0.05),
  );
  expect(upright).toBeCloseTo((Math.atan2(0.05, 0.5) * 180) / Math.PI, 9);
});

test('where the line turns back it keeps to its side of the point', () => {
  expect(degrees(line(0, 0, 5, 0, 5.1, 0, 5, 0, 4.9, 0, 0, 0))).toEqual([0, 0, 180, 180, 180]);
});

test('at an end of the line it reaches the other way', () => {
  // 0.05 mm up and 0.45 on, then the line goes down: the chord ends there.
  expect(degrees(line(0, 0, 0, 0.05, 0.45, 0.05, 0.45, 9))[0]).toBeCloseTo(
    (Math.atan2(0.05, 0.45) * 180) / Math.PI,
    9,
  );
  expect(degrees(line(5, 0, 0.45, 0, 0, 0, 0, 0.05)).at(-1)).toBeCloseTo(
    180 - (Math.atan2(0.05, 0.45) * 180) / Math.PI,
    9,
  );
});

test('a circle drawn in steps of a hundredth of a millimetre has that of its tangent', () => {
  const radius = 5;
  const steps = 3000;
  const arc = curve(steps, (t) => [radius * Math.cos(2 * Math.PI * t), radius * Math.sin(2 * Math.PI * t)]);
  degrees(arc).forEach((found, k) => {
    const tangent = Math.cos((2 * Math.PI * (k + 0.5)) / steps);
    // At the ends the chord is half a millimetre on one side alone: 2.9 degrees off.
    const off = k < 60 || k > steps - 60 ? 3 : 0.1;
    expect(Math.abs(Math.sin((found * Math.PI) / 180) - tangent)).toBeLessThan((off * Math.PI) / 180);
  });
});

test('a line without length has none', () => {
  expect(degrees(line(5, 5, 5, 5))).toEqual([Number.NaN]);
});
