/** Closest spacing and open circles of rows whose answer can be worked out with pencil and paper. */
import { describe, expect, test } from 'vitest';
import type { Layout } from '../../shared/layout.js';
import { closestSpacing } from '../../src/rows/closest.js';
import { nest, rowOf, rowsAt } from '../../src/rows/index.js';
import { curve, generator, points } from './lines.js';

const P = 200;
const c = 3;
const exact = 1e-6;

function closest(strokes: Float64Array[], layout: Layout, clearanceMm = c): number {
  return closestSpacing(rowOf(strokes, P), layout, clearanceMm);
}

function expectExact(value: number, expected: number): void {
  expect(Math.abs(value - expected), `${value} against ${expected}`).toBeLessThan(exact);
}

describe('a level line', () => {
  // Two parallel lines keep c apart at spacing c; the largest circle between them is as wide as they are apart.
  const level = [points(0, 0, 70, 0, 200, 0)];
  test.each(['straight', 'brick', 'mirrored', 'turned'] as const)('%s: spacing c, circle c', (layout) => {
    const nesting = nest(rowOf(level, P), layout, c, c);
    expectExact(nesting.closestSpacingMm, c);
    expect(nesting.evenSpacingMm).toBe(nesting.closestSpacingMm);
    expect(nesting.even.inner).toBeNull();
    expect(nesting.even.seam?.diameterMm).toBeCloseTo(c, 3);
    expect(nesting.even.openness).toBeCloseTo(1, 3);
    expectExact(nesting.nestingOffsetMm, -c);
  });
  test('the seam circle is the spacing at any spacing', () => {
    for (const spacing of [0.5, 7, 40]) {
      expect(rowsAt(rowOf(level, P), 'straight', spacing).seam?.diameterMm).toBeCloseTo(spacing, 3);
    }
  });
});

test('rows far deeper than their spacing: a gap on a wave of 2400 by 800', () => {
  // Two copies of a slow wave, s apart downwards, leave circles of diameter s where it is level; so s is the gap.
  const wave = curve(600, (t) => [2400 * t, 400 * Math.sin(2 * Math.PI * t)]);
  expect(nest(rowOf([wave], 2400), 'straight', 3, 25.4).evenSpacingMm).toBeCloseTo(25.4, 0);
}, 60_000);

describe('a zigzag of height 40 and legs of 100 by 40', () => {
  const h = 40;
  const zigzag = [points(0, h / 2, 50, 0, 150, h, 200, h / 2)];
  const a = Math.atan(h / 100);

  // A leg and its copy s lower are parallel, s cos a apart: s cos a = c.
  test('straight: c / cos a', () => expectExact(closest(zigzag, 'straight'), c / Math.cos(a)));

  // Shifted by half a repeat, a lowest point of the upper row lies right over a highest point of the lower row.
  test('brick: the height and c', () => expectExact(closest(zigzag, 'brick'), h + c));

  // Flipped about its middle height the zigzag is itself half a repeat on, and shifted by half a repeat itself again;
  // so it is when turned by half a turn about the middle of a leg.
  test('mirrored and turned: as straight', () => {
    expectExact(closest(zigzag, 'mirrored'), c / Math.cos(a));
    expectExact(closest(zigzag, 'turned'), c / Math.cos(a));
  });

  // Between the row's angle above and the same angle s lower: on the axis of the bend, the circle that touches the
  // lower bend's tip, r above its own centre, and both legs of the upper one, whose tip lies r / cos a from the
  // centre: r + r / cos a = s. Nowhere is it wider: along the legs it is s cos a, which is less.
  test('straight: the seam circle in the bends', () => {
    const s = 30;
    const expected = (2 * s) / (1 + 1 / Math.cos(a));
    expect(rowsAt(rowOf(zigzag, P), 'straight', s).seam?.diameterMm).toBeCloseTo(expected, 2);
  });

  // With no clearance the rows touch along their legs at spacing 0 only.
  test('straight without clearance: 0', () => expectExact(closest(zigzag, 'straight', 0), 0));
});

