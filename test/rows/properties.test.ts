/** What must hold for every row, on random lines that overhang their repeat and cross themselves. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Layout, layouts } from '../../shared/layout.js';
import type { Point } from '../../shared/plane.js';
import { pointToSegment } from '../../src/geometry/segment.js';
import { closestSpacing } from '../../src/rows/closest.js';
import { nest, rowDistance, rowOf, rowsAt } from '../../src/rows/index.js';
import { curve } from '../measure/lines.js';
import { type Case, largestEmptyCircle, leastDistance } from './jts.js';
import { distancesToRows, distanceToRow, roomAbout } from './laid-out.js';
import { randomCase, randomDashes, rowOfCase, shiftedCase } from './lines.js';

const seeded = { seed: 20260, numRuns: 60 };
const aCase = fc.integer({ min: 1000, max: 999_999 }).map(randomCase);
const aLayout = fc.constantFrom(...layouts);
const aClearance = fc.double({ min: 0.1, max: 12, noNaN: true });

/** Left and right changed about; the turned layout turns about the same place of the motif. */
function mirroredCase({ strokes, repeatMm, middleXMm }: Case): Case {
  return {
    strokes: strokes.map((line) => line.map((value, i) => (i % 2 === 0 ? repeatMm - value : value))),
    repeatMm,
    middleXMm: repeatMm - middleXMm,
  };
}

describe('closest spacing', () => {
  test('grows with the clearance, by as much at least', () => {
    fc.assert(
      fc.property(aCase, aLayout, aClearance, aClearance, (motif, layout, c, more) => {
        const row = rowOfCase(motif);
        expect(closestSpacing(row, layout, c + more)).toBeGreaterThanOrEqual(
          closestSpacing(row, layout, c) + more - 1e-9,
        );
      }),
      seeded,
    );
  });

  test('is the same for the motif mirrored left to right, and for the row moved sideways', () => {
    fc.assert(
      fc.property(
        aCase,
        aLayout,
        aClearance,
        fc.double({ min: -300, max: 300, noNaN: true }),
        (motif, layout, c, by) => {
          const closest = closestSpacing(rowOfCase(motif), layout, c);
          expect(closestSpacing(rowOfCase(mirroredCase(motif)), layout, c)).toBeCloseTo(closest, 7);
          expect(closestSpacing(rowOfCase(shiftedCase(motif, by)), layout, c)).toBeCloseTo(closest, 7);
        },
      ),
      seeded,
    );
  });

  test('leaves exactly the clearance between rows, and 0.1 mm less leaves less', () => {
    fc.assert(
      fc.property(aCase, aLayout, aClearance, (motif, layout, c) => {
        const row = rowOfCase(motif);
        const closest = closestSpacing(row, layout, c);
        const inOurs = (spacing: number) => rowDistance(row, layout, spacing).leastMm;
        // jsts 2.12, DistanceOp
        const inTheirs = (spacing: number) => leastDistance(motif, layout, spacing);
        for (const distance of [inOurs, inTheirs]) {
          expect(distance(closest)).toBeCloseTo(c, 6);
          expect(distance(closest - 0.1)).toBeLessThan(c);
          expect(distance(closest + 0.1)).toBeGreaterThan(c);
        }
      }),
      seeded,
    );
  });
});

/** How far a place lies from the nearest line of one row of the motif as drawn. */
function offTheRow({ strokes, repeatMm }: Case, { x, y }: Point): number {
  let off = Number.POSITIVE_INFINITY;
  for (let k = -3; k <= 3; k++)
    for (const line of strokes)
      for (let i = 0; i + 3 < line.length; i += 2) {
        const [ax, ay, bx, by] = line.subarray(i, i + 4);
        off = Math.min(off, pointToSegment(x - k * repeatMm, y, ax, ay, bx, by));
      }
  return off;
}

/** The place is one of the motif, and lies as far from another row as it was said to. */
function expectBetweenRows(
  motif: Case,
  layout: Layout,
  spacing: number,
  { at, leastMm }: { at: Point; leastMm: number },
): void {
  expect(offTheRow(motif, at)).toBeLessThan(1e-6);
  const most = Math.ceil((rowOfCase(motif).heightMm + leastMm) / spacing);
  const others = Array.from({ length: most }, (_, k) => [k + 1, -k - 1]).flat();
  const off = others.map((index) => distanceToRow(motif, layout, spacing, index, at));
  expect(Math.min(...off)).toBeCloseTo(leastMm, 6);
}

test('the distance of rows at any spacing is that of jsts, and is found at the place told', () => {
  fc.assert(
    fc.property(aCase, aLayout, fc.double({ min: 0.3, max: 1.5, noNaN: true }), (motif, layout, share) => {
      const row = rowOfCase(motif);
      const spacing = share * closestSpacing(row, layout, 3);
      const { leastMm, at } = rowDistance(row, layout, spacing);
      // jsts 2.12, DistanceOp, on neighbouring rows; a row of one stroke lies between those farther apart
      expect(leastMm).toBeCloseTo(leastDistance(motif, layout, spacing), 6);
      expectBetweenRows(motif, layout, spacing, { at, leastMm });
    }),
    seeded,
  );
});

test('the distance of rows whose repeats overhang several others is that of jsts', () => {
  fc.assert(
    fc.property(aCase, aLayout, fc.double({ min: 1, max: 1.5, noNaN: true }), (drawn, layout, share) => {
      const motif = { ...drawn, repeatMm: drawn.repeatMm / 4 };
      const spacing = share * rowOfCase(motif).heightMm;
      const { leastMm } = rowDistance(rowOfCase(motif), layout, spacing);
      // jsts 2.12, DistanceOp
      expect(leastMm).toBeCloseTo(leastDistance(motif, layout, spacing), 6);
    }),
    seeded,
  );
});

