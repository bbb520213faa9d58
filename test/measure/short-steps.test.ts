import { expect, test } from 'vitest';
import { shortStepsOf } from '../../src/measure/stitching/short-steps.js';
import { curve, line } from './lines.js';

test('steps shorter than the limit are counted, repeated points among them, with their places', () => {
  const { count, places } = shortStepsOf(
    [line(0, 0, 10, 0, 10, 0, 20, 0, 20.03, 0, 20.09, 0), line(5, 5, 5, 5.049)],
    0.05,
  );
  expect(count).toBe(2);
  expect(places).toEqual([
    { x: 10, y: 0 },
    { x: 20.03, y: 0 },
  ]);
  expect(shortStepsOf([line(0, 0, 0.1, 0, 0.2, 0)], 0.05)).toEqual({ count: 0, places: [] });
  // Whichever way they lead.
  for (const [dx, dy] of [
    [1, 0],
    [0, 1],
    [0.8, 0.6],
    [0.6, -0.8],
  ]) {
    const countOf = (mm: number) =>
      shortStepsOf([line(0, 0, 5 * dx, 5 * dy, (5 + mm) * dx, (5 + mm) * dy, 9 * dx, 9 * dy)], 0.05).count;
    expect([0.049, 0.051, 1].map(countOf)).toEqual([1, 0, 0]);
  }
});

test('a step that thinning has to leave is no shorter than it needs to be', () => {
  // Straight across it the line would leave either of its ends by half of 0.045 mm, more than 0.02.
  expect(shortStepsOf([line(0, 0, 10, 0, 10, 0.045, 20, 0.045)], 0.05).count).toBe(0);
  expect(shortStepsOf([line(0, 0, 10, 0, 10, 0.035, 20, 0.035)], 0.05).count).toBe(1);
});

test('a hundred thousand short steps are counted, and a thousand of their places told', () => {
  const { count, places } = shortStepsOf([curve(100_000, (t) => [100 * t, 0])], 0.05);
  expect(count).toBe(100_000);
  expect(places).toHaveLength(1000);
});
