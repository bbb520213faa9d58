/** Empty circles grown from anywhere: in closed form, and against every place around the one they end at. */
import { describe, expect, test, vi } from 'vitest';
import { layouts } from '../../shared/layout.js';
import type { Point } from '../../shared/plane.js';
import { grownCircle, isOutside } from '../../src/rows/grow.js';
import { rowOf } from '../../src/rows/row.js';
import { aloneOf, distanceToStack, stackOf } from '../../src/rows/stack.js';
import { nearestOn, roomAbout } from './laid-out.js';
import { curve, generator, points, randomCase, randomDashes, rowOfCase } from './lines.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

/** Closed through these corners, alone, and next to nothing. */
function within(...corners: number[]) {
  return aloneOf(rowOf([points(...corners, corners[0], corners[1])], 1000));
}

/** The same, each side drawn in so many steps: most of them hidden behind nearer ones, seen from a circle. */
function inSteps(steps: number, ...corners: number[]) {
  const xy: number[] = [];
  for (let i = 0; i < corners.length; i += 2) {
    const [nextX, nextY] = [corners[(i + 2) % corners.length], corners[(i + 3) % corners.length]];
    for (let k = 0; k < steps; k++)
      xy.push(
        corners[i] + (k / steps) * (nextX - corners[i]),
        corners[i + 1] + (k / steps) * (nextY - corners[i + 1]),
      );
  }
  return within(...xy);
}

describe('in a closed shape the circle grows to the one that fits', () => {
  const random = generator(5);
  // The incircle: radius 2 A / (a + b + c), its centre the corners weighed by the sides across.
  test('a triangle, from anywhere in it', () => {
    for (let i = 0; i < 40; i++) {
      const [ax, ay, bx, by, cx, cy] = [
        0,
        40 * random(),
        90,
        30 * random(),
        80 * random(),
        60 + 40 * random(),
      ];
      const [a, b, c] = [
        Math.hypot(bx - cx, by - cy),
        Math.hypot(cx - ax, cy - ay),
        Math.hypot(ax - bx, ay - by),
      ];
      const radius = Math.abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) / (a + b + c);
      const weights = [0.1 + random(), 0.1 + random(), 0.1 + random()];
      const [u, v, w] = weights.map((weight) => weight / (weights[0] + weights[1] + weights[2]));
      const stack = inSteps(i % 2 ? 1 : 3000, ax, ay, bx, by, cx, cy);
      const grown = grownCircle(
        stack,
        u * ax + v * bx + w * cx,
        u * ay + v * by + w * cy,
        0.2 + 10 * random(),
      );
      expect(grown.radiusMm).toBeCloseTo(radius, 3);
      expect(Math.abs(grown.x - (a * ax + b * bx + c * cx) / (a + b + c))).toBeLessThan(0.01);
      expect(Math.abs(grown.y - (a * ay + b * by + c * cy) / (a + b + c))).toBeLessThan(0.01);
    }
  });
  test('a rectangle: half its shorter side', () => {
    for (let i = 0; i < 20; i++) {
      const [width, height] = [20 + 80 * random(), 20 + 80 * random()];
      const stack = within(0, 0, width, 0, width, height, 0, height);
      const grown = grownCircle(stack, width * (0.05 + 0.9 * random()), height * (0.05 + 0.9 * random()), 5);
      expect(grown.radiusMm).toBeCloseTo(Math.min(width, height) / 2, 3);
    }
  });
  test('a ring, from near its rim', () => {
    const ring = curve(720, (t) => [
      50 + 30 * Math.cos(2 * Math.PI * t),
      50 + 30 * Math.sin(2 * Math.PI * t),
    ]);
    for (let i = 0; i < 20; i++) {
      const [turn, off] = [7 * random(), 29 * random()];
      const grown = grownCircle(
        aloneOf(rowOf([ring], 1000)),
        50 + off * Math.cos(turn),
        50 + off * Math.sin(turn),
        4,
      );
      expect(Math.abs(grown.radiusMm - 30)).toBeLessThan(2e-3);
    }
  });
});

test('between level rows the circle is as wide as they are apart, wherever it begins', () => {
  const random = generator(9);
  const level = rowOf([points(0, 0, 100, 0)], 100);
  for (let i = 0; i < 20; i++) {
    const spacing = 1 + 60 * random();
    const grown = grownCircle(
      stackOf(level, 'straight', spacing),
      300 * random(),
      300 * random(),
      spacing * random(),
    );
    expect(grown.radiusMm).toBeCloseTo(spacing / 2, 3);
  }
});

