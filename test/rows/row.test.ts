/** The row itself: its measures, which of its points are looked at, and what is kept of it. */
import { describe, expect, test, vi } from 'vitest';
import { layouts } from '../../shared/layout.js';
import { defaultLimits, defaultSetup } from '../../shared/setup.js';
import type { Study } from '../../shared/study.js';
import { lengthOf } from '../../src/geometry/polyline.js';
import { placementOf, repeatsOf, rowOf, rowOfMotif } from '../../src/rows/index.js';
import { kindsOfSeam } from '../../src/rows/layout.js';
import { perRow, perRowAnd, strokesLookedAt } from '../../src/rows/row.js';
import { distanceTo } from '../checked.js';
import { curve, points } from './lines.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

describe('a row', () => {
  const strokes = [points(10, 5, 40, 25), points(60, 5, 70, 5)];
  test('has the measures of its strokes together', () => {
    expect(rowOf(strokes, 50)).toMatchObject({
      repeatMm: 50,
      // The middle of a repeat that begins at the left edge.
      middleXMm: 35,
      box: { minX: 10, minY: 5, maxX: 70, maxY: 25 },
      heightMm: 20,
      lengthMm: Math.hypot(30, 20) + 10,
    });
    expect(rowOf(strokes, 50, 42).middleXMm).toBe(42);
  });
  test('of a motif without width has repeats of a millimetre', () => {
    const upright = [points(5, 0, 5, 30)];
    expect(rowOf(upright, 0).repeatMm).toBe(1);
    expect(rowOf(upright, 0.01).repeatMm).toBe(1);
    expect(rowOf(upright, 0.02).repeatMm).toBe(0.02);
    expect(rowOf(upright, -20).repeatMm).toBe(1);
  });
  // 60 mm wide, every 6 mm: ten repeats over one another.
  test('is refused where too many repeats overhang one another', () => {
    expect(rowOf(strokes, 6, undefined, 10).repeatMm).toBe(6);
    expect(() => rowOf(strokes, 5.99, undefined, 10)).toThrow(
      'More than 10 repeats of the motif overhang one another: the repeat is far too narrow for its width.',
    );
    const most = defaultLimits.overhangingRepeats;
    const wide = [points(0, 0, 1e6, 0)];
    expect(rowOf(wide, 1e6 / (most - 1)).strokes).toBe(wide);
    expect(() => rowOf(wide, 1e6 / (most + 1))).toThrow('overhang one another');
  });
  test('is refused where there is no line of any length', () => {
    for (const none of [[], [points()], [points(5, 5)], [points(5, 5, 5, 5), points(9, 9)]])
      for (const repeatMm of [100, 0])
        expect(() => rowOf(none, repeatMm)).toThrow('There is no line to make rows of, only dots.');
    expect(rowOf([points(5, 5), points(0, 0, 50, 0)], 50).lengthMm).toBe(50);
  });
  test('of a study turns about halfway between start and end, where the line leads across', () => {
    const study = (assumed: boolean, overhangingRepeats = 1000) =>
      ({
        strokes,
        repeat: { dx: 50, dy: 3, assumed },
        start: { at: { x: 12, y: 0 } },
        end: { at: { x: 62, y: 3 } },
        setup: { ...defaultSetup, limits: { ...defaultLimits, overhangingRepeats } },
      }) as unknown as Study;
    expect(rowOfMotif(study(false))).toMatchObject({ repeatMm: 50, middleXMm: 37 });
    expect(rowOfMotif(study(true))).toMatchObject({ repeatMm: 50, middleXMm: 35 });
    expect(() => rowOfMotif(study(true, 1))).toThrow('More than 1 repeats');
  });
});

describe('of its points are looked at', () => {
  /** A wave of about 240 mm. */
  const wave = (steps: number) => curve(steps, (t) => [200 * t, 30 * Math.sin(2 * Math.PI * t)]);
  test('all, where they are not too many', () => {
    const row = rowOf([wave(49_990)], 200);
    expect(strokesLookedAt(row)).toBe(row.strokes);
  });
  test('as many as the shape needs where there are 50,000 and more in tiny steps, to 0.01 mm', () => {
    const [drawn, other] = [wave(50_000), points(0, 40, 200, 40)];
    const looked = strokesLookedAt(rowOf([drawn, other], 200));
    expect(looked).toHaveLength(2);
    expect(looked[0].length).toBeLessThan(2000);
    expect(looked[1]).toEqual(other);
    for (let i = 0; i < drawn.length; i += 1000)
      expect(distanceTo(looked[0], { x: drawn[i], y: drawn[i + 1] })).toBeLessThanOrEqual(0.01 + 1e-9);
  });
  test('all of many in long steps', () => {
    // 60,000 steps of 1 mm.
    const zigzag = points(...Array.from({ length: 60_001 }, (_, i) => [200 * (i / 60_000), i % 2]).flat());
    expect(lengthOf(zigzag)).toBeGreaterThan(60_000);
    const row = rowOf([zigzag], 200);
    expect(strokesLookedAt(row)).toBe(row.strokes);
  });
});

