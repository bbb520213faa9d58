/** Inner and seam circles, each against all circles found by climbing from every place, and where they are said to lie. */
import { describe, expect, test, vi } from 'vitest';
import { layouts } from '../../shared/layout.js';
import { rowsAt } from '../../src/rows/index.js';
import { rowsTouched } from '../../src/rows/open-circles.js';
import { stackOf } from '../../src/rows/stack.js';
import { circlesByClimbing } from './circles-by-climbing.js';
import { distancesToRows, roomAbout, rowsAround } from './laid-out.js';
import {
  curve,
  generator,
  points,
  randomCase,
  randomDashes,
  randomRings,
  rowOfCase,
  shiftedCase,
} from './lines.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

describe.each(layouts)('of %s rows', (layout) => {
  const cases = Array.from({ length: 8 }, (_, i) => {
    const random = generator(i + 1);
    const drawn = i % 2 ? randomDashes(i + 1) : randomRings(i + 1);
    const motif = shiftedCase(drawn, 200 * random() - 100);
    const row = rowOfCase(motif);
    return { motif, row, spacing: (0.5 + random()) * row.heightMm, seed: i + 1 };
  });

  test('the largest of one row, and of two, is as large as any found by climbing', () => {
    let inners = 0;
    for (const { motif, row, spacing, seed } of cases.slice(0, 5)) {
      const { inner, seam } = rowsAt(row, layout, spacing);
      const most = Math.max(inner?.diameterMm ?? 0, seam?.diameterMm ?? 0);
      const held = circlesByClimbing(motif, layout, spacing, most);
      const largest = (isOurs: (rows: number) => boolean) =>
        held.filter(({ rows }) => isOurs(rows)).reduce((mm, { radiusMm }) => Math.max(mm, 2 * radiusMm), 0);
      const [one, two] = [largest((rows) => rows === 1), largest((rows) => rows > 1)];
      // Circles less than a millimetre across are left out.
      if (inner !== null) inners++;
      expect(one, `seed ${seed}`).toBeLessThan((inner?.diameterMm ?? 1) + 0.1);
      expect(two, `seed ${seed}`).toBeLessThan((seam?.diameterMm ?? 1) + 0.1);
    }
    expect(inners).toBeGreaterThan(1);
  });

  test('they touch one row and two, and lie in the first repeat of the top row or below that row', () => {
    for (const { motif, row, spacing, seed } of cases) {
      const { inner, seam } = rowsAt(row, layout, spacing);
      for (const [circle, isInner] of [
        [inner, true],
        [seam, false],
      ] as const) {
        if (circle === null) continue;
        const { centre, diameterMm } = circle;
        const numbers = rowsAround(motif, spacing, centre.y, diameterMm);
        const far = distancesToRows(motif, layout, spacing, centre, diameterMm);
        expect(Math.min(...far), `seed ${seed}`).toBeCloseTo(diameterMm / 2, 6);
        const touched = numbers.filter((_, i) => far[i] < diameterMm / 2 + 0.01);
        if (isInner) expect(touched).toHaveLength(1);
        else expect(touched.length).toBeGreaterThan(1);
        expect(centre.x).toBeGreaterThanOrEqual(row.box.minX);
        expect(centre.x).toBeLessThan(row.box.minX + row.repeatMm);
        expect(touched[0]).toBeGreaterThanOrEqual(0);
        expect(touched[0]).toBeLessThan(layout === 'straight' || layout === 'brick' ? 1 : 2);
      }
    }
  });

  test('the rows that a circle touches are those within a hundredth of a millimetre of its edge', () => {
    for (const { motif, row, spacing, seed } of cases) {
      const random = generator(seed + 99);
      for (let i = 0; i < 12; i++) {
        const at = { x: 200 * random() - 100, y: 200 * random() - 100 };
        const numbers = rowsAround(motif, spacing, at.y, row.heightMm + spacing);
        const far = distancesToRows(motif, layout, spacing, at, row.heightMm + spacing);
        for (const offMm of [-0.009, -0.011, 15]) {
          const radiusMm = Math.min(...far) + offMm;
          const touched = rowsTouched(stackOf(row, layout, spacing), { ...at, radiusMm });
          expect(touched.map((index) => index + 0)).toEqual(
            numbers.filter((_, k) => far[k] < radiusMm + 0.01),
          );
        }
      }
    }
  });
});

