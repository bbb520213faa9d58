/** What bends, tilts, turns or leads a line, held against the formulas it goes by. */
import { describe, expect, test } from 'vitest';
import type { Point, Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { firstPoint, lastPoint, lengthOf, pointCount, pointsOf } from '../../src/geometry/polyline.js';
import { turnedLevel } from '../../src/mend/aslant.js';
import { eased, easeOf } from '../../src/mend/ease.js';
import { leadBetween } from '../../src/mend/lead.js';
import { slantDeg, slanted, slantOf } from '../../src/mend/slant.js';
import { line } from './drawings.js';

function closeTo({ x, y }: Point, wantedX: number, wantedY: number) {
  expect([x, y].map((v, i) => v - [wantedX, wantedY][i]).every((off) => Math.abs(off) < 1e-9)).toBe(true);
}

describe('a slant', () => {
  const rising = line(20, 10, 60, 70, 120, 30);

  test('moves each place in proportion to how far it lies from halfway between the ends', () => {
    // 20 down on 100 across; the middle is at x = 70.
    expect([...slanted(rising)]).toEqual([20, 20, 60, 72, 120, 20]);
    closeTo(slantOf(rising)({ x: 95, y: 50 }), 95, 45);
  });

  test('tilts by the angle of that, whichever way the line runs', () => {
    const deg = (Math.atan(0.2) * 180) / Math.PI;
    for (const each of [rising, line(120, 30, 20, 10), line(20, 30, 120, 10), line(120, 10, 20, 30)])
      expect(slantDeg(each)).toBeCloseTo(deg, 9);
  });
});

/** Smoothstep (1, falling to 0 over a quarter), as 1 - 3 t^2 + 2 t^3. */
const fade = (share: number) => (share >= 1 / 4 ? 0 : 1 - 3 * (4 * share) ** 2 + 2 * (4 * share) ** 3);

describe('an ease', () => {
  // 100 mm long, 3 across for 4 down.
  const straight = line(0, 0, 60, 80);

  test('moves each end by what was asked, less and less over a quarter of the length, and nothing between', () => {
    const made = eased(straight, 10, -4);
    expect(pointCount(made)).toBe(101);
    [...pointsOf(made)].forEach(({ x, y }, i) => {
      expect(x).toBeCloseTo(0.6 * i, 9);
      expect(y).toBeCloseTo(0.8 * i + 10 * fade(i / 100) - 4 * fade(1 - i / 100), 9);
    });
  });

  test('only the quarters that bend are divided, into steps of at most a millimetre', () => {
    const level = (...x: number[]) => line(...x.flatMap((each) => [each, 0]));
    const steps = (drawn: Polyline) => pointCount(eased(drawn, 1, 1)) - 1;
    expect(steps(level(0, 30, 70, 100))).toBe(30 + 1 + 30);
    // A segment that begins or ends on a quarter, or reaches into one, is divided whole.
    expect(steps(level(0, 25, 75, 100))).toBe(25 + 50 + 25);
    expect(steps(level(0, 24, 74, 100))).toBe(24 + 50 + 26);
    expect(steps(level(0, 26, 76, 100))).toBe(26 + 50 + 24);
    expect(steps(level(0, 10.5, 20, 80, 100))).toBe(11 + 10 + 60 + 20);
  });

  test('takes places on the line along', () => {
    const place = easeOf(straight, 10, -4);
    closeTo(place({ x: 7.5, y: 10 }), 7.5, 10 + 10 * fade(1 / 8));
    closeTo(place({ x: 30, y: 40 }), 30, 40);
    closeTo(place({ x: 57, y: 76 }), 57, 76 - 4 * fade(1 / 20));
  });
});

describe('a lead', () => {
  const to = { at: { x: 30, y: 40 }, dx: 1, dy: 0 };

  test('is the cubic of Hermite with handles of a third of its reach', () => {
    // At t = 1/2 that cubic is (p + q) / 2 + 3/8 (handle of p - handle of q).
    const made = leadBetween({ at: { x: 0, y: 0 }, dx: 1, dy: 0 }, { ...to, dx: 0, dy: 1 });
    const handle = 50 / 3;
    closeTo(firstPoint(made), 0, 0);
    closeTo(lastPoint(made), 30, 40);
    expect(pointCount(made)).toBe(201);
    closeTo({ x: made[200], y: made[201] }, 15 + (3 / 8) * handle, 20 - (3 / 8) * handle);
    // A quarter of the way: 27/64, 27/64, 9/64, 1/64 of its four points.
    closeTo({ x: made[100], y: made[101] }, (27 * handle + 9 * 30 + 30) / 64, (9 * (40 - handle) + 40) / 64);
  });

  test('leaves and arrives in the directions it was given', () => {
    const made = leadBetween({ at: { x: 5, y: 5 }, dx: 0.6, dy: -0.8 }, to);
    const last = made.length - 2;
    expect((made[3] - 5) / (made[2] - 5)).toBeCloseTo(-4 / 3, 1);
    expect(Math.abs((40 - made[last - 1]) / (30 - made[last - 2]))).toBeLessThan(0.05);
  });

  test('of no reach is a step of none', () => {
    expect([...leadBetween(to, to)]).toEqual([30, 40, 30, 40]);
  });
});

describe('a sheet that lay aslant', () => {
  // 4 down on 96 across, with a corner 10 above the middle.
  const drawn = line(10, 20, 58, 12, 106, 24);
  const deg = (Math.atan2(4, 96) * 180) / Math.PI;

  test('is turned about the start until the ends are level, and everything with it', () => {
    const { line: made, message, at, movedMm, added, place } = turnedLevel(drawn, defaultSetup)!;
    const [cos, sin] = [Math.cos(Math.atan2(4, 96)), Math.sin(Math.atan2(4, 96))];
    closeTo(firstPoint(made), 10, 20);
    closeTo(lastPoint(made), 10 + Math.hypot(96, 4), 20);
    closeTo({ x: made[2], y: made[3] }, 10 + 48 * cos - 8 * sin, 20 - 48 * sin - 8 * cos);
    closeTo(place({ x: 58, y: 12 }), made[2], made[3]);
    expect(lengthOf(made)).toBeCloseTo(lengthOf(drawn), 9);
    // What lies farthest from the start moves most: by the chord of that angle.
    expect(movedMm).toBeCloseTo(2 * Math.hypot(96, 4) * Math.sin((deg * Math.PI) / 360), 9);
    expect(message).toBe('The scan lay aslant: turned level by 2.4 degrees.');
    expect(at).toEqual([firstPoint(made), lastPoint(made)]);
    expect(added).toEqual([]);
  });

  test('the place that moves most may lie anywhere', () => {
    const loop = line(0, 0, 150, 0, 100, 4);
    expect(turnedLevel(loop, defaultSetup)!.movedMm).toBeCloseTo(300 * Math.sin(Math.atan2(4, 100) / 2), 9);
  });

  test('is left as it is where it is level, or steeper than any sheet lies', () => {
    expect(turnedLevel(line(0, 0, 100, 0.5), defaultSetup)).toBeNull();
    expect(turnedLevel(line(0, 0, 100, 0.51), defaultSetup)).not.toBeNull();
    const down = (degrees: number) => line(0, 0, 100, 100 * Math.tan((degrees * Math.PI) / 180));
    expect(turnedLevel(down(5.01), defaultSetup)).toBeNull();
    expect(turnedLevel(down(4.99), defaultSetup)).not.toBeNull();
    expect(turnedLevel(down(-4.99), defaultSetup)!.line[3]).toBeCloseTo(0, 9);
  });
});
