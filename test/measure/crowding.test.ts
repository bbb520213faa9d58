import { describe, expect, test } from 'vitest';
import type { Point, Polyline } from '../../shared/plane.js';
import { distance } from '../../src/geometry/point.js';
import {
  chained,
  firstPoint,
  lengthOf,
  moved,
  placeAlong,
  polylineOf,
  reversed,
  runningLengths,
  scaled,
} from '../../src/geometry/polyline.js';
import { crowdingOf } from '../../src/measure/company/crowding.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { curve, line, loops, randomFrom } from './lines.js';
import { leastDistance, lengthWithin } from './nearness.js';
import { arc, circle, densified, mirrored, turned } from './shapes.js';

function crowding(...lines: Polyline[]) {
  return crowdingOf(new SegmentIndex(lines), 0.8, 5).places;
}

/** The sine y = 12 sin(x / 15) and the curve a constant distance from it, along its normals. */
function sineAside(offMm: number, fromMm = 0, toMm = 200, steps = 900): Polyline {
  return curve(steps, (t) => {
    const x = fromMm + t * (toMm - fromMm);
    const slope = 0.8 * Math.cos(x / 15);
    const length = Math.hypot(1, slope);
    return [x - (offMm * slope) / length, 12 * Math.sin(x / 15) + offMm / length];
  });
}