// About one stack in a thousand has its largest circle between two rows where they cross, at samples of one of them (the
// first three); in one of three hundred it is not the one grown from the largest seed (the others).
describe('the seam circle is as large as any found by climbing where it is easily missed', () => {
  test.each([
    { motif: randomCase(136), layout: 'straight', share: 0.691 },
    { motif: randomRings(274), layout: 'straight', share: 0.745 },
    { motif: randomRings(292), layout: 'turned', share: 0.752 },
    { motif: randomRings(118), layout: 'mirrored', share: 0.685 },
    { motif: randomRings(118), layout: 'brick', share: 0.685 },
    { motif: randomRings(48), layout: 'brick', share: 0.657 },
  ] as const)('$layout, $share of the height apart', ({ motif, layout, share }) => {
    const row = rowOfCase(motif);
    const spacing = share * row.heightMm;
    const { seam } = rowsAt(row, layout, spacing);
    const held = circlesByClimbing(motif, layout, spacing, row.heightMm);
    const two = held.filter(({ rows }) => rows > 1).map(({ radiusMm }) => 2 * radiusMm);
    expect(Math.abs(seam!.diameterMm - Math.max(...two))).toBeLessThan(0.1);
  });
});

describe('the largest pocket', () => {
  const innerOf = (strokes: Float64Array[], repeatMm: number) =>
    rowsAt(rowOfCase({ strokes, repeatMm, middleXMm: repeatMm / 2 }), 'straight', 1000).inner?.diameterMm ??
    0;

  // What lies on itself has samples in one place, but for rounding.
  test('is the same whichever way a line is walked that runs over itself', () => {
    const drawn = [101, 8, 74, 68, 39, 68, 74, 68, 42, 32, 118, 10, 58, 33, 21, 30, 129, 37];
    // By a grid of places a quarter of a millimetre apart: 36.7.
    expect(innerOf([Float64Array.from(drawn)], 108)).toBeGreaterThan(36.6);
    for (let seed = 1; seed <= 150; seed++) {
      const random = generator(seed * 911);
      const place = () => [Math.round(120 * random()), Math.round(70 * random())];
      const xy = place();
      for (let k = 0; k < 6; k++) {
        const here = xy.slice(-2);
        xy.push(...place());
        if (k % 2) xy.push(...here);
      }
      const back: number[] = [];
      for (let i = xy.length - 2; i >= 0; i -= 2) back.push(xy[i], xy[i + 1]);
      const [one, other] = [xy, back].map((line) => innerOf([Float64Array.from(line)], 125));
      expect(Math.abs(one - other), `seed ${seed}`).toBeLessThan(0.1);
    }
  });

  // Its corners and the middles of its sides lie on circles, for which there are many triangulations.
  test('of regular polygons is the largest circle inscribed in one', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const random = generator(seed * 577);
      let largest = 0;
      const strokes = Array.from({ length: 12 }, (_, k) => {
        const [corners, turn] = [3 + Math.floor(6 * random()), 7 * random()];
        // Of every other set all are nearly as large.
        const inMm = seed % 2 ? 3 + 7 * random() : 8 + random();
        const radius = inMm / Math.cos(Math.PI / corners);
        largest = Math.max(largest, 2 * inMm);
        return curve(corners, (t) => [
          40 * k + radius * Math.cos(turn + 2 * Math.PI * t),
          20 + radius * Math.sin(turn + 2 * Math.PI * t),
        ]);
      });
      // What is open between them is held by two polygons, and so by one row, too.
      expect(innerOf(strokes, 2000), `seed ${seed}`).toBeGreaterThan(largest - 0.1);
    }
  });

  test('is found where it is a millimetre across, and left out where half of one', () => {
    const ringOf = (mm: number) =>
      curve(48, (t) => [
        30 + (mm / 2) * Math.cos(2 * Math.PI * t),
        0.3 + (mm / 2) * (1 + Math.sin(2 * Math.PI * t)),
      ]);
    const of = (mm: number) => innerOf([points(0, 0, 60, 0), ringOf(mm)], 60);
    expect(of(1.2)).toBeCloseTo(1.2 * Math.cos(Math.PI / 48), 3);
    expect(of(0.5)).toBe(0);
  });

  test.each([
    ['above', (y: number) => y],
    ['below', (y: number) => 60 - y],
  ])('is found beside any number of bays that are wider and open %s', (_, upright) => {
    for (const bays of [5, 40]) {
      const comb = [0, 60];
      for (let x = 5; x < 11 * bays; x += 11) comb.push(x, 60, x + 1, 0, x + 2, 0, x + 3, 60);
      const ring = curve(60, (t) => [
        11 * bays + 10 + 3 * Math.sin(2 * Math.PI * t),
        57 + 3 * Math.cos(2 * Math.PI * t),
      ]);
      const line = Float64Array.from([...comb, ...ring, 11 * bays + 20, 60], (mm, i) =>
        i % 2 ? upright(mm) : mm,
      );
      // Between 60 sides.
      expect(innerOf([line], 11 * bays + 20), `${bays} bays`).toBeCloseTo(6 * Math.cos(Math.PI / 60), 2);
    }
  });
});

