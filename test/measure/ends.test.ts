import { expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { reversed } from '../../src/geometry/polyline.js';
import { endDirection, startDirection } from '../../src/measure/ends/tangent.js';
import { curve, line, studied } from './lines.js';

const degrees = ({ dx, dy }: { dx: number; dy: number }) => (Math.atan2(dy, dx) * 180) / Math.PI;

/** A circle from angle 0 on, by chords that leave it by 0.01 mm. */
function arc(radius: number, turn: number): Polyline {
  const facet = 2 * Math.acos(1 - 0.01 / radius);
  return curve(Math.ceil(turn / facet), (t) => [radius * Math.cos(turn * t), radius * Math.sin(turn * t)]);
}

// The tangent of a circle is square to its radius.
test.each([2, 5, 20, 100])('the direction at the end of an arc of radius %d mm is its tangent', (radius) => {
  const quarter = arc(radius, Math.PI / 2);
  expect(Math.abs(degrees(startDirection(quarter)) - 90)).toBeLessThan(1);
  expect(Math.abs(degrees(endDirection(quarter)) - 180)).toBeLessThan(1);
});

test('a hook of a few thousandths and repeated points do not turn the direction', () => {
  const hooked = line(0, 0, 0, 0, 0, 0.003, 10, 0, 20, 0, 20, -0.004, 20, -0.004);
  expect(Math.abs(degrees(startDirection(hooked)))).toBeLessThan(0.1);
  expect(Math.abs(degrees(endDirection(hooked)))).toBeLessThan(0.1);
});

test('a corner near the end is not rounded into the direction', () => {
  const cornered = line(0, 0, 1, 0, 1, 5, 30, 5, 30, 6);
  expect(startDirection(cornered)).toEqual({ dx: 1, dy: 0 });
  expect(degrees(endDirection(cornered))).toBe(90);
});

test('a straight stretch after a curve keeps its own direction', () => {
  const led = line(...arc(5, Math.PI / 2), -4, 5);
  expect(Math.abs(degrees(endDirection(led)))).toBe(180);
  expect(degrees(startDirection(reversed(led)))).toBe(0);
});

test('ends know their distances from the edges', () => {
  const { start, end, widthMm, heightMm } = studied([line(10, 30, 0, 0, 100, 50, 90, 20)]);
  expect(start).toMatchObject({ at: { x: 10, y: 30 }, leftMm: 10, rightMm: 90, topMm: 30, bottomMm: 20 });
  expect(end).toMatchObject({ at: { x: 90, y: 20 }, leftMm: 90, rightMm: 10, topMm: 20, bottomMm: 30 });
  expect([widthMm, heightMm]).toEqual([100, 50]);
});

test('the repeat leads from start to end, left to right', () => {
  const rising = line(0, 10, 40, 30, 100, 4);
  expect(studied([rising])).toMatchObject({ repeat: { dx: 100, dy: -6, assumed: false }, runsLeft: false });
  expect(studied([reversed(rising)])).toMatchObject({
    repeat: { dx: 100, dy: -6, assumed: false },
    runsLeft: true,
    start: { at: { x: 100, y: 0 } },
  });
});

test('where the line does not lead more than half across, the repeat is assumed to be the width', () => {
  const down = studied([line(0, 0, 100, 40, 50, 90)]);
  expect(down.repeat).toEqual({ dx: 100, dy: 0, assumed: true });
  expect(down.joinTurnDeg).toBeNull();
  expect(down.runsLeft).toBe(false);
  expect(studied([line(0, 0, 100, 40, 51, 90)]).repeat).toEqual({ dx: 51, dy: 90, assumed: false });
});

test('the join turns by the angle between end and start', () => {
  expect(studied([line(0, 50, 50, 0, 100, 50)]).joinTurnDeg).toBeCloseTo(90, 9);
  expect(studied([reversed(line(0, 50, 50, 0, 100, 50))]).joinTurnDeg).toBeCloseTo(90, 9);
  const wave = curve(200, (t) => [100 * t, 20 * Math.sin(2 * Math.PI * t)]);
  expect(studied([wave]).joinTurnDeg).toBeLessThan(0.5);
  // Half circles standing on a level line meet in a cusp: 180 degrees.
  const scallop = arc(25, Math.PI);
  expect(studied([reversed(scallop)]).joinTurnDeg).toBeGreaterThan(179);
});
