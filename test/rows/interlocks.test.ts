/** Spacings below the closest at which rows still clear each other, worked out by hand and held against jsts. */
import { describe, expect, test } from 'vitest';
import { type Layout, layouts } from '../../shared/layout.js';
import { placeAlong, runningLengths } from '../../src/geometry/polyline.js';
import { nest, rowOf } from '../../src/rows/index.js';
import { type Case, leastDistance } from './jts.js';
import { curve, points, randomCase, randomDashes, rowOfCase } from './lines.js';

const P = 200;

describe('a mushroom that fits into a bay', () => {
  // The mushroom stands at 50: its head, from 0 to 6 below the top and from 38 to 62, on a stem from 47 to 53, rises
  // from a level line at 60. The bay hangs at 150, half a repeat on: a hall from 20 to 50 below the top, from 120 to
  // 180, under a mouth from 140 to 160 in the level line.
  const mushroom: Case = {
    strokes: [
      points(
        ...[0, 60, 47, 60, 47, 6, 38, 6, 38, 0, 62, 0, 62, 6, 53, 6, 53, 60],
        ...[140, 60, 140, 50, 120, 50, 120, 20, 180, 20, 180, 50, 160, 50, 160, 60, 200, 60],
      ),
    ],
    repeatMm: P,
    middleXMm: P / 2,
  };
  const interlocksOf = (layout: Layout, clearanceMm: number) =>
    nest(rowOf(mushroom.strokes, P), layout, clearanceMm).interlocksMm;

  // Brick puts the next row's mushroom under the bay. At spacing s the head reaches from s to s + 6: it clears the
  // hall, whose roof is at 20 and whose floor is at 50, while s >= 20 + c and s + 6 <= 50 - c. The head is wider
  // than the mouth, the stem narrower by 7 on each side. But the next row's level line, at s + 60, must clear what
  // hangs down: nothing does below 60; and its own hall's roof, at s + 20 and 20 to 80 sideways, lies under this row's
  // mushroom at 50: its head, from 0, is above it, its stem comes down to the line at 60 that runs on to either side:
  // the roof must be c below that, s + 20 >= 60 + c. So from 40 + c to 44 - c.
  test.each([0.5, 1, 1.5])('brick, clearance %d: from 40 + c to 44 - c', (c) => {
    const interlocks = interlocksOf('brick', c);
    expect(interlocks).toHaveLength(1);
    expect(interlocks[0][0]).toBeCloseTo(40 + c, 6);
    expect(interlocks[0][1]).toBeCloseTo(44 - c, 6);
  });

  test('brick, clearance 2.5: no room any more', () => expect(interlocksOf('brick', 2.5)).toEqual([]));

  // Right above each other a head and the bay never meet, and the line at 60 comes down on the next head.
  test('straight: none', () => expect(interlocksOf('straight', 1)).toEqual([]));

  test('jsts agrees at both ends and in the middle', () => {
    const [[from, to]] = interlocksOf('brick', 1);
    // jsts 2.12, DistanceOp
    expect(leastDistance(mushroom, 'brick', from)).toBeCloseTo(1, 6);
    expect(leastDistance(mushroom, 'brick', to)).toBeCloseTo(1, 6);
    expect(leastDistance(mushroom, 'brick', (from + to) / 2)).toBeGreaterThan(1);
    expect(leastDistance(mushroom, 'brick', from - 0.01)).toBeLessThan(1);
    expect(leastDistance(mushroom, 'brick', to + 0.01)).toBeLessThan(1);
  });
});

describe('two level lines 10 mm apart', () => {
  // Rows k apart are k s lower. With clearance 3 each of their lines must be 3 away from each line above:
  // k s and |k s - 10| both at least 3. k = 1: 3 to 7; k = 2 leaves, of that, 3 to 3.5 and 6.5 to 7; k = 3 forbids 3s
  // from 7 to 13, that is 2.33 to 4.33. What stays is 6.5 to 7, where 2s is 13 and more. Rows two apart decide it.
  const lines = rowOf([points(0, 0, P, 0), points(0, 10, P, 10)], P);
  test.each(layouts)('%s: from 6.5 to 7', (layout) => {
    const { interlocksMm, closestSpacingMm } = nest(lines, layout, 3);
    expect(closestSpacingMm).toBeCloseTo(13, 9);
    expect(interlocksMm).toHaveLength(1);
    expect(interlocksMm[0][0]).toBeCloseTo(6.5, 6);
    expect(interlocksMm[0][1]).toBeCloseTo(7, 6);
  });

  // In the same way d mm apart: from (d + 3) / 2 to d - 3, (d - 9) / 2 mm in all.
  test('a way through that cannot be set, a thousandth of a millimetre and less, is none', () => {
    const widthMm = (d: number) => {
      const { interlocksMm } = nest(rowOf([points(0, 0, P, 0), points(0, d, P, d)], P), 'straight', 3);
      return interlocksMm.map(([from, to]) => to - from);
    };
    expect(widthMm(9.0016)).toEqual([]);
    expect(widthMm(9.004)).toEqual([expect.closeTo(0.002, 6)]);
  });
});