describe('lines side by side', () => {
  test('at a constant distance: the distance by jsts, and the length of the stretch', () => {
    for (const offMm of [0.15, 0.3, 0.5, 0.7]) {
      const long = sineAside(0);
      const echo = sineAside(offMm, 40, 140, 777);
      const [found, ...others] = crowding(long, echo);
      expect(others).toEqual([]);
      expect(Math.abs(found.leastMm - leastDistance(long, echo))).toBeLessThan(0.01);
      expect(Math.abs(found.lengthMm - lengthOf(sineAside(0, 40, 140)))).toBeLessThan(0.02 * lengthOf(echo));
      expect(Math.abs(found.lengthMm - lengthWithin(long, echo, 0.8))).toBeLessThan(0.02 * found.lengthMm);
      expect(distance(found.at, { x: 90, y: 12 * Math.sin(6) })).toBeLessThan(1.5);
    }
    for (const offMm of [0.82, 0.9, 1.5])
      expect(crowding(sineAside(0), sineAside(offMm, 40, 140))).toEqual([]);
  });

  test('a stretch that is too short is let be', () => {
    expect(crowding(line(0, 0, 60, 0), line(30, 30, 30, 0.5, 33.5, 0.5, 33.5, 30))).toEqual([]);
    expect(crowding(line(0, 0, 60, 0), line(30, 30, 30, 0.5, 36, 0.5, 36, 30))).toHaveLength(1);
  });

  // Two circles of radius r with a gap g: at the angle a from their common axis the point of one lies
  // sqrt((d - r cos a)² + (r sin a)²) - r from the other, d = 2 r + g. It is nearer than 0.8 for an arc r a each way.
  test('circles that do not touch are crowded over the arc within the distance', () => {
    const radius = 30;
    for (const gapMm of [0.2, 0.4]) {
      const d = 2 * radius + gapMm;
      const cosine = (d * d + radius * radius - (radius + 0.8) ** 2) / (2 * d * radius);
      const [found] = crowding(circle(0, 0, radius, 90), circle(d, 0, radius, 90));
      expect(Math.abs(found.lengthMm - 2 * radius * Math.acos(cosine))).toBeLessThan(0.02 * found.lengthMm);
      expect(Math.abs(found.leastMm - gapMm)).toBeLessThan(0.011);
      expect(distance(found.at, { x: radius, y: 0 })).toBeLessThan(1);
    }
  });

  test('a thin finger is crowded, both its sides by one', () => {
    const finger = chained([
      line(-60, 0, 0, 0, 0, -30),
      arc(0.3, -30, 0.3, 180, 360),
      line(0.6, -30, 0.6, 0, 60, 0),
    ]);
    const [found, ...others] = crowding(finger);
    expect(others).toEqual([]);
    expect(Math.abs(found.leastMm - 0.6)).toBeLessThan(0.012);
    expect(Math.abs(found.lengthMm - 30)).toBeLessThan(0.05 * 30);
  });

  test('an echo that starts on the line it follows is crowded where it follows it', () => {
    const spine = chained([line(0, 0, 80, 0, 80, 40, 20, 40, 20, 0.5, 50, 0.5, 50, 0, 50, -30)]);
    const [found] = crowding(spine);
    expect(Math.abs(found.leastMm - 0.5)).toBeLessThan(0.02);
    expect(Math.abs(found.lengthMm - 30)).toBeLessThan(0.05 * 30);
  });

  // 20 mm at 0.3 and 8 mm at 0.7 from the line it starts on: of 28 mm, 20 lie in one band, and a meeting may explain as
  // much as lies outside of it, so 2 * 20 - 28 mm are company.
  test('an echo that starts on the line and parts from it by steps counts for what no meeting explains', () => {
    const steps = [0, 0, 0.5, 0.3, 20.5, 0.3, 21.2, 0.7, 29.2, 0.7, 30.2, 1.6, 60, 30];
    for (const deg of [0, 37]) {
      const [found, ...others] = crowding(turned(line(-20, 0, 80, 0), deg), turned(line(...steps), deg));
      expect(others).toEqual([]);
      expect(Math.abs(found.lengthMm - 12)).toBeLessThan(1);
      expect(Math.abs(found.leastMm - 0.3)).toBeLessThan(0.01);
      expect(distance(found.at, firstPoint(turned(line(10.5, 0.3), deg)))).toBeLessThan(1);
    }
  });

  test('a line that crosses another and comes near it again is crowded all along', () => {
    const heights = [-6, -2, 0, 0, 10, 0.6, 20, 0.2, 30, 0.6, 36, 2];
    const [found, ...others] = crowding(line(-20, 0, 80, 0), line(...heights));
    expect(others).toEqual([]);
    // Within 0.8 mm from -2.4 to 30.86, within 0.1, where it is a retrace at most, from -0.3 to 1.67.
    const steep = Math.hypot(3, 1) / 3;
    expect(Math.abs(found.lengthMm - (2.1 * steep + 30 - 1.67 + 0.86))).toBeLessThan(0.1);
    // Crossing it once, it is let be.
    expect(crowding(line(-20, 0, 80, 0), line(-6, -2, 0, 0, 10, 0.6, 36, 7))).toEqual([]);
  });

  // Heights that come near 0 once, where they are a meeting, and near a fifth of a millimetre on either side of it.
  test('a line that comes near three times, once to touch, is crowded over what lies beside the touch', () => {
    const heights = (share: number) =>
      [-5, 3, 0, 0.7, 0, 0.2, 1.5, 0.6, 3, 0, 4.5, 0.6, 6, 0.2, 6, 0.7, 11, 3].map((v, i) =>
        i % 2 ? v : v * share,
      );
    const crowdedMm = (share: number) => crowding(line(-20, 0, 80, 0), line(...heights(share)));
    // Of 6 mm and a bit all but the 0.1 / 0.6 of 3 mm about the touch.
    expect(crowdedMm(0.8)).toEqual([]);
    const [found, ...others] = crowdedMm(1.5);
    expect(others).toEqual([]);
    expect(found.lengthMm).toBeGreaterThan(1.5 * 5.5);
    expect(found.lengthMm).toBeLessThan(1.5 * 6.6);
  });

  // Beside 1.8 mm on which it lies on the line, within 0.1 mm, there are 2.4 mm on either side of it within 0.8.
  test('a line that lies on another for a while is crowded by what lies beside that alone', () => {
    const heights = [
      0, 0.75, 0.6, 0.2, 1.1, 0.6, 1.3, 0.6, 1.9, 0.05, 3.6, 0.05, 4.2, 0.6, 4.4, 0.6, 4.9, 0.2,
    ];
    const beside = (moreMm: number) => {
      const ends = [4.9 + moreMm, 0.2, 5.5 + moreMm, 0.75, 6.5 + moreMm, 2.2];
      return crowding(line(-20, 0, 80, 0), line(-1, 2.2, ...heights, ...ends));
    };
    expect(beside(0)).toEqual([]);
    expect(beside(3)).toHaveLength(1);
  });

  // Starting on the line, 9 mm at 0.3, 4 mm at 0.7, then 20 mm at 0.3.
  test('of several stretches at the distance that is crowded the place is the middle of the longest', () => {
    for (const [first, last] of [
      [9, 20],
      [20, 9],
    ]) {
      const [a, b] = [0.5 + first, 0.5 + first + 4];
      const drawn = line(
        0,
        0,
        0.5,
        0.3,
        a,
        0.3,
        a + 0.8,
        0.7,
        b - 0.8,
        0.7,
        b,
        0.3,
        b + last,
        0.3,
        b + last + 1,
        3,
      );
      const [found, ...others] = crowding(line(-20, 0, 80, 0), drawn);
      expect(others).toEqual([]);
      const middle = first > last ? 0.5 + first / 2 : b + last / 2;
      expect(distance(found.at, { x: middle, y: 0.3 })).toBeLessThan(0.3);
    }
  });

  // One is 0.3 off where the other is 0.4, but for 60 mm in the middle.
  test('a place is told once, though another line is nearer for a while', () => {
    const one = line(-20, 5, 5, 0.3, 20, 0.3, 22, 0.6, 80, 0.6, 82, 0.3, 120, 0.3, 130, 5);
    const found = crowding(one, line(-20, -0.4, 140, -0.4), line(-10, 0, 130, 0));
    const onThird = found.filter(({ at }) => Math.abs(at.y) < 0.01).map(({ lengthMm }) => lengthMm);
    expect(onThird).toHaveLength(2);
    expect(Math.abs(onThird[0] - 140)).toBeLessThan(0.01);
    // From where it comes within 0.8 mm, down a slope of 4.7 in 25, to where it leaves, up one of 4.7 in 10.
    const [down, up] = [Math.atan(4.7 / 25), Math.atan(4.7 / 10)];
    const fromMm = 5 - (0.8 / Math.cos(down) - 0.3) / Math.tan(down);
    const toMm = 120 + (0.8 / Math.cos(up) - 0.3) / Math.tan(up);
    expect(Math.abs(onThird[1] - (toMm - fromMm))).toBeLessThan(0.02);
  });

  test('distances that wander count as they are', () => {
    const wandering = curve(600, (t) => [100 * t, 0.5 + 0.2 * Math.sin(40 * t)]);
    const [found] = crowding(line(0, 0, 100, 0), wandering);
    expect(Math.abs(found.lengthMm - 100)).toBeLessThan(1);
    expect(Math.abs(found.leastMm - 0.3)).toBeLessThan(0.01);
  });
});