test('the distance of rows of short strokes is that of any two rows, by jsts, and is found at the place told', () => {
  const aFew = fc.integer({ min: 1, max: 999_999 }).map(randomDashes);
  fc.assert(
    fc.property(aFew, aLayout, fc.double({ min: 4, max: 80, noNaN: true }), (motif, layout, spacing) => {
      const row = rowOfCase(motif);
      const { leastMm, at } = rowDistance(row, layout, spacing);
      const rows = Array.from({ length: Math.ceil((row.heightMm + leastMm) / spacing) }, (_, k) => k + 1);
      // jsts 2.12, DistanceOp
      const byJsts = rows.map((apart) => leastDistance(motif, layout, spacing, apart));
      expect(leastMm).toBeCloseTo(Math.min(...byJsts), 6);
      expectBetweenRows(motif, layout, spacing, { at, leastMm });
    }),
    seeded,
  );
});

describe('open circles', () => {
  const near = (a: number | undefined, b: number | undefined) =>
    expect(Math.abs((a ?? 0) - (b ?? 0))).toBeLessThan(0.1);

  test('are the same for the motif mirrored left to right', () => {
    fc.assert(
      fc.property(aCase, aLayout, (motif, layout) => {
        const row = rowOfCase(motif);
        const mirrored = rowOfCase(mirroredCase(motif));
        const spacing = closestSpacing(row, layout, 3);
        near(rowsAt(row, layout, spacing).largestOpenMm, rowsAt(mirrored, layout, spacing).largestOpenMm);
      }),
      seeded,
    );
  });

  test('grow with the motif, and openness does not', () => {
    fc.assert(
      fc.property(aCase, aLayout, fc.double({ min: 0.3, max: 4, noNaN: true }), (motif, layout, scale) => {
        const row = rowOfCase(motif);
        const larger = rowOf(
          motif.strokes.map((line) => line.map((value) => scale * value)),
          scale * motif.repeatMm,
          scale * motif.middleXMm,
        );
        const spacing = closestSpacing(row, layout, 3);
        const [one, other] = [rowsAt(row, layout, spacing), rowsAt(larger, layout, scale * spacing)];
        near(scale * one.largestOpenMm, other.largestOpenMm);
        expect(other.openness / one.openness).toBeCloseTo(1, 2);
      }),
      seeded,
    );
  });

  test('hold no stitching, and touch as many rows as they should', () => {
    fc.assert(
      fc.property(aCase, aLayout, (motif, layout) => {
        const row = rowOfCase(motif);
        const { even } = nest(row, layout, 3);
        for (const [circle, rows] of [
          [even.inner, 1],
          [even.seam, 2],
        ] as const) {
          if (circle === null) continue;
          const distances = distancesToRows(
            motif,
            layout,
            even.spacingMm,
            circle.centre,
            circle.diameterMm,
          ).sort((a, b) => a - b);
          expect(distances[0]).toBeCloseTo(circle.diameterMm / 2, 3);
          const touched = distances.filter((mm) => mm < circle.diameterMm / 2 + 0.02).length;
          if (rows === 1) expect(touched).toBe(1);
          else expect(touched).toBeGreaterThanOrEqual(2);
        }
      }),
      seeded,
    );
  });
});

test('the largest open circle among short strokes is that of jsts', () => {
  for (let seed = 1; seed <= 12; seed++) {
    const motif = randomDashes(seed);
    const layout = layouts[seed % layouts.length];
    const row = rowOfCase(motif);
    const spacing = (0.4 + 0.08 * seed) * row.heightMm;
    // jsts 2.12, LargestEmptyCircle
    const byJts = largestEmptyCircle(motif, layout, spacing, 0.02);
    expect(Math.abs(rowsAt(row, layout, spacing).largestOpenMm - byJts), `seed ${seed}`).toBeLessThan(0.1);
  }
});

test('no circle can grow by moving a little: a narrow bay that opens is no pocket', () => {
  const harmonics = fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 3, maxLength: 3 });
  fc.assert(
    fc.property(harmonics, harmonics, aLayout, (across, down, layout) => {
      fc.pre(down.some((size) => Math.abs(size) > 3));
      const line = curve(200, (t) => {
        const wave = (sizes: readonly number[]) =>
          sizes.reduce((sum, size, k) => sum + size * Math.sin(2 * Math.PI * (k + 1) * t), 0);
        return [120 * t + wave(across), 1.5 * wave(down)];
      });
      const motif = { strokes: [line], repeatMm: 120, middleXMm: 60 };
      const { even } = nest(rowOfCase(motif), layout, 3);
      for (const circle of [even.inner, even.seam]) {
        if (circle === null) continue;
        const [radius, step] = [circle.diameterMm / 2, 0.1];
        const room = roomAbout(motif, layout, even.spacingMm, circle.centre, radius + 1);
        for (let turn = 0; turn < 2 * Math.PI; turn += Math.PI / 8) {
          const { x, y } = circle.centre;
          const moved = { x: x + step * Math.cos(turn), y: y + step * Math.sin(turn) };
          expect(room(moved)).toBeLessThan(radius + 0.01);
        }
      }
    }),
    { seed: 20261, numRuns: 40 },
  );
});