// A line from (x - 10, 7) by (x, 9) up to (x, 4) and back to (x - 5, 3), and its turned copy about a place from which x
// lies so many half repeats: sideways they share x alone, where the lowest place of the one, 9, meets the highest of the
// other, 12 - 9 = 3. So they touch until they are 6 apart, in whichever way x is rounded.
test('turned without clearance: rows that share a single x touch there', () => {
  for (let k = 0; k < 200; k++) {
    const [repeat, middle] = [20_010 + 146 * k, 12_345 - 678 * k];
    const x = middle + ((k % 5) * repeat) / 2;
    const strokes = [points((x - 10_000) / 1000, 7, x / 1000, 9, x / 1000, 4, (x - 5000) / 1000, 3)];
    expectExact(closestSpacing(rowOf(strokes, repeat / 1000, middle / 1000), 'turned', 0), 6);
  }
});

describe('half-circle scallops of radius r', () => {
  const r = P / 4;
  const n = 16_000;
  /** Two scallops to the repeat, bulging upwards: y from 0 at the crowns to r in the cusps. */
  const scallops = [
    curve(2 * n, (t) => {
      const scallop = t < 0.5 ? 0 : 1;
      const angle = Math.PI * (1 - (2 * t - scallop));
      return [r + 2 * r * scallop + r * Math.cos(angle), r - r * Math.sin(angle)];
    }),
  ];
  // What follows is for the half circles; the chords of the polyline lie inside them by up to
  // r (1 - cos(pi / 2n)) = 2.4e-7 mm.

  // At the crowns two parallel tangents ask for c. But a cusp of the upper row, a point at depth r where two
  // scallops meet, hangs over the place between two scallops of the lower row, which leave the cusp upright: at dx
  // from it the lower row lies at r - sqrt(r^2 - (r - dx)^2) below its crowns. The cusp asks for
  //     r - (r - sqrt(2 r dx - dx^2)) + sqrt(c^2 - dx^2) = sqrt(2 r dx - dx^2) + sqrt(c^2 - dx^2),
  // the largest over 0 <= dx <= c. The circles (centre (r, r), radius r, and centre (0, y), radius c) touch there from
  // outside, so the centres lie r + c apart: r^2 + s^2 = (r + c)^2, where s is the spacing: s = sqrt(2 r c + c^2).
  test('straight: sqrt(2 r c + c^2), in the cusps', () => {
    expectExact(closest(scallops, 'straight'), Math.sqrt(2 * r * c + c * c));
    // The same from the expression above, by brute force.
    let most = 0;
    for (let dx = 0; dx <= c; dx += 1e-5)
      most = Math.max(most, Math.sqrt(2 * r * dx - dx * dx) + Math.sqrt(c * c - dx * dx));
    expect(Math.sqrt(2 * r * c + c * c)).toBeCloseTo(most, 6);
  });

  // With one scallop to the repeat, shifted by half of it, every cusp (as deep as the radius R) hangs over a crown.
  test('brick by half a scallop: the radius and c', () => {
    const R = P / 2;
    const one = [curve(n, (t) => [R - R * Math.cos(Math.PI * t), R - R * Math.sin(Math.PI * t)])];
    expectExact(closest(one, 'brick'), R + c);
  });

  // Without clearance the cusp asks for what lies right under it: the other cusp, at spacing 0.
  test('straight without clearance: 0', () => expectExact(closest(scallops, 'straight', 0), 0));
});

describe('a sine of amplitude A', () => {
  const A = 20;
  const k = (2 * Math.PI) / P;
  const n = 40_000;
  const sine = [curve(n, (t) => [P * t, A + A * Math.sin(2 * Math.PI * t)])];

  // The lower row must stay below the offset curve at distance c of the upper one,
  //     (x - c y' / w, y + c / w),   w = sqrt(1 + y'^2),
  // so s is the largest height of the offset curve over the sine at the offset place. On the steepest stretch this
  // is nearly c / cos(atan(A k)); the bend takes off a little. The polyline leaves the sine by up to
  // A k^2 (P / n)^2 / 8 = 6e-8 mm.
  const offset = (t: number): number => {
    const x = P * t;
    const slope = A * k * Math.cos(k * x);
    const w = Math.hypot(1, slope);
    const at = x - (c * slope) / w;
    return A * Math.sin(k * x) + c / w - A * Math.sin(k * at);
  };
  const most = Array.from({ length: 200_001 }, (_, i) => offset(i / 200_000)).reduce((a, b) =>
    Math.max(a, b),
  );

  test('straight: from the offset curve', () => {
    expectExact(closest(sine, 'straight'), most);
    expect(most).toBeGreaterThan(c);
    expect(most).toBeLessThan(c / Math.cos(Math.atan(A * k)));
  });

  // The lowest points of the upper row face the highest points of the lower one.
  test('brick: 2A + c', () => expectExact(closest(sine, 'brick'), 2 * A + c));

  // The row is its own mirror image half a repeat on.
  test('mirrored: as straight', () => expectExact(closest(sine, 'mirrored'), most));

  test('closes no pocket: where the gap wanted is narrower than the closest rows leave, they stand closest', () => {
    const nesting = nest(rowOf(sine, P), 'straight', c, 1);
    expect(nesting.even.inner).toBeNull();
    expect(nesting.evenSpacingMm).toBe(nesting.closestSpacingMm);
    expect(nesting.gapMm).toBe(1);
  });
});

