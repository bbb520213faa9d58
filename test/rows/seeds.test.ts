/** Places that circles are grown from, held against all circles through three samples (Delaunay's definition). */
import { describe, expect, test, vi } from 'vitest';
import { layouts } from '../../shared/layout.js';
import { rowsAt } from '../../src/rows/index.js';
import { rowsTouched } from '../../src/rows/open-circles.js';
import { samplesAround } from '../../src/rows/samples.js';
import { seamSeeds, seamsOf, seedsIn } from '../../src/rows/seeds.js';
import { aloneOf, type Stack, stackOf } from '../../src/rows/stack.js';
import { curve, generator, points, randomDashes, rowOfCase, shiftedCase } from './lines.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

type Window = Parameters<typeof seedsIn>[1];

interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radiusMm: number;
}

/**
 * The circles through three samples that hold no other, have their centre in the window and are held all around: no arc
 * free of a sample is much wider than a half circle (an angle of the triangle with a cosine of -0.1 at most).
 */
function heldBySamples(
  stack: Stack,
  window: Window,
  step: number,
  leastMm: number,
  marginMm: number,
): Circle[] {
  const p = samplesAround(stack, window, step, marginMm)!;
  const count = p.length / 2;
  const { leftMm, rightMm, topMm, bottomMm } = window;
  const circles: Circle[] = [];
  const cosineAt = (a: number, b: number, c: number) => {
    const [ux, uy, vx, vy] = [
      p[2 * b] - p[2 * a],
      p[2 * b + 1] - p[2 * a + 1],
      p[2 * c] - p[2 * a],
      p[2 * c + 1] - p[2 * a + 1],
    ];
    return (ux * vx + uy * vy) / Math.hypot(ux, uy) / Math.hypot(vx, vy);
  };
  for (let a = 0; a < count; a++)
    for (let b = 0; b < a; b++)
      for (let c = 0; c < b; c++) {
        const [ax, ay] = [p[2 * a], p[2 * a + 1]];
        const [bx, by, cx, cy] = [p[2 * b] - ax, p[2 * b + 1] - ay, p[2 * c] - ax, p[2 * c + 1] - ay];
        const twice = 2 * (bx * cy - by * cx);
        const [bb, cc] = [bx * bx + by * by, cx * cx + cy * cy];
        const [x, y] = [ax + (cy * bb - by * cc) / twice, ay + (bx * cc - cx * bb) / twice];
        if (!(x >= leftMm && x <= rightMm && y >= topMm && y <= bottomMm)) continue;
        const radiusMm = Math.hypot(x - ax, y - ay);
        if (2 * radiusMm < leastMm) continue;
        if (Math.min(cosineAt(a, b, c), cosineAt(b, c, a), cosineAt(c, a, b)) < -0.1) continue;
        let isEmpty = true;
        for (let i = 0; i < count && isEmpty; i++)
          isEmpty = Math.hypot(p[2 * i] - x, p[2 * i + 1] - y) > radiusMm - 1e-7;
        if (isEmpty) circles.push({ x, y, radiusMm });
      }
  return circles;
}

const told = (circles: readonly Circle[]) =>
  circles.map(({ x, y, radiusMm }) => [x, y, radiusMm].map((v) => v.toFixed(5)).join(' ')).sort();

describe.each(layouts)('in %s rows', (layout) => {
  test('they are the circles held by three samples with none inside, the largest first', () => {
    for (let seed = 1; seed <= 10; seed++) {
      const motif = shiftedCase(randomDashes(seed), seed % 2 ? 0 : -170);
      const random = generator(seed);
      const row = rowOfCase(motif);
      const stack = seed % 5 ? stackOf(row, layout, (0.5 + random()) * row.heightMm) : aloneOf(row);
      const [leftMm, topMm] = [300 * random() - 150, seed % 5 ? 200 * random() - 100 : row.box.minY];
      const window = { leftMm, topMm, rightMm: leftMm + 50 * random(), bottomMm: topMm + 30 };
      const [step, leastMm] = [8, 24 * random()];
      const seeds = seedsIn(stack, window, step, leastMm);
      // Samples farther around than any of these circles reaches.
      const reach = 5 + Math.max(35, ...seeds.map(({ radiusMm }) => radiusMm));
      const all = heldBySamples(stack, window, step, leastMm, reach);
      expect(told(seeds), `seed ${seed}`).toEqual(told(all));
      const radii = seeds.map(({ radiusMm }) => radiusMm);
      expect(radii).toEqual(radii.toSorted((one, other) => other - one));
    }
  });
});