// In brick rows short dashes pass their neighbours by, so rows 2, 4, 6, … apart decide: of two dashes 20 mm apart one over
// the other, with clearance 3, each even number k asks that k s is 3 at least and not from 17 to 23. k = 2 leaves 1.5 to
// 8.5, k = 4 takes 4.25 to 5.75 of it, k = 6 takes 2.83 to 3.83, and 8, 10 and 12 what is below.
test('short dashes in brick rows: from 23/6 to 17/4 and from 23/4 to 17/2, down to near the clearance', () => {
  const dashes = rowOf([points(0, 0, 20, 0), points(0, 20, 20, 20)], 100);
  const { interlocksMm, closestSpacingMm } = nest(dashes, 'brick', 3);
  expect(closestSpacingMm).toBeCloseTo(23 / 2, 9);
  const found = [
    [23 / 6, 17 / 4],
    [23 / 4, 17 / 2],
  ];
  expect(interlocksMm).toEqual(found.map((ends) => ends.map((mm) => expect.closeTo(mm, 6))));
});

// In the same way 21 mm apart with clearance 0.5: every even k takes from 20.5 / k to 21.5 / k. Closer than 1 mm no rows are
// set, though k = 22 would leave what is from 21.5 / 22 up.
test('short dashes in brick rows: none from below 1 mm', () => {
  const dashes = rowOf([points(0, 0, 20, 0), points(0, 21, 20, 21)], 100);
  const found = [[1, 20.5 / 20]];
  for (let k = 20; k > 2; k -= 2) found.push([21.5 / k, 20.5 / (k - 2)]);
  expect(nest(dashes, 'brick', 0.5).interlocksMm).toEqual(
    found.map((ends) => ends.map((mm) => expect.closeTo(mm, 6))),
  );
});

test('random lines: everywhere below the closest spacing jsts says the same', () => {
  for (let seed = 3000; seed < 3040; seed++) {
    const motif = randomCase(seed);
    const layout = layouts[seed % layouts.length];
    const { interlocksMm, closestSpacingMm } = nest(rowOfCase(motif), layout, 1);
    for (let k = 1; k < 40; k++) {
      const spacing = (k / 40) * closestSpacingMm;
      const inside = interlocksMm.some(([from, to]) => spacing > from + 1e-6 && spacing < to - 1e-6);
      // jsts 2.12, DistanceOp; only neighbouring rows: one stroke lies between those farther apart.
      const clear = leastDistance(motif, layout, spacing) >= 1;
      expect(inside, `seed ${seed}, ${layout}, spacing ${spacing}`).toBe(clear);
    }
  }
});

test('random dashes: at any spacing jsts says the same of rows however far apart', () => {
  let found = 0;
  const tried = Array.from({ length: 32 }, (_, i) => ({ seed: i + 1, clearance: 2 }));
  // Of one in a thousand a pair matters that passes sideways at nearly the clearance.
  for (const { seed, clearance } of [...tried, { seed: 1268, clearance: 6 }]) {
    const motif = randomDashes(seed);
    const layout = layouts[seed % layouts.length];
    const row = rowOfCase(motif);
    const { interlocksMm, closestSpacingMm } = nest(row, layout, clearance);
    // jsts 2.12, DistanceOp; rows whose boxes lie the clearance apart need no look.
    const isClear = (spacing: number) => {
      for (let apart = 1; apart * spacing < row.heightMm + clearance; apart++)
        if (leastDistance(motif, layout, spacing, apart) < clearance) return false;
      return true;
    };
    for (let k = 1; k < 40; k++) {
      const spacing = 1 + (k / 40) * (closestSpacingMm - 1);
      const inside = interlocksMm.some(([from, to]) => spacing > from + 1e-6 && spacing < to - 1e-6);
      expect(inside, `seed ${seed}, ${layout}, spacing ${spacing}`).toBe(isClear(spacing));
    }
    expect(isClear(closestSpacingMm - 1e-5), `seed ${seed}, ${layout}`).toBe(false);
    for (let mm = 1e-5; mm < 20; mm += 1) expect(isClear(closestSpacingMm + mm)).toBe(true);
    found += interlocksMm.length;
  }
  expect(found).toBeGreaterThan(10);
});

// By its definition rows set a hair nearer than the closest spacing are too near: no interlock ends there.
describe('of lines drawn in very many steps', () => {
  const count = 60_000;
  test('none is told right below the closest', () => {
    const coil = curve(count, (t) => {
      const turn = 80 * Math.PI * t;
      return [100 * t + 3 * Math.sin(turn), 3 * Math.cos(turn) + 2 * Math.cos(2 * Math.PI * t + 0.3)];
    });
    for (const layout of layouts)
      for (const clearance of [0, 3])
        expect(nest(rowOf([coil], 100), layout, clearance).interlocksMm).toEqual([]);
  });
  test('those there are stay', () => {
    // A head on a stem, and half a repeat on a hall with a narrower mouth.
    const drawn = points(
      ...[0, 60, 47, 60, 47, 6, 38, 6, 38, 0, 62, 0, 62, 6, 53, 6, 53, 60],
      ...[140, 60, 140, 50, 120, 50, 120, 20, 180, 20, 180, 50, 160, 50, 160, 60, 200, 60],
    );
    const run = runningLengths(drawn);
    const finely = curve(count, (t) => {
      const { x, y } = placeAlong(drawn, run, t * run[run.length - 1]);
      return [x, y];
    });
    const [plain, fine] = [drawn, finely].map((line) => nest(rowOf([line], P), 'brick', 1).interlocksMm);
    expect(plain.length).toBeGreaterThan(0);
    expect(fine).toHaveLength(plain.length);
    for (const [k, interval] of fine.entries())
      for (const end of [0, 1] as const) expect(Math.abs(interval[end] - plain[k][end])).toBeLessThan(0.05);
  });
});