describe('rings on a string', () => {
  // A ring of radius 20 whose string runs on level at half height: its inside is the inner circle, and the seam circle
  // is held by the strings and the rings of both rows.
  const ring = 20;
  const n = 2000;
  const rings = [
    points(0, ring, 80, ring),
    curve(n, (t) => [100 - ring * Math.cos(2 * Math.PI * t), ring - ring * Math.sin(2 * Math.PI * t)]),
    points(120, ring, 200, ring),
  ];
  test('the ring is the inner circle', () => {
    expect(rowsAt(rowOf(rings, P), 'straight', 60).inner?.diameterMm).toBeCloseTo(2 * ring, 2);
  });
  // Midway between two rings of each row, the circle touches the strings, s apart, while the rings are farther away.
  test('the seam circle touches the strings', () => {
    const rows = rowsAt(rowOf(rings, P), 'straight', 60);
    expect(rows.seam?.diameterMm).toBeCloseTo(60, 1);
    expect(rows.largestOpenMm).toBe(rows.seam?.diameterMm);
    const meanLineSpacing = (P * 60) / (160 + 2 * Math.PI * ring);
    expect(rows.openness).toBeCloseTo(60 / meanLineSpacing, 2);
  });
  // The seam circle is the spacing here, from closest (2 ring + c, ring over ring) up: it would be even at 40, which
  // is closer than that.
  test('no spacing evens them: the closest it is, and that is said', () => {
    const nesting = nest(rowOf(rings, P), 'straight', c);
    expectExact(nesting.closestSpacingMm, 2 * ring + c);
    expect(nesting.evened).toBe(false);
    expect(nesting.evenSpacingMm).toBe(nesting.closestSpacingMm);
  });
});

describe('ladders: level lines 50 mm apart, and rungs 50 mm apart', () => {
  const ladder = [points(0, 0, P, 0), points(0, 50, P, 50)].concat(
    [0, 50, 100, 150].map((x) => points(x, 0, x, 50)),
  );
  // Each field holds a circle of 50; between two rows a strip as wide as they stand apart, however narrow.
  test.each([1, 2.5, 4, 20, 49])('%d mm apart: circles of 50 within, of that between', (apart) => {
    const { inner, seam, largestOpenMm } = rowsAt(rowOf(ladder, P), 'straight', 50 + apart);
    expect(inner?.diameterMm).toBeCloseTo(50, 2);
    expect(seam?.diameterMm).toBeCloseTo(apart, 2);
    expect(largestOpenMm).toBe(inner?.diameterMm);
    expect(Math.abs(seam!.centre.y - 50 - apart / 2)).toBeLessThan(0.01);
    expect(Math.abs(inner!.centre.y - 25)).toBeLessThan(0.01);
  });
  // A niche in the lower line, wider than it is deep, holds a circle from its floor to the next row, however small by the
  // side of the fields.
  test.each([
    [0.3, 0.2],
    [1, 0.5],
    [2, 1],
    [4, 2],
    [8, 2],
  ])('with a niche %d mm deep, %d mm apart: a circle of both between', (deep, apart) => {
    for (const at of [22, 27.4, 61, 118.9]) {
      const end = at + deep + apart + 0.5;
      const lower = points(0, 50, at, 50, at, 50 - deep, end, 50 - deep, end, 50, P, 50);
      const { seam } = rowsAt(rowOf([ladder[0], lower, ...ladder.slice(2)], P), 'straight', 50 + apart);
      expect(seam?.diameterMm, `at ${at}`).toBeCloseTo(deep + apart, 2);
    }
  });
  // So they may stand as far apart as a field is wide; and no farther than the motif is high.
  test('are even as high as they are', () => {
    const { evened, evenSpacingMm } = nest(rowOf(ladder, P), 'straight', c);
    expect(evened).toBe(true);
    expect(evenSpacingMm).toBeCloseTo(50 + c, 1);
  });
});