describe.each(layouts)('between %s rows', (layout) => {
  const loose = Array.from({ length: 12 }, (_, i) => {
    const random = generator(i);
    const row = rowOfCase(shiftedCase(randomDashes(i + 1), 300 * random() - 150));
    return stackOf(row, layout, (0.5 + random()) * row.heightMm);
  });
  // Ten lines a row, 6 mm apart or so: seams are looked for in a narrow band of it.
  const dense = Array.from({ length: 4 }, (_, i) => {
    const random = generator(i + 70);
    const strokes = Array.from({ length: 10 }, (_, k) =>
      points(...Array.from({ length: 7 }, (_, j) => [10 * j, 6 * k + 3 * random() - 95]).flat()),
    );
    return stackOf(rowOfCase({ strokes, repeatMm: 60, middleXMm: 31 }), layout, 50 + 12 * random());
  });
  const stacks = [...loose, ...dense];
  const kinds = layout === 'straight' || layout === 'brick' ? 1 : 2;

  test('all circles that touch two are seeded, wherever in a period of the pattern they lie', () => {
    for (const stack of stacks) {
      const { box, repeatMm } = stack.row;
      const [leftMm, topMm] = [box.minX + 7, box.minY - 11];
      const period = { leftMm, topMm, rightMm: leftMm + repeatMm, bottomMm: topMm + kinds * stack.spacingMm };
      const radii = (seeds: readonly Circle[]) =>
        new Set(
          seeds
            .filter((circle) => rowsTouched(stack, circle).length > 1)
            .map(({ radiusMm }) => radiusMm.toFixed(6)),
        );
      const between = radii(seamSeeds(stack, seamsOf(stack), 5, 4));
      for (const radius of radii(seedsIn(stack, period, 5, 4))) expect(between).toContain(radius);
    }
  });

  // A circle no larger than the room that touches, to a hundredth of a millimetre, what lies above a seam and what lies below.
  test('the windows are as high as where circles about a seam may lie, and no higher', () => {
    let narrow = 0;
    for (const stack of stacks) {
      const { windows, roomMm } = seamsOf(stack);
      const { minX, minY, maxY } = stack.row.box;
      const [fromMm, toMm] = [minY + stack.spacingMm - roomMm - 0.01, maxY + roomMm + 0.01];
      const isNarrow = toMm - fromMm < stack.spacingMm;
      if (isNarrow) narrow++;
      // Else all of the period.
      expect(windows).toHaveLength(isNarrow ? kinds : 1);
      windows.forEach(({ leftMm, rightMm, topMm, bottomMm }, k) => {
        expect([leftMm, rightMm]).toEqual([minX, minX + stack.row.repeatMm]);
        expect(topMm).toBeCloseTo(isNarrow ? fromMm + (k - 1) * stack.spacingMm : minY, 9);
        expect(bottomMm - topMm).toBeCloseTo(isNarrow ? toMm - fromMm : kinds * stack.spacingMm, 9);
      });
    }
    expect(narrow).toBeGreaterThan(3);
  });

  // Right to an eighth of the room; a little is allowed for what is rounded.
  test('the room is that of the largest circle or little more', () => {
    for (const stack of stacks) {
      const { roomMm } = seamsOf(stack);
      const largestMm = rowsAt(stack.row, layout, stack.spacingMm).largestOpenMm / 2;
      expect(roomMm).toBeGreaterThan(largestMm - 0.05);
      // Of many lines so fine a bound would take too many looks.
      if (loose.includes(stack)) expect(roomMm).toBeLessThan(1.2 * largestMm);
    }
  });
});

// A comb 1000 mm deep with teeth 10 mm wide, rows 1 mm apart: of 42,000,000 places looked at hardly any lie in the window.
test('where the step asked for is too fine a wider one is taken', () => {
  const comb = Array.from({ length: 21 }, (_, i) => [5 * i, i % 2 ? 1000 : 0]).flat();
  const row = rowOfCase({ strokes: [points(...comb)], repeatMm: 100, middleXMm: 50 });
  const window = { leftMm: 0, rightMm: 10, topMm: 500, bottomMm: 503 };
  const seeds = seedsIn(stackOf(row, 'straight', 1), window, 1, 0);
  expect(seeds.length).toBeGreaterThan(0);
  for (const { radiusMm } of seeds) expect(radiusMm).toBeLessThan(5);
});