// It is given up as soon as it is larger than nothing: after one move.
describe('where all walls are straight and within reach one move is enough', () => {
  const random = generator(21);
  test('a rectangle', () => {
    for (let i = 0; i < 20; i++) {
      const [width, height] = [20 + 80 * random(), 20 + 80 * random()];
      const stack = within(0, 0, width, 0, width, height, 0, height);
      const grown = grownCircle(stack, width * random(), height * random(), 200, 0);
      expect(grown.radiusMm).toBeCloseTo(Math.min(width, height) / 2, 9);
    }
  });
  // From about its middle the nearest place of each side lies within that side.
  test('a triangle', () => {
    for (let i = 0; i < 20; i++) {
      const corners = [0, 1, 2].map((k) => {
        const angle = (k + 0.3 * random()) * ((2 * Math.PI) / 3) + i;
        return { x: 50 * Math.cos(angle), y: 50 * Math.sin(angle) };
      });
      const [a, b, c] = corners.map((_, k) => {
        const [one, other] = [corners[(k + 1) % 3], corners[(k + 2) % 3]];
        return Math.hypot(one.x - other.x, one.y - other.y);
      });
      const [one, two, three] = corners;
      const twice = Math.abs((two.x - one.x) * (three.y - one.y) - (two.y - one.y) * (three.x - one.x));
      const stack = within(...corners.flatMap(({ x, y }) => [x, y]));
      const grown = grownCircle(stack, 16 * random() - 8, 16 * random() - 8, 200, 0);
      expect(grown.radiusMm).toBeCloseTo(twice / (a + b + c), 9);
    }
  });
});

// Its reach doubles, so that the way to the middle takes as many moves on any scale, and few.
test('moves as often on a large scale as on a small one', () => {
  const looks = [30, 300, 1000].map((radius) => {
    const ring = curve(720, (t) => [radius * Math.cos(2 * Math.PI * t), radius * Math.sin(2 * Math.PI * t)]);
    const alone = aloneOf(rowOf([ring], 5000));
    let count = 0;
    const counted = {
      ...alone,
      get only() {
        count++;
        return alone.only;
      },
    };
    const { radiusMm } = grownCircle(counted, 0.5 * radius, 0.8 * radius, radius / 1000);
    expect(Math.abs(radiusMm / radius - 1)).toBeLessThan(1e-4);
    return count;
  });
  expect(looks).toEqual(looks.map(() => looks[0]));
  expect(looks[0]).toBeLessThan(100);
});

// A wall to a sector, at right angles to the way to the nearest place in it; of all places that three walls leave the same room,
// and no wall less, the roomiest.
test('the first move is the best one among the walls around, whatever lies behind them', () => {
  let moved = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const random = generator(seed);
    const around = (least: number, most: number) => {
      const [angle, off] = [2 * Math.PI * random(), least + (most - least) * random()];
      return [50 + off * Math.cos(angle), 50 + off * Math.sin(angle)] as const;
    };
    // Short and long ones around an open middle.
    const dashes = Array.from({ length: 80 }, () => {
      const [x, y] = around(25, 50);
      const most = 2 + 30 * random() ** 3;
      return [x, y, x + most * (random() - 0.5), y + most * (random() - 0.5)] as const;
    });
    const segments = [...dashes, ...frame];
    const stack = aloneOf(
      rowOf(
        segments.map((segment) => points(...segment)),
        1000,
      ),
    );
    const [x, y] = around(0, 25);
    const at = { x, y };
    const nearest = new Map<number, Point & { mm: number }>();
    for (const segment of segments) {
      const foot = nearestOn(segment, at);
      const sector = Math.floor((Math.atan2(foot.y - at.y, foot.x - at.x) / (2 * Math.PI) + 0.5) * 32);
      if (foot.mm < (nearest.get(sector)?.mm ?? Infinity)) nearest.set(sector, foot);
    }
    const walls = [...nearest.values()].map(({ x, y, mm }) => [(at.x - x) / mm, (at.y - y) / mm, mm]);
    const best = roomiest(walls);
    const room = (x: number, y: number) =>
      Math.min(...segments.map((segment) => nearestOn(segment, { x, y }).mm));
    // Else the reach is cut.
    if (room(at.x + best.x, at.y + best.y) <= room(at.x, at.y)) continue;
    moved++;
    const grown = grownCircle(stack, at.x, at.y, 1000, 0);
    expect(grown.x - at.x, `seed ${seed}`).toBeCloseTo(best.x, 6);
    expect(grown.y - at.y, `seed ${seed}`).toBeCloseTo(best.y, 6);
  }
  expect(moved).toBeGreaterThan(10);
});

const frame = [
  [0, 0, 100, 0],
  [100, 0, 100, 100],
  [100, 100, 0, 100],
  [0, 100, 0, 0],
] as const;

/** Where the room among walls [x, y, mm] is largest, by trying all three of them. */
function roomiest(walls: readonly number[][]): Point {
  let best = { x: 0, y: 0, mm: 0 };
  for (let i = 0; i < walls.length; i++)
    for (let j = 0; j < i; j++)
      for (let k = 0; k < j; k++) {
        const [a, b, c] = [walls[i], walls[j], walls[k]];
        const [px, py, p, qx, qy, q] = [0, 1, 2]
          .map((n) => a[n] - b[n])
          .concat([0, 1, 2].map((n) => a[n] - c[n]));
        const cross = px * qy - py * qx;
        const [x, y] = [(py * q - qy * p) / cross, (qx * p - px * q) / cross];
        const mm = a[2] + a[0] * x + a[1] * y;
        if (mm > best.mm && walls.every((wall) => wall[2] + wall[0] * x + wall[1] * y >= mm - 1e-9))
          best = { x, y, mm };
      }
  return best;
}