describe('pockets', () => {
  const pocketOf = (...strokes: Float64Array[]) =>
    rowsAt(rowOf(strokes, P), 'straight', 300).inner?.diameterMm;
  // However much smaller than the motif; less than a millimetre across they are left out.
  test.each([1.2, 2, 3, 5, 9, 20])('a ring of %d mm beside a wave of 60 by 200 mm', (mm) => {
    const wave = curve(200, (t) => [P * t, 30 - 30 * Math.cos(2 * Math.PI * t)]);
    const ring = (turns: number) =>
      curve(400, (t) => {
        const turn = 2 * Math.PI * turns * t;
        return [50 + (mm / 2) * Math.cos(turn), 100 + (mm / 2) * Math.sin(turn)];
      });
    expect(pocketOf(wave, ring(1))).toBeCloseTo(mm, 2);
    // With an eighth left out it holds the circle still, with more than half it does not.
    expect(pocketOf(wave, ring(7 / 8))).toBeCloseTo(mm, 2);
    expect(pocketOf(wave, ring(0.45))).toBeUndefined();
    expect(pocketOf(wave)).toBeUndefined();
  });
  test('a ring of 0.8 mm is too small', () => {
    const ring = curve(99, (t) => [50 + 0.4 * Math.cos(2 * Math.PI * t), 0.4 * Math.sin(2 * Math.PI * t)]);
    expect(pocketOf(points(0, -40, P, -40), ring)).toBeUndefined();
  });
  // An arc of r over less than a half circle holds nothing: its circle leaves through the mouth, up or down.
  test.each([1, -1])('a cup holds a circle where it is more than half of it', (side) => {
    const cup = (degrees: number) => {
      const half = (degrees * Math.PI) / 360;
      return curve(400, (t) => {
        const turn = half * (2 * t - 1);
        return [100 + 25 * Math.sin(turn), 25 * side * Math.cos(turn)];
      });
    };
    for (const degrees of [90, 150, 170, 178]) expect(pocketOf(cup(degrees))).toBeUndefined();
    for (const degrees of [190, 220, 300]) expect(pocketOf(cup(degrees))).toBeCloseTo(50, 2);
  });
});

describe('a zigzag under a level line', () => {
  // Between the legs that meet at (0, 0) and a level line h away lies a triangle; its incircle is 4 A / perimeter across.
  const incircle = (left: number, right: number, h: number) =>
    (2 * h * (left + right)) / (left + right + Math.hypot(left, h) + Math.hypot(right, h));
  const random = generator(11);
  const zigzags = Array.from({ length: 6 }, () =>
    Array.from({ length: 8 }, () => ({
      left: 9 + 6 * random(),
      right: 9 + 6 * random(),
      top: 2 + 2 * random(),
    })),
  );
  const depth = 20;
  const apart = 0.5;
  // The legs end half a millimetre above the next row's line, and would meet it a little farther out.
  test('the largest seam circle is the largest incircle', () => {
    for (const bends of zigzags) {
      let x = 0;
      const xy = [0, depth];
      for (const { left, right, top } of bends) {
        xy.push(x + left, top, x + left + right, depth);
        x += left + right;
      }
      const most = bends.map(({ left, right, top }) => {
        const longer = (depth + apart - top) / (depth - top);
        return incircle(longer * left, longer * right, depth + apart - top);
      });
      const row = rowOf([points(0, 0, x, 0), points(...xy)], x);
      const { seam } = rowsAt(row, 'straight', depth + apart);
      // By at most 0.04 mm a larger radius may go lost.
      expect(Math.abs(seam!.diameterMm - Math.max(...most))).toBeLessThan(0.08);
    }
  });
});

// The teeth of 15 mm reach as far as the row does, whether the next row shows them its level line or its own teeth.
describe.each([1, 2, 40, 200])('a level line with %d teeth on one side of it', (teeth) => {
  test.each([1, -1])('the closest spacing is their height and the clearance (side %d)', (side) => {
    const saw = curve(2 * teeth, (t) => [P * t, side * 15 * (Math.round(2 * teeth * t) % 2)]);
    for (const layout of ['straight', 'mirrored', 'turned'] as const)
      expectExact(closest([points(0, 0, P, 0), saw], layout), 15 + c);
  });
});