// Where ends nearly meet two samples lie next to one another, and hold no circle between them.
test('in a triangle of strokes that nearly meet are those of one whose ends meet', () => {
  const seedsOf = (offMm: number) => {
    const strokes = [points(0, 0, 80, 0), points(80, offMm, 40, 60), points(40, 60 + offMm, 0, offMm)];
    const alone = aloneOf(rowOfCase({ strokes, repeatMm: 500, middleXMm: 0 }));
    return seedsIn(alone, { leftMm: 0, rightMm: 80, topMm: 0, bottomMm: 60 }, 4, 0);
  };
  const [met, ...near] = [0, 1e-9, 3e-6].map(seedsOf);
  for (const each of near) expect(told(each)).toEqual(told(met));
  const incircle = (80 * 60) / (80 + 2 * Math.hypot(40, 60));
  expect(Math.abs(met[0].radiusMm - incircle)).toBeLessThan(0.5);
});

// One on the edge of a window may be put outside it by rounding, on one side and on the next window's.
test('a circle on the edge of a window, but for rounding, is in it', () => {
  const triangle = [points(0, 0, 80, 0, 40, 60, 0, 0)];
  const alone = aloneOf(rowOfCase({ strokes: triangle, repeatMm: 500, middleXMm: 0 }));
  const whole = { leftMm: 0, rightMm: 80, topMm: 0, bottomMm: 60 };
  const [largest] = seedsIn(alone, whole, 4, 0);
  for (const [edge, at, out] of [
    ['leftMm', largest.x, 1],
    ['rightMm', largest.x, -1],
    ['topMm', largest.y, 1],
    ['bottomMm', largest.y, -1],
  ] as const) {
    const cut = (offMm: number) =>
      seedsIn(alone, { ...whole, [edge]: at + out * offMm }, 4, 0).map(({ radiusMm }) => radiusMm.toFixed(6));
    expect(cut(1e-9), edge).toContain(largest.radiusMm.toFixed(6));
    expect(cut(0.1), edge).not.toContain(largest.radiusMm.toFixed(6));
  }
});

// Lines 3 mm apart but for a ring of 30 mm, whose middle lies in a corner of the window: what is around it lies outside.
test.each([
  [98, 98],
  [98, 2],
  [2, 98],
  [2, 2],
])('in a window whose one corner is open, at %d, %d, the largest is there', (x, y) => {
  const strokes = [
    curve(72, (t) => [x + 30 * Math.cos(2 * Math.PI * t), y + 30 * Math.sin(2 * Math.PI * t)]),
  ];
  for (let level = -60; level <= 160; level += 3) {
    const half = Math.sqrt(Math.max(0, 30 ** 2 - (level - y) ** 2));
    strokes.push(points(-160, level, x - half - 0.5, level), points(x + half + 0.5, level, 260, level));
  }
  const alone = aloneOf(rowOfCase({ strokes, repeatMm: 1000, middleXMm: 0 }));
  const [largest] = seedsIn(alone, { leftMm: 0, rightMm: 100, topMm: 0, bottomMm: 100 }, 4, 8);
  for (const [mm, expected] of [
    [largest.x, x],
    [largest.y, y],
    [largest.radiusMm, 30],
  ])
    expect(Math.abs(mm - expected)).toBeLessThan(0.1);
});

test('on another scale they are the same', () => {
  const seeds = (times: number) => {
    const strokes = [points(0, 0, 80, 0, 40, 60, 0, 0), points(20, 9, 40, 35, 60, 12)].map((line) =>
      line.map((mm) => mm * times),
    );
    const alone = aloneOf(rowOfCase({ strokes, repeatMm: 5000 * times, middleXMm: 0 }));
    const window = { leftMm: 0, rightMm: 80 * times, topMm: 0, bottomMm: 60 * times };
    return told(
      seedsIn(alone, window, 4 * times, 6 * times).map((seed) => ({
        x: seed.x / times,
        y: seed.y / times,
        radiusMm: seed.radiusMm / times,
      })),
    );
  };
  expect(seeds(1).length).toBeGreaterThan(5);
  for (const times of [1 / 512, 32]) expect(seeds(times)).toEqual(seeds(1));
});