test('what was worked out for a row is kept with it, for each choice of arguments', () => {
  const [one, other] = [rowOf([points(0, 0, 50, 0)], 50), rowOf([points(0, 0, 50, 0)], 50)];
  let made = 0;
  const alone = perRow((row) => ({ row, number: made++ }));
  expect(alone(one)).toBe(alone(one));
  expect(alone(one)).toMatchObject({ row: one, number: 0 });
  expect(alone(other)).toMatchObject({ row: other, number: 1 });
  const chosen = perRowAnd((row, a: number, b: number) => ({ row, a, b, number: made++ }));
  expect(chosen(one, 1, 11)).toBe(chosen(one, 1, 11));
  expect(chosen(one, 1, 11)).toMatchObject({ row: one, a: 1, b: 11 });
  expect(chosen(one, 11, 1)).toMatchObject({ a: 11, b: 1 });
  expect(chosen(other, 1, 11)).toMatchObject({ row: other });
  expect(made).toBe(5);
});

test('after one or two rows, no sooner, a stack looks the same again but for a shift', () => {
  const row = rowOf([points(10, 0, 60, 30)], 50);
  for (const layout of layouts) {
    /** How row `index` lies to row `from`: on its head or not, and how far to the right of a repeat. */
    const lies = (from: number, index: number) => {
      const [one, other] = [from, index].map((each) => placementOf(row, layout, 40, each));
      const right = one.signX * (other.dx - one.dx);
      return `${one.signX * other.signX} ${one.signY} ${other.signY} ${((right % 50) + 50) % 50}`;
    };
    const sameAfter = [1, 2].find((rows) => lies(0, 1) === lies(rows, rows + 1));
    expect(kindsOfSeam(layout)).toBe(sameAfter);
  }
});

describe('the repeats of a row in a picture', () => {
  const row = rowOf([points(10, 0, 60, 30)], 50);
  const lie = (layout: 'straight' | 'brick' | 'mirrored' | 'turned', index: number, middleXMm?: number) =>
    repeatsOf(middleXMm === undefined ? row : rowOf(row.strokes, 50, middleXMm), layout, 40, index, 3);
  test('begin with the motif itself, and half a repeat on', () => {
    for (const layout of ['straight', 'brick', 'mirrored', 'turned'] as const)
      expect(lie(layout, 0)).toEqual([0, 50, 100].map((dx) => ({ signX: 1, signY: 1, dx, dy: 0 })));
    expect(lie('straight', 1)).toEqual([0, 50, 100].map((dx) => ({ signX: 1, signY: 1, dx, dy: 40 })));
    expect(lie('brick', 1)).toEqual([25, 75, 125].map((dx) => ({ signX: 1, signY: 1, dx, dy: 40 })));
    // Flipped about the middle height, 15: y goes to 30 - y, and 40 down.
    expect(lie('mirrored', 1)).toEqual([25, 75, 125].map((dx) => ({ signX: 1, signY: -1, dx, dy: 70 })));
  });
  // Turned about x = 35 the motif covers 10 to 60 again, x going to 70 - x; three repeats cover 10 to 160.
  test('turned cover the same stretch', () => {
    const dxs = (middleXMm?: number) => lie('turned', 1, middleXMm).map(({ dx }) => dx);
    expect(dxs().sort((a, b) => a - b)).toEqual([70, 120, 170]);
    expect(lie('turned', 1)[0]).toMatchObject({ signX: -1, signY: -1, dy: 70 });
    // About x = 60 it would cover 60 to 110: it slid by a repeat, and is taken back by one.
    expect(dxs(60).sort((a, b) => a - b)).toEqual([70, 120, 170]);
    expect(dxs(10).sort((a, b) => a - b)).toEqual([70, 120, 170]);
  });
});