test('a pocket that another row runs through is none: the next one is', () => {
  const square = (x: number, y: number, mm: number) =>
    points(x, y, x + mm, y, x + mm, y + mm, x, y + mm, x, y);
  const strokes = [square(0, 0, 40), square(15, 45, 10), square(70, 60, 10)];
  const row = rowOfCase({ strokes, repeatMm: 200, middleXMm: 50 });
  // The large square holds a part of that right below, or of the small one in the row above; no row comes near the third.
  for (const [spacing, diameterMm] of [
    [25, 10],
    [54.98, 10],
    [55.02, 40],
    [60, 40],
  ])
    expect(rowsAt(row, 'straight', spacing).inner?.diameterMm).toBeCloseTo(diameterMm, 3);
});

// The wide open middle of the row asks for steps of 10 mm; rows come within 2 mm of each other, along bends of 5 mm or so.
test('the seam circle is found however much smaller it is than what is open in a row', () => {
  for (let seed = 1; seed <= 4; seed++) {
    const random = generator(seed);
    const wavy = (y: number) =>
      points(...Array.from({ length: 25 }, (_, k) => [2.5 * k, y + (k % 24 ? 2 * random() : 1)]).flat());
    const motif = { strokes: [wavy(0), wavy(40)], repeatMm: 60, middleXMm: 30 };
    const row = rowOfCase(motif);
    const spacing = row.heightMm + 0.5;
    const { inner, seam } = rowsAt(row, 'straight', spacing);
    expect(inner!.diameterMm).toBeGreaterThan(35);
    const heightOf = (line: Float64Array, x: number) => {
      const k = Math.floor(x / 2.5);
      return line[2 * k + 1] + (x / 2.5 - k) * (line[2 * k + 3] - line[2 * k + 1]);
    };
    let most = 0;
    for (let x = 0.5; x < 60; x += 1) {
      // Of places half a millimetre to either side.
      const room = roomAbout(motif, 'straight', spacing, { x, y: 41.5 }, 4);
      for (let at = x - 0.5; at < x + 0.5; at += 0.1) {
        const beyond = heightOf(motif.strokes[0], at) + spacing;
        for (let y = heightOf(motif.strokes[1], at); y < beyond; y += 0.1)
          most = Math.max(most, room({ x: at, y }));
      }
    }
    // Between the places of the grid.
    expect(seam!.diameterMm, `seed ${seed}`).toBeGreaterThan(2 * most - 0.1);
    expect(seam!.diameterMm, `seed ${seed}`).toBeLessThan(2 * most + 0.1);
  }
});

// Of a hundred metres of line to a repeat samples lie a millimetre apart.
test('there is a seam circle between rows however dense they are', () => {
  const strokes = Array.from({ length: 100 }, (_, k) => points(0, k / 5, 1000, k / 5));
  const row = rowOfCase({ strokes, repeatMm: 1000, middleXMm: 500 });
  expect(rowsAt(row, 'straight', row.heightMm + 0.7).seam?.diameterMm).toBeCloseTo(0.7, 3);
});

describe('rows set closer than is ever done are looked at as if they stood', () => {
  test('a tenth of a millimetre apart', () => {
    const rows = rowsAt(
      rowOfCase({ strokes: [points(0, 3, 50, 3)], repeatMm: 50, middleXMm: 25 }),
      'straight',
      0.02,
    );
    expect(rows.spacingMm).toBe(0.02);
    expect(rows.seam?.diameterMm).toBeCloseTo(0.1, 4);
    expect(rows.openness).toBeCloseTo(1, 3);
    expect(rows.unevenness).toBeCloseTo(1, 2);
  });
  test('a four-hundredth of their height apart', () => {
    const row = rowOfCase({ strokes: [points(0, 0, 30, 120, 60, 0)], repeatMm: 60, middleXMm: 30 });
    const [nearer, at, farther] = [0.2, 0.3, 0.4].map((spacing) => rowsAt(row, 'straight', spacing));
    for (const fact of ['largestOpenMm', 'openness', 'unevenness'] as const) {
      expect(nearer[fact]).toBe(at[fact]);
      expect(farther[fact]).not.toBe(at[fact]);
    }
  });
});