// Long lines every which way: the boxes they lie in are large, and reach over many directions.
test('among lines that cross everywhere no place around the circle has more room', () => {
  for (let seed = 1; seed <= 12; seed++) {
    const random = generator(seed);
    const strokes = Array.from({ length: 40 }, () => points(...[1, 1, 1, 1].map(() => 200 * random())));
    const motif = { strokes, repeatMm: 200, middleXMm: 100 };
    const stack = stackOf(rowOfCase(motif), 'straight', 200);
    for (let i = 0; i < 8; i++) {
      const { x, y, radiusMm } = grownCircle(stack, 200 * random(), 200 * random(), 20 * random());
      const room = roomAbout(motif, 'straight', 200, { x, y }, radiusMm + 1);
      for (const step of [0.02, 0.2])
        for (let turn = 0; turn < 2 * Math.PI; turn += Math.PI / 8)
          expect(room({ x: x + step * Math.cos(turn), y: y + step * Math.sin(turn) })).toBeLessThan(
            radiusMm + 0.002,
          );
    }
  }
});

test('what lies level with the top or the bottom of a row is outside of it, and nothing of rows without end is', () => {
  const row = rowOf([points(0, -5, 10, 30)], 20);
  expect([-6, -5, -4.9, 29.9, 30, 31].map((y) => isOutside(aloneOf(row), y))).toEqual([
    true,
    true,
    false,
    false,
    true,
    true,
  ]);
  expect([-6, -5, 0, 30, 31].map((y) => isOutside(stackOf(row, 'straight', 40), y))).toEqual(
    Array(5).fill(false),
  );
});

describe('among random lines', () => {
  test.each(layouts)(
    '%s: it is empty, no smaller than where it began, and no place around has more room',
    (layout) => {
      for (let seed = 1; seed <= 24; seed++) {
        const motif = seed % 3 === 0 ? randomCase(seed) : randomDashes(seed);
        const random = generator(seed);
        const row = rowOfCase(motif);
        const spacing = (0.5 + random()) * row.heightMm;
        const stack = stackOf(row, layout, spacing);
        const [startX, startY] = [motif.repeatMm * random(), spacing * random()];
        const { x, y, radiusMm } = grownCircle(stack, startX, startY, 6 * random());
        const room = roomAbout(motif, layout, spacing, { x, y }, radiusMm + 1);
        expect(radiusMm).toBeCloseTo(room({ x, y }), 9);
        expect(radiusMm).toBeGreaterThanOrEqual(distanceToStack(stack, startX, startY));
        for (const step of [0.02, 0.2])
          for (let turn = 0; turn < 2 * Math.PI; turn += Math.PI / 8) {
            const around = room({ x: x + step * Math.cos(turn), y: y + step * Math.sin(turn) });
            expect(around, `seed ${seed}, ${turn}`).toBeLessThan(radiusMm + 0.002);
          }
      }
    },
  );
});

test('from a place on a line as well, there is no less room than none', () => {
  const cross = aloneOf(rowOf([points(0, 0, 20, 20), points(20, 0, 0, 20)], 50));
  for (const [x, y] of [
    [10, 10],
    [5, 5],
    [0, 0],
  ]) {
    const grown = grownCircle(cross, x, y, 1);
    expect(Number.isFinite(grown.x + grown.y)).toBe(true);
    expect(grown.radiusMm).toBeGreaterThanOrEqual(0);
  }
  // Off a curve there is some.
  const ring = aloneOf(
    rowOf([curve(72, (t) => [30 * Math.cos(2 * Math.PI * t), 30 * Math.sin(2 * Math.PI * t)])], 1000),
  );
  expect(grownCircle(ring, 30, 0, 5).radiusMm).toBeGreaterThan(1);
});

describe('it is given up', () => {
  // Between the legs of a zigzag there is more and more room, above it or below it without end.
  test.each([
    [0, 40],
    [40, 0],
  ])('where it leaves a row of its own for the open', (mouth, floor) => {
    const zigzag = aloneOf(rowOf([points(0, mouth, 10, floor, 20, mouth)], 20));
    const grown = grownCircle(zigzag, 9.5, 20, 4);
    expect(grown.radiusMm).toBeGreaterThan(distanceToStack(zigzag, 9.5, 20));
    expect(Math.abs(grown.y - 20)).toBeLessThan(40);
  });
  test('where it is larger than is wanted, at once', () => {
    const ring = curve(720, (t) => [
      50 + 30 * Math.cos(2 * Math.PI * t),
      50 + 30 * Math.sin(2 * Math.PI * t),
    ]);
    const stack = aloneOf(rowOf([ring], 1000));
    const { radiusMm } = grownCircle(stack, 25, 50, 1, 8);
    expect(radiusMm).toBeGreaterThan(8);
    expect(radiusMm).toBeLessThan(20);
  });
});
