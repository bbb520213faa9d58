/** Corners, and how a line bends at a place, where both can be worked out by hand. Stitches of 2.4 mm. */
import { describe, expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { chained } from '../../src/geometry/polyline.js';
import { bendMm, turnsOneWay, WayOfTurn } from '../../src/measure/stitching/bends.js';
import { cornersOf } from '../../src/measure/stitching/corners.js';
import { walkedLines } from '../../src/measure/stitching/walked-line.js';
import { curve, line } from './lines.js';
import { arc, densified } from './shapes.js';

const stitchMm = 2.4;
const rad = (deg: number) => (deg * Math.PI) / 180;
const walked = (drawn: Polyline) => walkedLines([drawn], stitchMm)[0];

function corners(drawn: Polyline): [number, number][] {
  const { points } = walked(drawn);
  return cornersOf(walked(drawn), stitchMm).map((p) => [points[2 * p], points[2 * p + 1]]);
}

/** Steps of these lengths, each turned from the one before by so many degrees. */
function steps(...each: (readonly [mm: number, turn: number])[]): Polyline {
  const xy = [0, 0];
  let angle = 0;
  for (const [mm, turn] of each) {
    angle += rad(turn);
    xy.push(xy[xy.length - 2] + mm * Math.cos(angle), xy[xy.length - 1] + mm * Math.sin(angle));
  }
  return Float64Array.from(xy);
}

describe('a corner', () => {
  test('is a turn of 15 degrees and more, either way', () => {
    for (const turn of [15.5, 40, 90, 150, -15.5, -90])
      expect(corners(steps([20, 0], [20, turn]))).toEqual([[20, 0]]);
    for (const turn of [0, 5, 14.5, -14.5]) expect(corners(steps([20, 0], [20, turn]))).toEqual([]);
  });

  // 0.98 of 2.4 mm is 2.352 mm.
  test('has legs of a stitch, but for a fiftieth of it', () => {
    const step = (mm: number) => corners(steps([20, 0], [mm, 60], [20, -60]));
    expect(step(2.36)).toHaveLength(2);
    expect(step(2.34)).toEqual([]);
    // Only the one in the middle has short legs.
    expect(corners(steps([20, 0], [10, 60], [2.3, 60], [20, 60]))).toEqual([[20, 0]]);
    expect(corners(steps([20, 0], [2.3, 60], [10, 60], [20, 60]))).toHaveLength(1);
  });

  test('stays one where the line is drawn in tiny steps, and has its place there', () => {
    const drawn = steps([20, 0], [10, 60], [20, -90]);
    const plain = corners(drawn);
    expect(plain).toHaveLength(2);
    for (const mm of [0.5, 0.07, 0.01]) {
      const found = corners(densified(drawn, mm));
      expect(found).toHaveLength(2);
      found.forEach(([x, y], i) => {
        expect(Math.hypot(x - plain[i][0], y - plain[i][1])).toBeLessThan(0.0101);
      });
    }
  });

  // An eighth of a stitch is 0.3 mm, thrice that 0.9 mm. A quarter of a circle of radius 0.05 mm is 0.08 mm long.
  test('may be rounded by less than an eighth of a stitch', () => {
    const rounded = (radius: number) =>
      chained([line(-20, -radius, 0, -radius), arc(0, 0, radius, -90, 0), line(radius, 0, radius, 20)]);
    expect(corners(rounded(0.05))).toHaveLength(1);
    for (const radius of [0.6, 1.2, 5]) expect(corners(rounded(radius))).toEqual([]);
  });

  test('of two turns less than an eighth of a stitch apart is one, at the sharper of them', () => {
    expect(corners(steps([20, 0], [0.1, 30], [20, 60]))).toEqual([
      [expect.closeTo(20 + 0.1 * Math.cos(rad(30)), 9), expect.closeTo(0.05, 9)],
    ]);
    expect(corners(steps([20, 0], [0.1, 60], [20, 30]))).toEqual([[20, 0]]);
    // 0.5 mm apart each is less than seven tenths of what the line turns about there.
    expect(corners(steps([20, 0], [0.5, 45], [20, 45]))).toEqual([]);
  });

  test('is none on a curve, however few its points', () => {
    expect(corners(steps(...Array.from({ length: 12 }, (_, i) => [1, i === 0 ? 0 : 30] as const)))).toEqual(
      [],
    );
    expect(corners(curve(200, (t) => [100 * t, 8 * Math.sin(20 * t)]))).toEqual([]);
  });
});

describe('a bend', () => {
  /** A quarter of a circle and straight legs of 20 mm, turning right (y runs down); the middle of the bend is at: */
  const bend = (radius: number) =>
    chained([line(-20, -radius, 0, -radius), arc(0, 0, radius, -90, 90), line(0, radius, -20, radius)]);
  const middleMm = (radius: number) => 20 + (Math.PI * radius) / 2;

  // The line turns by mm / radius on either side: a quarter of a circle in all at radius pi / 4. Looked for in steps of a
  // 64th of a stitch, at most half a stitch.
  test.each([0.2, 0.5, 1, 1.5])(
    'of radius %d mm is measured over the quarter of a circle about its middle',
    (radius) => {
      const found = bendMm(walked(bend(radius)), middleMm(radius), stitchMm);
      const expected = Math.min(stitchMm / 2, (Math.PI / 4) * radius);
      expect(found).toBeGreaterThan(expected - 0.02);
      expect(found).toBeLessThan(expected + 0.02 + stitchMm / 64);
    },
  );
  test('of a straight line, and of a wide one, is half a stitch', () => {
    expect(bendMm(walked(line(0, 0, 40, 0)), 20, stitchMm)).toBe(stitchMm / 2);
    expect(bendMm(walked(bend(4)), middleMm(4), stitchMm)).toBe(stitchMm / 2);
  });
  // 60 degrees right at a point, 30 and 30 left half a millimetre before and after it: beyond, nothing is left.
  test('ends where the line turns back', () => {
    const drawn = walked(steps([20, 0], [0.5, -30], [0.5, 60], [20, -30]));
    expect(bendMm(drawn, 20.5, stitchMm)).toBeCloseTo(stitchMm / 64, 9);
    // Where it turns back by less than half of it, the bend goes on.
    expect(bendMm(walked(steps([20, 0], [0.5, -12], [0.5, 60], [20, -12])), 20.5, stitchMm)).toBe(
      stitchMm / 2,
    );
  });

  test('goes one way where four fifths of the turning do', () => {
    const turns = (back: number) => {
      const drawn = walked(steps([10, 0], [10, 90], [10, -back], [10, 0]));
      return turnsOneWay(drawn, 0, 40);
    };
    // (90 - 9) / 99 = 0.82; (90 - 11) / 101 = 0.78.
    expect(turns(9)).toBe(true);
    expect(turns(11)).toBe(false);
    // Only what lies between the two places counts.
    const drawn = walked(steps([10, 0], [10, 90], [10, -90], [10, 90]));
    expect(turnsOneWay(drawn, 5, 15)).toBe(true);
    expect(turnsOneWay(drawn, 5, 25)).toBe(false);
    expect(turnsOneWay(drawn, 15, 25)).toBe(true);
    expect(turnsOneWay(drawn, 15, 35)).toBe(false);
  });

  test('turns left or right', () => {
    const way = (turn: number, at: number) => new WayOfTurn(walked(steps([10, 0], [10, turn])), 1).at(at);
    expect(way(40, 10)).toBe(1);
    expect(way(-40, 10)).toBe(-1);
    expect(way(40, 9.5)).toBe(1);
    expect(way(40, 5)).toBe(0);
  });
});
