/** A stroke made ready to be walked: what is left out of it, how it goes on where it is closed, and places read off it. */
import { describe, expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { chained, placeAlong, runningLengths } from '../../src/geometry/polyline.js';
import { cornersOf } from '../../src/measure/stitching/corners.js';
import { tightCurvesOf } from '../../src/measure/stitching/tight-curves.js';
import { cuspsOf } from '../../src/measure/stitching/turns.js';
import { PlaceFinder, type WalkedLine, walkedLines } from '../../src/measure/stitching/walked-line.js';
import { curve, line, randomFrom } from './lines.js';
import { arc } from './shapes.js';

const stitchMm = 25.4 / 11;

/** The closed line begun at another of its points. */
function begunAt(closed: Polyline, point: number): Polyline {
  const own = closed.slice(0, -2);
  const at = (2 * point) % own.length;
  return Float64Array.of(...own.subarray(at), ...own.subarray(0, at), own[at], own[at + 1]);
}

/** Round about a middle, in straight steps of a tenth of a millimetre up to many stitches. */
function closedLine(random: () => number): Polyline {
  const count = 5 + Math.floor(40 * random());
  const size = 4 + 20 * random();
  const flat = Array.from({ length: count }, (_, k) => {
    const [angle, radius] = [(2 * Math.PI * (k + 0.9 * random())) / count, size * (0.4 + 0.6 * random())];
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  }).flat();
  return Float64Array.of(...flat, flat[0], flat[1]);
}

const rounded = (x: number, y: number) => `${x.toFixed(3)} ${y.toFixed(3)}`;

test('of a closed line all corners, reversals and tight curves are the same, wherever it begins', () => {
  const random = randomFrom(20);
  let [corners, cusps, tight] = [0, 0, 0];
  for (let round = 0; round < 40; round++) {
    const drawn = closedLine(random);
    const worst: number[] = [];
    const facts = [0, 1, 2, 3].map((k) => {
      const [walked] = walkedLines([begunAt(drawn, k * Math.ceil(drawn.length / 7))], stitchMm);
      const { runMm, points, lengthMm } = walked;
      worst[k] = tightCurvesOf([walked], stitchMm, 0.4).places[0]?.cutMm ?? 0;
      return {
        corners: cornersOf(walked, stitchMm)
          .filter((p) => runMm[p] > -1e-9 && runMm[p] < lengthMm - 1e-9)
          .map((p) => rounded(points[2 * p], points[2 * p + 1]))
          .sort(),
        cusps: cuspsOf([walked], 40)
          .map(({ x, y }) => rounded(x, y))
          .sort(),
      };
    });
    for (const other of facts.slice(1)) expect(other).toEqual(facts[0]);
    // A stitch that comes to a point at exactly its length ends there or goes round it, as rounding has it.
    for (const cutMm of worst) expect(Math.abs(cutMm - worst[0])).toBeLessThan(0.1);
    corners += facts[0].corners.length;
    cusps += facts[0].cusps.length;
    if (worst[0] > 0) tight++;
  }
  expect(Math.min(corners, cusps, tight)).toBeGreaterThan(20);
});

// A rectangle of 20 by 20 mm with its corners rounded to 1 mm: begun at any of its points it has four tight curves.
test('a tight curve over the place where a line is closed is one', () => {
  const corner = (x: number, y: number, deg: number) => arc(x, y, 1, deg, deg + 90);
  const parts = [corner(9, 9, 0), corner(-9, 9, 90), corner(-9, -9, 180), corner(9, -9, 270)];
  const open = chained(parts);
  const drawn = Float64Array.of(...open, open[0], open[1]);
  for (let k = 0; k < open.length / 2; k++) {
    const { places } = tightCurvesOf(walkedLines([begunAt(drawn, k)], stitchMm), stitchMm, 0.4);
    expect(places).toHaveLength(4);
    for (const { radiusMm } of places) expect(Math.abs(radiusMm - 1)).toBeLessThan(0.05);
  }
});

describe('a line walked', () => {
  test('has no steps shorter than the least, and comes within as much of every point', () => {
    const random = randomFrom(31);
    for (let round = 0; round < 60; round++) {
      let [x, y] = [0, 0];
      const drawn = Float64Array.from(
        Array.from({ length: 40 }, () => {
          [x, y] = [x + 0.08 * (random() - 0.4), y + 0.08 * (random() - 0.5)];
          return [x, y];
        }).flat(),
      );
      const [{ points, runMm, closed, lengthMm }] = walkedLines([drawn], stitchMm, 0.05);
      expect(closed).toBe(false);
      expect([...points.slice(0, 2), ...points.slice(-2)]).toEqual([
        ...drawn.slice(0, 2),
        ...drawn.slice(-2),
      ]);
      // The last step may be any, since the last point stays.
      for (let i = 2; i < points.length - 2; i += 2)
        expect(Math.hypot(points[i] - points[i - 2], points[i + 1] - points[i - 1])).toBeGreaterThanOrEqual(
          0.05,
        );
      for (let i = 0; i < drawn.length; i += 2) {
        const off = (p: number) => Math.hypot(drawn[i] - points[p], drawn[i + 1] - points[p + 1]);
        const nearest = Math.min(...Array.from({ length: points.length / 2 }, (_, p) => off(2 * p)));
        expect(nearest).toBeLessThan(i < drawn.length - 2 ? 0.1 : 1e-9);
      }
      expect(runMm).toEqual(runningLengths(points));
      expect(lengthMm).toBe(runMm[runMm.length - 1]);
    }
    // What is no longer than a tiny step is a point; else the last point stays instead of the one before it.
    expect(walkedLines([line(0, 0, 0.01, 0)], stitchMm)[0].points).toEqual(line(0, 0));
    expect(walkedLines([line(0, 0, 5, 0, 5.01, 0)], stitchMm)[0].points).toEqual(line(0, 0, 5.01, 0));
  });

  // 13.85 mm are six stitches: a square of 10 mm goes on by two sides either way, one of 3 mm once round.
  test('goes on over both ends where it is closed, by six stitches and no more than once round', () => {
    const square = (mm: number) => walkedLines([line(0, 0, mm, 0, mm, mm, 0, mm, 0, 0)], stitchMm)[0];
    const ends = ({ runMm }: WalkedLine) => [runMm[0], runMm[runMm.length - 1]];
    expect(square(10)).toMatchObject({ closed: true, lengthMm: 40 });
    expect([...square(10).points]).toEqual([10, 10, 0, 10, 0, 0, 10, 0, 10, 10, 0, 10, 0, 0, 10, 0, 10, 10]);
    expect([...square(10).runMm]).toEqual([-20, -10, 0, 10, 20, 30, 40, 50, 60]);
    expect(square(3)).toMatchObject({ closed: true, lengthMm: 12 });
    expect(ends(square(3))).toEqual([-12, 24]);
    expect(ends(square(1))).toEqual([-4, 8]);
    // By 2 mm at least, however short the stitch.
    const [fine] = walkedLines([line(0, 0, 3, 0, 3, 3, 0, 3, 0, 0)], 0.2);
    expect(ends(fine)).toEqual([-3, 15]);
    const [round] = walkedLines(
      [
        begunAt(
          curve(400, (t) => [10 * Math.cos(2 * Math.PI * t), 10 * Math.sin(2 * Math.PI * t)]),
          0,
        ),
      ],
      0.2,
    );
    const [from, to] = ends(round);
    for (const overMm of [-from, to - round.lengthMm]) {
      expect(overMm).toBeGreaterThanOrEqual(2);
      expect(overMm).toBeLessThan(2.2);
    }
  });

  test('has turned at each point by all turns up to there, either way', () => {
    const turns = (drawn: Polyline) =>
      [...walkedLines([drawn], stitchMm)[0].turnedRad].map((rad) => Math.round((rad * 180) / Math.PI));
    expect(turns(line(0, 0, 10, 0, 10, 10, 20, 10, 20, 0, 10, 0))).toEqual([0, 90, 180, 270, 360, 360]);
    expect(turns(line(0, 0, 10, 0, 20, 10, 0, -10))).toEqual([0, 45, 225, 225]);
    expect(turns(line(0, 0, 10, 0))).toEqual([0, 0]);
  });
});

test('places are those at their length along the line, asked in any order', () => {
  const random = randomFrom(12);
  for (const points of [2, 3, 40, 400]) {
    const drawn = Float64Array.from({ length: 2 * points }, () => 30 * random());
    const [walked] = walkedLines([drawn], stitchMm);
    const finder = new PlaceFinder(walked);
    const { runMm } = walked;
    const whole = runMm[runMm.length - 1];
    for (let k = 0; k < 200; k++) {
      const mm = k % 5 === 0 ? runMm[Math.floor(points * random())] : whole * (1.2 * random() - 0.1);
      const { x, y } = placeAlong(walked.points, runMm, mm);
      finder.goTo(mm);
      expect(Math.hypot(finder.x - x, finder.y - y)).toBeLessThan(1e-9);
    }
  }
});