// The slanted line of the first runs beside that of the second from its corner on, 0.638 mm from it, to where it is 0.8
// off: 8.2 mm. The level one crosses there, and is another pass.
test('in whatever order and direction lines are drawn, and with further points, the same stretch is crowded', () => {
  const first = line(38, 12, 22, 12, 36, 4);
  const second = line(38, 4, 16, 16, 0, 16);
  const cornerMm = Math.abs(-22 * 8 + 12 * 16) / Math.hypot(22, 12);
  for (const one of [first, reversed(first), densified(first, 3)])
    for (const other of [second, reversed(second), densified(second, 3)])
      for (const drawn of [
        [one, other],
        [other, one],
      ]) {
        const [found, ...others] = crowding(...drawn);
        expect(others).toEqual([]);
        expect(Math.abs(found.leastMm - cornerMm)).toBeLessThan(0.001);
        // On the second, what lies up to 0.8 mm about the corner counts as well.
        expect(Math.abs(found.lengthMm - 8.4)).toBeLessThan(0.25);
      }
});

describe('what is no crowding', () => {
  test('crossings, however shallow', () => {
    for (const deg of [1, 2, 3, 5, 8, 12, 20, 45, 90]) {
      const crossing = chained([line(-100, 0, 100, 0, 120, 60), turned(line(100, 0, -100, 0), deg)]);
      for (const way of [0, 37, 90]) expect(crowding(turned(crossing, way))).toEqual([]);
    }
    for (const squash of [0.1, 0.3, 1]) expect(crowding(loops(8, 24, 14, squash))).toEqual([]);
  });

  test('loops that touch', () => {
    for (const radius of [5, 15, 40]) {
      expect(crowding(circle(0, 0, radius), circle(2 * radius, 0, radius, 180))).toEqual([]);
      expect(crowding(circle(0, 0, radius), circle(-radius / 4, 0, 1.25 * radius))).toEqual([]);
    }
  });

  test('the legs of corners and sharp points', () => {
    for (const deg of [2, 4, 8, 15, 30, 60])
      expect(crowding(chained([line(-60, 0, 0, 0), turned(line(0, 0, -60, 0), deg)]))).toEqual([]);
    for (const radius of [10, 30, 60])
      expect(crowding(chained([arc(0, radius, radius, 180, 270), arc(0, -radius, radius, 90, 180)]))).toEqual(
        [],
      );
    // Closed, and begun at the point.
    for (const half of [1, 2, 3, 4, 6]) expect(crowding(line(0, 0, -60, half, -60, -half, 0, 0))).toEqual([]);
  });

  test('a retrace', () => {
    expect(crowding(line(0, 0, 80, 0, 40, 0, 80, 0, 120, 30))).toEqual([]);
    expect(crowding(arc(0, 0, 15, 0, 900))).toEqual([]);
  });
});

