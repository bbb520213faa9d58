import { describe, expect, test } from 'vitest';
import type { Point, Polyline } from '../../shared/plane.js';
import { distance } from '../../src/geometry/point.js';
import {
  chained,
  firstPoint,
  lengthOf,
  moved,
  placeAlong,
  reversed,
  runningLengths,
  scaled,
} from '../../src/geometry/polyline.js';
import { pointToSegment } from '../../src/geometry/segment.js';
import { pilesOf } from '../../src/measure/company/piles.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { dallying, passesBy } from './dallying.js';
import { curve, line, loops, randomFrom } from './lines.js';
import { densified, mirrored, turned } from './shapes.js';

const halfStitchMm = 25.4 / 22;

function piles(drawing: Polyline | readonly Polyline[], passes = 4) {
  return pilesOf(
    new SegmentIndex(drawing instanceof Float64Array ? [drawing] : drawing),
    halfStitchMm,
    passes,
  ).places;
}

/** One line that goes to and fro through (0, 0) this many times. */
function star(passes: number): Polyline {
  return chained(
    Array.from({ length: passes }, (_, k) =>
      turned(line(-25, 0, 25, 0), (180 / passes) * k + (k % 2 ? 180 : 0)),
    ),
  );
}

/** Petals round (0, 0), each passing through it: r = 30 |sin(n a / 2)|. */
function petals(count: number): Polyline {
  return curve(100 * count, (t) => {
    const angle = 2 * Math.PI * t;
    const radius = 30 * Math.abs(Math.sin((count * angle) / 2));
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
}

describe('places through which the line runs again and again', () => {
  test('are counted, and found where they are', () => {
    for (const passes of [4, 5, 6, 7, 9]) {
      const [found, ...others] = piles(star(passes));
      expect(others).toEqual([]);
      expect(found.passes).toBe(passes);
      expect(distance(found.at, { x: 0, y: 0 })).toBeLessThan(1);
    }
    expect(piles(star(3))).toEqual([]);
    // From each petal to the next the line comes through the middle, and it begins and ends there: count - 1 + 2 passes.
    for (const count of [3, 4, 6, 9]) {
      const [found, ...others] = piles(petals(count), 4);
      expect(others).toEqual([]);
      expect(found.passes).toBe(count + 1);
      expect(distance(found.at, { x: 0, y: 0 })).toBeLessThan(1);
    }
  });

  test('are found where separate strokes meet as well', () => {
    const strokes = [0, 1, 2, 3, 4].map((k) => moved(turned(line(-25, 0, 25, 0), 36 * k), 70, 20));
    const [found, ...others] = piles(strokes);
    expect(others).toEqual([]);
    expect(found.passes).toBe(5);
    expect(distance(found.at, { x: 70, y: 20 })).toBeLessThan(1);
  });

  // Three uprights 1.1 mm apart are within half a stitch, 1.15 mm, of one place only if it lies on the middle one, or within
  // 0.05 mm of it; the level line comes by there for 2.3 mm of a metre.
  test('are found however long the lines are beside the place', () => {
    const uprights = [-1.1, 0, 1.1].map((x) => line(x, -510, x, 490));
    for (const deg of [0, 33, 90]) {
      const strokes = [line(-480, 0, 520, 0), ...uprights].map((stroke) => turned(stroke, deg));
      const [found, ...others] = piles(strokes);
      expect(others).toEqual([]);
      expect(found.passes).toBe(4);
      expect(distance(found.at, { x: 0, y: 0 })).toBeLessThan(0.1);
      expect(piles(strokes.slice(1))).toEqual([]);
    }
  });

  // On the level line all four are within half a stitch from 0.7 - r to r - 0.5, and at (0.1, 0) none is farther off than 0.6.
  test('are the middle of the stretch on which the most passes run, and of those the one nearest to all', () => {
    const [level, ...uprights] = [line(-3, 0, 4, 0), ...[-0.5, 0.3, 0.7].map((x) => line(x, -17, x, 23))];
    const drawings = [
      [level, ...uprights],
      [reversed(level), ...uprights.map(reversed)],
      [...uprights, level],
      [level, ...uprights.map((upright) => densified(upright, 0.5))],
      [level, ...uprights.map((upright) => reversed(densified(upright, 0.7)))],
    ];
    for (const drawn of drawings) {
      for (const deg of [0, 25, 160]) {
        const [found, ...others] = piles(drawn.map((stroke) => turned(stroke, deg)));
        expect(others).toEqual([]);
        expect(found.passes).toBe(4);
        expect(distance(found.at, firstPoint(turned(line(0.1, 0), deg)))).toBeLessThan(1e-6);
      }
    }
  });

  // Two such places on one level line: on the stretch of the first, not between the two, where fewer run.
  test('are the middle of one such stretch where there are several on a line', () => {
    const offs = [-0.5, 0.3, 0.7];
    const uprights = [0, 20].flatMap((at) => offs.map((off) => line(at + off, -17, at + off, 23)));
    for (const mm of [0.5, 0.7, 50]) {
      for (const deg of [0, 25, 160]) {
        const found = piles(
          [line(-3, 0, 27, 0), ...uprights.map((each) => densified(each, mm))].map((each) =>
            turned(each, deg),
          ),
        );
        expect(found.map(({ passes }) => passes)).toEqual([4, 4]);
        expect(distance(found[0].at, firstPoint(turned(line(0.1, 0), deg)))).toBeLessThan(1e-6);
        expect(distance(found[1].at, firstPoint(turned(line(20.1, 0), deg)))).toBeLessThan(1);
      }
    }
  });

  test('are found where passes go over each other', () => {
    const [found] = piles(line(0, 0, 40, 0, 10, 0, 40, 0, 10, 0, 80, 0));
    expect(found.passes).toBe(5);
  });

  test('are no places where two or three passes cross, or lines close by keep apart', () => {
    expect(piles(loops(10, 14, 10))).toEqual([]);
    expect(piles(line(-20, 0, 20, 0, 0, 20, 0, -20))).toEqual([]);
    const echoes = [0, 1, 2, 3, 4, 5].map((k) => line(0, 1.2 * k, 100, 1.2 * k));
    expect(piles(echoes)).toEqual([]);
  });

  test('are no sharp points and no small loops', () => {
    expect(piles(line(0, 0, 30, 1, 0, 2))).toEqual([]);
    for (const radius of [0.8, 1.5, 3]) expect(piles(loops(6, 6 * radius, radius))).toEqual([]);
  });

  // What a needle makes of it: as many stitches as the line is long there, though the spot is no wider than one.
  test('may be one pass that wiggles in place', () => {
    const random = randomFrom(4);
    const wiggle = Float64Array.from([
      -30,
      0,
      ...Array.from({ length: 80 }, () => 1.4 * (random() - 0.5)),
      30,
      0,
    ]);
    const [found] = piles(wiggle);
    const stitches = lengthOf(wiggle.slice(2, -2)) / (25.4 / 11);
    expect(stitches).toBeGreaterThan(10);
    expect(Math.abs(found.passes - stitches)).toBeLessThan(1);
    expect(distance(found.at, { x: 0, y: 0 })).toBeLessThan(1);
  });
});

test('where more than four dozen passes meet not all places are looked at, and that is said', () => {
  const at = (passes: number) => pilesOf(new SegmentIndex([star(passes)]), halfStitchMm, 4);
  expect(at(9).more).toBe(false);
  expect(at(100).more).toBe(true);
  expect(at(100).places[0].passes).toBe(100);
  expect(distance(at(100).places[0].at, { x: 0, y: 0 })).toBeLessThan(1);
});

// By brute force: at a place of the line, how many straight lines, far apart along it, come within half a stitch?
test('random straight strokes: as many passes as strokes within half a stitch of the place', () => {
  const random = randomFrom(21);
  let found = 0;
  for (let round = 0; round < 15; round++) {
    const strokes = Array.from({ length: 30 }, () =>
      Float64Array.from([0, 120 * random(), 120, 120 * random()]),
    );
    const near = (x: number, y: number) =>
      strokes.filter(([ax, ay, bx, by]) => pointToSegment(x, y, ax, ay, bx, by) <= halfStitchMm).length;
    const result = piles(strokes);
    for (const [k, { at, passes }] of result.entries()) {
      expect(near(at.x, at.y)).toBe(passes);
      for (const other of result.slice(k + 1)) {
        expect(distance(at, other.at)).toBeGreaterThan(2 * halfStitchMm - 1e-9);
        expect(other.passes).toBeLessThanOrEqual(passes);
      }
    }
    // The most anywhere along the strokes, looked at every 0.4 mm, is found too.
    let most = 0;
    for (const [ax, ay, bx, by] of strokes)
      for (let t = 0; t <= 1; t += 1 / 300)
        most = Math.max(most, near(ax + t * (bx - ax), ay + t * (by - ay)));
    expect(result[0]?.passes ?? 0).toBeGreaterThanOrEqual(most >= 4 ? most : 0);
    found += result.length;
  }
  expect(found).toBeGreaterThan(20);
});

test('a line that comes back to a place and dallies there: as many passes as by walking it', () => {
  const random = randomFrom(88);
  const radiusMm = halfStitchMm;
  let found = 0;
  for (let round = 0; round < 24; round++) {
    const drawn = dallying(random, 2 + (round % 6), 4 + (round % 4));
    const run = runningLengths(drawn);
    const near = (at: Point) => [0, -1e-4, 1e-4].map((mm) => passesBy(drawn, at, radiusMm + mm));
    const places = Array.from({ length: Math.floor(run[run.length - 1] / 0.1) }, (_, k) =>
      placeAlong(drawn, run, 0.1 * k),
    ).filter(({ x, y }) => Math.hypot(x, y) < 7);
    const counts = places.map((at) => Math.min(...near(at)));
    // Where one dallies the number changes from place to place: so many as there are over half a millimetre of the line.
    const most = Math.max(...counts.slice(5).map((_, k) => Math.min(...counts.slice(k, k + 6))));
    for (let passes = 3; passes <= most; passes++) {
      const piled = piles(drawn, passes);
      for (const [k, pile] of piled.entries()) {
        expect(near(pile.at)).toContain(pile.passes);
        expect(pile.passes).toBeGreaterThanOrEqual(passes);
        for (const other of piled.slice(k + 1)) {
          expect(distance(pile.at, other.at)).toBeGreaterThan(2 * radiusMm - 1e-9);
          expect(other.passes).toBeLessThanOrEqual(pile.passes);
        }
      }
      expect(piled[0]?.passes).toBeGreaterThanOrEqual(most);
      found += piled.length;
    }
  }
  expect(found).toBeGreaterThan(100);
});

// Where a pass dallies the number goes up and down within a stretch: in its middle it may be less than on either side.
test('no pile has fewer passes than asked for, though fewer run in the middle between two places of enough', () => {
  for (let seed = 40; seed <= 60; seed++) {
    const drawn = dallying(randomFrom(13 * seed + 5), 1 + (seed % 6), 2 + (seed % 5));
    for (const { at, passes } of piles(drawn, 2)) {
      expect(passes, `seed ${seed}`).toBeGreaterThanOrEqual(2);
      expect([0, -1e-4, 1e-4].map((mm) => passesBy(drawn, at, halfStitchMm + mm))).toContain(passes);
    }
  }
});

// A ring of radius 0.5 mm and less lies wholly within half a stitch of each of its places.
test('a small ring gone round again and again counts a pass for each stitch of it', () => {
  for (const radius of [0.15, 0.5]) {
    for (const rounds of [3, 5]) {
      const ring = curve(16 * rounds, (t) => [
        radius * Math.cos(2 * Math.PI * rounds * t),
        radius * Math.sin(2 * Math.PI * rounds * t),
      ]);
      const stitches = Math.max(1, Math.floor(lengthOf(ring) / (2 * halfStitchMm)));
      for (const passes of [1, 2, 3, 5, 8])
        expect(piles(ring, passes).map((pile) => pile.passes)).toEqual(stitches >= passes ? [stitches] : []);
    }
  }
});

test('mirroring, turning, reversing, moving and more points change neither number nor passes', () => {
  const drawn = chained([star(5), moved(star(4), 90, 10)]);
  const passes = (l: Polyline) => piles(l).map((pile) => pile.passes);
  expect(passes(drawn)).toEqual([5, 4]);
  for (const other of [
    mirrored(drawn),
    turned(drawn, 37),
    reversed(drawn),
    moved(drawn, 500, -300),
    densified(drawn, 0.3),
    densified(drawn, 0.05),
  ])
    expect(passes(other)).toEqual([5, 4]);
  // So does another scale, on which a point every two millimetres may be many or few.
  for (const times of [0.02, 2, 50])
    for (const other of [drawn, densified(drawn, 2)])
      expect(
        pilesOf(new SegmentIndex([scaled(other, times)]), times * halfStitchMm, 4).places.map(
          (pile) => pile.passes,
        ),
      ).toEqual([5, 4]);
});

// Whether what ends just a radius off is near is a matter of rounding, and of how it is asked; it is in no pile.
test('two passes side by side are found, whatever ends just a radius off on either side', () => {
  const radiusMm = 1.25;
  for (let deg = 0; deg < 360; deg += 0.7) {
    const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
    const place = (along: number, aside: number) => [along * c - aside * s, along * s + aside * c];
    const across = (along: number, from: number, to: number) =>
      Float64Array.from([...place(along, from), ...place(along, to)]);
    const level = (aside: number) => Float64Array.from([...place(0, aside), ...place(10, aside)]);
    const drawn = [level(0), level(0.2), across(3, -radiusMm, -6), across(7, 0.2 + radiusMm, 6)];
    expect(pilesOf(new SegmentIndex(drawn), radiusMm, 2).places.length).toBeGreaterThan(0);
  }
});
