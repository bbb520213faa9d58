import { describe, expect, test } from 'vitest';
import type { Point, Polyline } from '../../shared/plane.js';
import { distance } from '../../src/geometry/point.js';
import {
  chained,
  isClosed,
  moved,
  placeAlong,
  reversed,
  runningLengths,
  scaled,
} from '../../src/geometry/polyline.js';
import { cuspsOf } from '../../src/measure/stitching/turns.js';
import { walkedLines } from '../../src/measure/stitching/walked-line.js';
import { curve, line, loops, randomFrom } from './lines.js';
import { arc, circle, densified, mirrored, turned } from './shapes.js';

function cusps(...lines: Polyline[]) {
  return cuspsOf(walkedLines(lines, 25.4 / 11), 20);
}

/** In to (0, 0) and out again with this angle between the legs. */
function tip(deg: number): Polyline {
  return chained([line(-30, 0, 0, 0), turned(line(0, 0, -30, 0), deg)]);
}

describe('points at which the line doubles back', () => {
  test('are those with less than 20 degrees between the legs, in their place', () => {
    for (const deg of [0, 0.5, 5, 12, 19]) {
      const [at, ...others] = cusps(tip(deg));
      expect(others).toEqual([]);
      expect(distance(at, { x: 0, y: 0 })).toBeLessThan(0.02);
    }
    for (const deg of [21, 30, 60, 90, 170]) expect(cusps(tip(deg))).toEqual([]);
  });

  test('are found between curved legs that leave along one tangent', () => {
    for (const radius of [1, 2, 5, 20]) {
      const drawn = chained([arc(0, radius, radius, 180, 270), arc(0, -radius, radius, 90, 180)]);
      const [at, ...others] = cusps(drawn);
      expect(others).toEqual([]);
      expect(distance(at, { x: 0, y: 0 })).toBeLessThan(0.05);
    }
  });

  test('are found one by one in a row of spikes, and on a closed line at its beginning', () => {
    const spikes = line(0, 0, 1, 20, 2, 0, 3, 20, 4, 0);
    expect(cusps(spikes).map(({ x, y }) => [x, y])).toEqual([
      [1, 20],
      [2, 0],
      [3, 20],
    ]);
    expect(cusps(line(0, 0, -30, 2, -30, -2, 0, 0))).toEqual([{ x: 0, y: 0 }]);
  });

  test('may be rounded by a tenth of a millimetre, but not by half', () => {
    const rounded = (radius: number) =>
      chained([line(-30, -radius, 0, -radius), arc(0, 0, radius, -90, 90), line(0, radius, -30, radius)]);
    expect(cusps(rounded(0.05))).toHaveLength(1);
    for (const radius of [0.5, 1, 3]) expect(cusps(rounded(radius))).toEqual([]);
  });

  test('are not made by tiny steps, repeated points or an unsteady hand', () => {
    expect(cusps(line(0, 0, 10, 0, 9.99, 0.001, 10.01, 0, 20, 0))).toEqual([]);
    expect(cusps(line(0, 0, 10, 0, 10, 0, 10, 0, 10, 10))).toEqual([]);
    const random = randomFrom(11);
    expect(cusps(curve(4000, (t) => [100 * t, 0.02 * random() + 10 * Math.sin(9 * t)]))).toEqual([]);
    expect(cusps(line(0, 0, 20, 0, 20, 0, 19.99, 0.002, 0, 0.2))).toHaveLength(1);
  });

  test('are none in a curl too small to see', () => {
    for (const radius of [0.06, 0.08, 0.1])
      expect(
        cusps(
          chained([
            line(-20, -radius, 0, -radius),
            arc(0, 0, radius, -90, 270),
            line(0, -radius, 20, -radius),
          ]),
        ),
      ).toEqual([]);
  });

  test('are none in loops and circles', () => {
    expect(cusps(loops(10, 14, 10))).toEqual([]);
    for (const radius of [0.5, 1, 10]) expect(cusps(circle(0, 0, radius))).toEqual([]);
  });
});

test('mirroring, turning, reversing, moving, more points and the size change neither number nor places', () => {
  const drawn = chained([tip(5), moved(tip(40), -60, 40), moved(tip(15), -120, 10)]);
  const found = cusps(drawn).length;
  expect(found).toBeGreaterThan(1);
  for (const other of [
    mirrored(drawn),
    turned(drawn, 37),
    reversed(drawn),
    moved(drawn, 500, -300),
    densified(drawn, 0.05),
    densified(drawn, 0.01),
    scaled(drawn, 2),
  ])
    expect(cusps(other)).toHaveLength(found);
});

/** Reversals by the definition, at every point: three pairs of legs, of which one is enough; the sharpest of those close by. */
function cuspsBy(drawn: Polyline, legsDeg: number): Point[] {
  const run = runningLengths(drawn);
  const whole = run[run.length - 1];
  const isRing = isClosed(drawn);
  const at = (mm: number) => placeAlong(drawn, run, isRing ? (mm + whole) % whole : mm);
  const sharpness = (mm: number) => {
    const gaps = [0.25, 0.5, 1].map((leg) => {
      if (!isRing && (mm < leg || mm > whole - leg)) return Infinity;
      const [from, tip, to] = [at(mm - leg), at(mm), at(mm + leg)];
      const [a, b, apart] = [distance(from, tip), distance(tip, to), distance(from, to)];
      // By the law of cosines.
      const deg = (Math.acos((a * a + b * b - apart * apart) / (2 * a * b)) * 180) / Math.PI;
      return Math.min(a, b) >= 0.7 * leg && deg <= legsDeg ? apart / leg : Infinity;
    });
    return Math.min(...gaps);
  };
  const found: { at: Point; mm: number; sharp: number; lastMm: number }[] = [];
  for (const mm of isRing ? run.slice(0, -1) : run) {
    const sharp = sharpness(mm);
    if (sharp === Infinity) continue;
    const last = found[found.length - 1];
    if (last && mm - last.lastMm <= 0.25) {
      last.lastMm = mm;
      if (sharp < last.sharp) Object.assign(last, { at: at(mm), sharp });
    } else found.push({ at: at(mm), mm, sharp, lastMm: mm });
  }
  return found.map((each) => each.at);
}

test('random lines that turn back now and then do so where holding legs against each other at every point finds it', () => {
  const random = randomFrom(180);
  let found = 0;
  for (let round = 0; round < 60; round++) {
    let angle = 0;
    let [x, y] = [0, 0];
    const flat = [0, 0];
    for (let k = 0; k < 30; k++) {
      // Sharp turns, some with a short step between two of them.
      const kind = random();
      angle +=
        kind < 0.4 ? Math.PI + 0.6 * (random() - 0.5) : kind < 0.6 ? 1.5 + 0.3 * random() : random() - 0.5;
      const mm = random() < 0.3 ? 0.05 + 0.4 * random() : 0.3 + 3 * random();
      [x, y] = [x + mm * Math.cos(angle), y + mm * Math.sin(angle)];
      flat.push(x, y);
    }
    const drawn = Float64Array.from(round % 2 ? flat : [...flat, 0, 0]);
    const legsDeg = [12, 20, 35][round % 3];
    const told = cuspsOf(walkedLines([drawn], 25.4 / 11), legsDeg);
    const expected = cuspsBy(drawn, legsDeg);
    expect(told).toHaveLength(expected.length);
    told.forEach((place, k) => {
      expect(distance(place, expected[k])).toBeLessThan(1e-6);
    });
    found += told.length;
  }
  expect(found).toBeGreaterThan(150);
});