test('mirroring, turning, reversing, moving and more points change nothing, doubling doubles', () => {
  const drawn = chained([sineAside(0), line(200, 60, 140, 60), reversed(sineAside(0.5, 40, 140))]);
  const [found] = crowding(drawn);
  for (const other of [
    mirrored(drawn),
    turned(drawn, 180),
    turned(drawn, 37),
    reversed(drawn),
    moved(drawn, 500, -300),
    densified(drawn, 0.05),
    densified(drawn, 0.01),
  ]) {
    const [again, ...others] = crowding(other);
    expect(others).toEqual([]);
    expect(Math.abs(again.lengthMm - found.lengthMm)).toBeLessThan(0.02 * found.lengthMm);
    expect(Math.abs(again.leastMm - found.leastMm)).toBeLessThan(0.02 * found.leastMm);
  }
  const [doubled] = crowdingOf(new SegmentIndex([scaled(drawn, 2)]), 1.6, 10).places;
  expect(Math.abs(doubled.lengthMm - 2 * found.lengthMm)).toBeLessThan(0.02 * doubled.lengthMm);
  expect(Math.abs(doubled.leastMm - 2 * found.leastMm)).toBeLessThan(0.02 * doubled.leastMm);
});

// Beside a straight line a place of a zigzag lies as far off as it is high, so what of it lies within 0.8 mm, and where
// that comes nearest, can be read off its corners. It must be longer than 5 mm on either line.
test('beside a straight line: each stretch within the distance, its length, its middle and its least distance', () => {
  const random = randomFrom(11);
  let found = 0;
  for (let round = 0; round < 40; round++) {
    const corners = [{ x: 0, y: 1.2 }];
    for (let x = 0; x < 150; ) {
      x += 2 + 4 * random();
      // Tenths from 0.2 to 1.4, never on the limit itself.
      const tenths = 2 + Math.floor(12 * random());
      corners.push({ x, y: (tenths < 8 ? tenths : tenths + 1) / 10 });
    }
    corners.push({ x: corners[corners.length - 1].x + 3, y: 1.2 });
    const wanted = stretchesBelow(corners, 0.8).filter(({ acrossMm }) => acrossMm > 5);
    const zigzag = polylineOf(corners);
    const [straight, beside] = [line(-20, 0, 200, 0), round % 2 ? reversed(zigzag) : zigzag];
    const deg = 360 * random();
    const places = crowding(turned(straight, deg), turned(beside, deg));
    expect(places).toHaveLength(wanted.length);
    wanted
      .sort((a, b) => b.lengthMm - a.lengthMm)
      .forEach(({ lengthMm, leastMm, at }, k) => {
        expect(Math.abs(places[k].lengthMm - lengthMm)).toBeLessThan(0.003);
        expect(Math.abs(places[k].leastMm - leastMm)).toBeLessThan(0.002);
        expect(distance(places[k].at, firstPoint(turned(polylineOf([at]), deg)))).toBeLessThan(0.003);
      });
    found += wanted.length;
  }
  expect(found).toBeGreaterThan(100);
});

/** The stretches of a line from left to right that lie at a height of `limit` and less. */
function stretchesBelow(corners: readonly Point[], limit: number) {
  const cut: Point[] = [];
  corners.forEach((to, k) => {
    const from = corners[k - 1];
    if (from && from.y > limit !== to.y > limit) {
      const share = (limit - from.y) / (to.y - from.y);
      cut.push({ x: from.x + share * (to.x - from.x), y: limit });
    }
    cut.push(to);
  });
  const found: { lengthMm: number; acrossMm: number; leastMm: number; at: Point }[] = [];
  for (let k = 0; k < cut.length; k++) {
    if (cut[k].y > limit) continue;
    const from = k;
    while (cut[k + 1].y <= limit) k++;
    const stretch = polylineOf(cut.slice(from, k + 1));
    const walked = runningLengths(stretch);
    const lengthMm = lengthOf(stretch);
    found.push({
      lengthMm,
      acrossMm: cut[k].x - cut[from].x,
      leastMm: Math.min(...cut.slice(from, k + 1).map(({ y }) => y)),
      at: placeAlong(stretch, walked, lengthMm / 2),
    });
  }
  return found;
}
