import { describe, expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { distance } from '../../src/geometry/point.js';
import {
  chained,
  moved,
  placeAlong,
  reversed,
  runningLengths,
  scaled,
  stretchOf,
} from '../../src/geometry/polyline.js';
import { retracesOf } from '../../src/measure/company/retraces.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { curve, line, loops, randomFrom } from './lines.js';
import { lengthWithin } from './nearness.js';
import { arc, circle, densified, mirrored, turned } from './shapes.js';

function retraces(...lines: Polyline[]) {
  return retracesOf(new SegmentIndex(lines));
}

const swell = curve(400, (t) => [240 * t, 30 * Math.sin(4 * Math.PI * t) + 4 * Math.sin(22 * Math.PI * t)]);

/** The stretch drawn anew, with its points elsewhere and true to 0.005 mm and less. */
function redrawn(whole: Polyline, fromMm: number, toMm: number): Polyline {
  const run = runningLengths(whole);
  const steps = Math.ceil((toMm - fromMm) / 0.13);
  return curve(steps, (t) => {
    const { x, y } = placeAlong(whole, run, fromMm + t * (toMm - fromMm));
    return [x, y];
  });
}

describe('a stretch of 20 mm planted at random places, drawn with other points', () => {
  const random = randomFrom(7);
  const whole = runningLengths(swell);
  const lengthMm = whole[whole.length - 1];
  const places = Array.from({ length: 25 }, () => 5 + random() * (lengthMm - 40));

  test('three times over is 40 mm beyond the first pass', () => {
    for (const fromMm of places) {
      const again = redrawn(swell, fromMm, fromMm + 20);
      const planted = chained([
        stretchOf(swell, whole, 0, fromMm + 20),
        reversed(again),
        again,
        stretchOf(swell, whole, fromMm + 20, lengthMm),
      ]);
      const { stretches, totalMm } = retraces(planted);
      expect(stretches).toHaveLength(1);
      expect(Math.abs(totalMm - 40)).toBeLessThan(0.02 * 40);
      const [{ from, to, fromMm: begins, toMm: ends }] = stretches;
      const turn = placeAlong(swell, whole, fromMm + 20);
      expect(distance(from, turn)).toBeLessThan(1);
      expect(distance(to, turn)).toBeLessThan(1);
      expect(Math.abs(begins - (fromMm + 20))).toBeLessThan(0.4);
      expect(Math.abs(ends - (fromMm + 60))).toBeLessThan(0.4);
    }
  });

  test('out and back as a twig is 20 mm, as long as jsts finds it near the way out', () => {
    const across = line(100, 40, 100, 200);
    for (const [k, fromMm] of places.entries()) {
      const twig = redrawn(swell, fromMm, fromMm + 20);
      const planted = chained([moved(across, k, 0), moved(twig, 0, 300), moved(reversed(twig), 0, 300)]);
      const { totalMm } = retraces(planted);
      expect(Math.abs(totalMm - 20)).toBeLessThan(0.02 * 20);
      const outside = lengthWithin(moved(reversed(twig), 0, 300), moved(twig, 0, 300), 0.1);
      expect(Math.abs(totalMm - outside)).toBeLessThan(0.02 * 20);
    }
  });
});

test('a loop walked n times counts n - 1 times, in the same direction too', () => {
  const turn = 2 * Math.PI * 15;
  expect(Math.abs(retraces(arc(0, 0, 15, 0, 720)).totalMm - turn)).toBeLessThan(0.02 * turn);
  expect(Math.abs(retraces(arc(0, 0, 15, 0, 1080)).totalMm - 2 * turn)).toBeLessThan(0.04 * turn);
  // A different number of chords each time round.
  const uneven = chained([arc(0, 0, 15, 0, 360), curve(100, (t) => circlePoint(15, 360 * t))]);
  expect(Math.abs(retraces(uneven).totalMm - turn)).toBeLessThan(0.02 * turn);
});

function circlePoint(radius: number, deg: number): [number, number] {
  return [radius * Math.cos((deg * Math.PI) / 180), radius * Math.sin((deg * Math.PI) / 180)];
}

// What a walk on a grid goes over again is a matter of counting: every edge walked n times counts n - 1 times, and those
// walked before, one after the other, are one stretch.
test('random walks on a grid: the edges walked again, and where on the walk', () => {
  const random = randomFrom(99);
  for (let round = 0; round < 60; round++) {
    const walked = new Set<string>();
    const again: [number, number][] = [];
    const flat = [0, 0];
    let [x, y] = [0, 0];
    for (let step = 0; step < 60; step++) {
      const way = Math.floor(random() * 4);
      const [nx, ny] = [x + [1, 0, -1, 0][way], y + [0, 1, 0, -1][way]];
      if (nx < 0 || nx > 6 || ny < 0 || ny > 6) continue;
      const edge = [`${x},${y}`, `${nx},${ny}`].sort().join(' ');
      const fromMm = 5 * (flat.length - 2);
      if (!walked.has(edge)) walked.add(edge);
      else if (again.at(-1)?.[1] === fromMm) again[again.length - 1][1] = fromMm + 10;
      else again.push([fromMm, fromMm + 10]);
      [x, y] = [nx, ny];
      flat.push(10 * x, 10 * y);
    }
    const line = Float64Array.from(flat);
    const run = runningLengths(line);
    const { totalMm, stretches, more } = retraces(line);
    expect(more).toBe(false);
    expect(stretches).toHaveLength(again.length);
    again.forEach(([fromMm, toMm], k) => {
      const found = stretches[k];
      // Of each a hundredth may count as the parting of the two.
      expect(Math.abs(found.fromMm - fromMm)).toBeLessThan(0.05 + 0.002 * (toMm - fromMm));
      expect(Math.abs(found.toMm - toMm)).toBeLessThan(0.05 + 0.002 * (toMm - fromMm));
      for (const [place, mm] of [
        [found.from, found.fromMm],
        [found.at, (found.fromMm + found.toMm) / 2],
        [found.to, found.toMm],
      ] as const)
        expect(distance(place, placeAlong(line, run, mm))).toBeLessThan(1e-9);
      expect(found.extraMm).toBeCloseTo(found.toMm - found.fromMm, 9);
    });
    expect(totalMm).toBeCloseTo(
      stretches.reduce((sum, { extraMm }) => sum + extraMm, 0),
      9,
    );
  }
});

test('crossings are none, however shallow', () => {
  for (const deg of [0.8, 1, 1.5, 2, 3, 5, 8, 12, 20, 45, 90]) {
    const crossing = chained([line(-100, 0, 100, 0, 120, 60), turned(line(100, 0, -100, 0), deg)]);
    for (const way of [0, 37, 90]) expect(retraces(turned(crossing, way)).stretches).toEqual([]);
  }
  expect(retraces(loops(12, 14, 10)).stretches).toEqual([]);
});

// The drawing need not be exact: loops meant to touch may lie apart or overlap by more than the flattening.
test('touching loops are none, side by side or one within the other', () => {
  for (const radius of [3, 20, 50, 120]) {
    for (const ratio of [0.7, 1, 1.1, 1.25, 1.5, 2]) {
      for (let apart = -0.1; apart <= 0.1; apart += 0.01) {
        const other = ratio * radius;
        const [first, beside] = [circle(0, 0, radius), circle(radius + other + apart, 0, other, 180)];
        expect(retraces(first, beside).totalMm).toBe(0);
        if (ratio > 1) expect(retraces(first, circle(radius - other - apart, 0, other)).totalMm).toBe(0);
      }
    }
  }
  // A loop that touches a straight line.
  expect(retraces(line(-100, 0, 100, 0), circle(0, 30, 30, 270)).stretches).toEqual([]);
});

// At the angle a they are within 0.1 mm of each other for 0.1 / sin a to either side: over 25 mm in all that is no meeting.
test('so shallow that it takes 25 mm and more they are taken for one line', () => {
  const meeting = (deg: number) => {
    const slanting = turned(line(0, 0, 100, 0), deg);
    const through = turned(line(-100, 0, 100, 0), deg);
    return [slanting, through].map((drawn) => retraces(line(-100, 0, 100, 0), drawn).totalMm);
  };
  const reachMm = (deg: number) => 0.1 / Math.sin((deg * Math.PI) / 180);
  // 28.6 mm from the end on, and 57 to either side.
  for (const [k, found] of meeting(0.2).entries())
    expect(Math.abs(found - (k + 1) * reachMm(0.2))).toBeLessThan(0.011 * (k + 1) * reachMm(0.2));
  // 14.3 mm from the end on, 28.6 to either side.
  const [end, both] = meeting(0.4);
  expect(end).toBe(0);
  expect(Math.abs(both - 2 * reachMm(0.4))).toBeLessThan(0.011 * both);
  expect(meeting(0.5)).toEqual([0, 0]);
});

// A sine about a straight line: within 0.1 mm of it throughout, and at it every four millimetres.
test('passes that weave about each other three times and more are one over the other', () => {
  const weaving = (mm: number, heightMm: number) =>
    curve(400, (t) => [10 + mm * t, heightMm * Math.sin((Math.PI * mm * t) / 4)]);
  const over = (drawn: Polyline) => retraces(line(0, 0, 60, 0), drawn).totalMm;
  for (const mm of [20, 24]) {
    expect(Math.abs(over(weaving(mm, 0.09)) - mm)).toBeLessThan(0.02 * mm);
    // Farther out than 0.1 mm they are apart in between.
    expect(over(weaving(mm, 0.5))).toBe(0);
  }
  // Waves of 1.2 mm: what is no longer than three millimetres may be a meeting.
  const fine = (mm: number) =>
    over(curve(200, (t) => [10 + mm * t, 0.08 * Math.sin((Math.PI * mm * t) / 0.6)]));
  expect(fine(2.7)).toBe(0);
  expect(Math.abs(fine(3.5) - 3.5)).toBeLessThan(0.5);
  // Once there and back is a touch, or two crossings.
  expect(over(curve(100, (t) => [10 + 4 * t, 0.09 * Math.sin(Math.PI * t) ** 2 + 0.002]))).toBe(0);
});

test('of strokes the number, the place and the way along are those of the later one', () => {
  const { stretches } = retraces(line(0, 0, 100, 0), line(0, 20, 50, 20), line(70, 9, 70, 0, 40, 0, 40, 30));
  expect(stretches).toHaveLength(1);
  const [{ stroke, fromMm, toMm, from, at, to }] = stretches;
  expect(stroke).toBe(2);
  expect([fromMm, toMm].map((mm) => Math.round(10 * mm) / 10)).toEqual([9, 39]);
  for (const [place, x] of [
    [from, 70],
    [at, 55],
    [to, 40],
  ] as const)
    expect(distance(place, { x, y: 0 })).toBeLessThan(0.1);
});

test('a little bump parts no stretch, a wider one does; and what is shorter than a millimetre is none', () => {
  const over = (drawn: Polyline) => retraces(line(0, 0, 100, 0), drawn).stretches;
  const bump = (wideMm: number, highMm: number) =>
    over(line(10, 0, 30, 0, 30 + wideMm / 2, highMm, 30 + wideMm, 0, 50, 0));
  expect(bump(0.1, 0.15)).toHaveLength(1);
  expect(bump(1.2, 0.3)).toHaveLength(2);
  const short = (mm: number) => over(line(10, 9, 10, 0, 10 + mm, 0, 10 + mm, 9));
  expect(short(0.9)).toEqual([]);
  expect(short(1.3)).toHaveLength(1);
});

test('echo lines 0.3 mm apart are none', () => {
  const echoes = [0, 1, 2, 3, 4].map((k) =>
    moved(
      curve(300, (t) => [200 * t, 8 * Math.sin(20 * t)]),
      0,
      0.5 * k,
    ),
  );
  expect(retraces(...echoes).stretches).toEqual([]);
  expect(retraces(...[10, 10.3, 10.6, 10.9].map((radius) => circle(0, 0, radius))).stretches).toEqual([]);
});

test('the legs of a sharp point are none', () => {
  for (const deg of [1, 2, 5, 10, 30])
    expect(retraces(chained([line(-60, 0, 0, 0), turned(line(0, 0, -60, 0), deg)])).stretches).toEqual([]);
  // Legs that run into the point along the same tangent.
  expect(retraces(chained([arc(0, 20, 20, 180, 270), arc(0, -20, 20, 90, 180)])).stretches).toEqual([]);
});

test('a second pass by an unsteady hand, or a constant 0.06 mm off, is found', () => {
  for (const offMm of [0.02, 0.04, 0.06, 0.08]) {
    const random = randomFrom(5);
    const shaky = curve(60, (t) => [80 - 20 * t, t === 0 ? 0 : 2 * offMm * (random() - 0.5)]);
    const { totalMm } = retraces(chained([line(0, 0, 80, 0), shaky, line(60, 0, 60, 40)]));
    expect(Math.abs(totalMm - 20)).toBeLessThan(0.05 * 20);
  }
  const aside = chained([line(0, 0, 80, 0, 80, 10, 90, 10, 90, 0.06, 30, 0.06, 30, 30)]);
  expect(Math.abs(retraces(aside).totalMm - 50)).toBeLessThan(0.02 * 50);
});

test('out and back it begins at the fold', () => {
  for (const deg of [0, 33, 140]) {
    for (const mm of [1.3, 4, 30]) {
      const { stretches, totalMm } = retraces(turned(line(0, 0, 50, 0, 50 - mm, 0, 50 - mm, 30), deg));
      expect(stretches).toHaveLength(1);
      expect(stretches[0].fromMm).toBeCloseTo(50, 2);
      expect(stretches[0].toMm).toBeCloseTo(50 + mm, 0);
      expect(Math.abs(totalMm - mm)).toBeLessThan(0.02);
    }
  }
});

test('separate strokes that lie over each other count, in the later one', () => {
  const { stretches, totalMm } = retraces(line(0, 0, 100, 0), line(130, 0, 60, 0, 60, 40));
  expect(stretches.map(({ stroke }) => stroke)).toEqual([1]);
  expect(Math.abs(totalMm - 40)).toBeLessThan(0.8);
});

test('mirroring, turning, reversing, moving and more points change no total, doubling the size doubles it', () => {
  const run = runningLengths(swell);
  const again = redrawn(swell, 60, 95);
  const planted = chained([
    stretchOf(swell, run, 0, 95),
    reversed(again),
    again,
    stretchOf(swell, run, 95, run[run.length - 1]),
  ]);
  const { totalMm } = retraces(planted);
  for (const other of [
    mirrored(planted),
    turned(planted, 180),
    turned(planted, 37),
    reversed(planted),
    moved(planted, 500, -300),
    densified(planted, 0.05),
    densified(planted, 0.01),
  ])
    expect(Math.abs(retraces(other).totalMm - totalMm)).toBeLessThan(0.02 * totalMm);
  expect(Math.abs(retraces(scaled(planted, 2)).totalMm - 2 * totalMm)).toBeLessThan(0.04 * totalMm);
});

// Each pass but the first is over again; all of it, since neighbours lie within 0.1 mm throughout.
describe('where thousands of passes lie in one place, all is found', () => {
  test('50,000 passes over one step of 20 mm', () => {
    const { totalMm, more } = retraces(
      line(...Array.from({ length: 50_001 }, (_, i) => [i % 2 ? 20 : 0, 50]).flat()),
    );
    expect(more).toBe(false);
    expect(Math.abs(totalMm - 49_999 * 20)).toBeLessThan(1);
  });

  test('a comb of 1,000 teeth a micrometre apart, a metre deep', () => {
    const comb = line(...Array.from({ length: 1_001 }, (_, i) => [0.001 * i, i % 2 ? 1000 : 0]).flat());
    const { totalMm, more } = retraces(comb);
    expect(more).toBe(false);
    expect(Math.abs(totalMm - 999 * 1000)).toBeLessThan(1);
  });

  // A spoke is beside the one before it over 50 mm: 50 / 3183 = 0.016 mm at the rim. Of each a hundredth, where
  // the two are farthest apart, may count as their parting.
  test('2,000 spokes through one point', () => {
    const spokes = Array.from({ length: 2_000 }, (_, i) =>
      line(0, 0, 50 * Math.cos(i / 3183), 50 * Math.sin(i / 3183)),
    );
    const { totalMm, more } = retraces(...spokes);
    expect(more).toBe(false);
    expect(totalMm).toBeGreaterThan(0.985 * 1_999 * 50);
    expect(totalMm).toBeLessThanOrEqual(1_999 * 50);
  });
});
