/** A row trimmed to the field, against the intersection that JTS makes of the same row and rectangle. */
import fc from 'fast-check';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import { describe, expect, it, vi } from 'vitest';
import { boundsOf, lengthOf, polylineOf } from '../../src/geometry/polyline.js';
import { trimmedRow } from '../../src/plan/trim.js';

/** Hundreds of intersections in the reference library, on a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000 });

const field = { minX: -10, minY: -10, maxX: 110, maxY: 70 };
const everywhere = { minX: -1e9, minY: -1e9, maxX: 1e9, maxY: 1e9 };

const factory = new GeometryFactory();

function lineString(flat: ArrayLike<number>) {
  const coordinates = Array.from(
    { length: flat.length / 2 },
    (_, i) => new Coordinate(flat[2 * i], flat[2 * i + 1]),
  );
  return factory.createLineString(coordinates);
}

function rectangle({ minX, minY, maxX, maxY }: typeof field) {
  const corners = [
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
    [minX, minY],
  ];
  return factory.createPolygon(factory.createLinearRing(corners.map(([x, y]) => new Coordinate(x, y))));
}

/** Random units on a coarse grid, so that lines run along the border, touch it and go through its corners. */
const units = fc
  .tuple(
    fc.integer({ min: -6, max: 6 }),
    fc.array(fc.tuple(fc.integer({ min: -12, max: 24 }), fc.integer({ min: -3, max: 9 })), {
      minLength: 1,
      maxLength: 8,
    }),
    fc.integer({ min: 1, max: 9 }),
  )
  .map(([startY, inner, repeat]) => {
    const points = [[0, startY], ...inner, [repeat, startY]].map(([x, y]) => ({ x: 10 * x, y: 10 * y }));
    return { unit: polylineOf(points), repeatMm: 10 * repeat };
  });

describe('a trimmed row', () => {
  it('is what JTS leaves of the row in the field', () => {
    fc.assert(
      fc.property(units, ({ unit, repeatMm }) => {
        const pieces = trimmedRow(unit, repeatMm, field, everywhere);
        // Step by step, since JTS would merge what lies on itself.
        let expected = 0;
        const rect = rectangle(field);
        const { minX, maxX } = boundsOf([unit]);
        const first = Math.floor((field.minX - maxX) / repeatMm) - 1;
        const last = Math.ceil((field.maxX - minX) / repeatMm) + 1;
        for (let k = first; k <= last; k++) {
          for (let i = 2; i < unit.length; i += 2) {
            if (unit[i] === unit[i - 2] && unit[i + 1] === unit[i - 1]) continue;
            const step = lineString([
              unit[i - 2] + k * repeatMm,
              unit[i - 1],
              unit[i] + k * repeatMm,
              unit[i + 1],
            ]);
            expected += OverlayOp.intersection(step, rect).getLength();
          }
        }
        expect(pieces.reduce((sum, piece) => sum + lengthOf(piece), 0)).toBeCloseTo(expected, 6);
        const box = boundsOf(pieces);
        if (pieces.length > 0) {
          expect(box.minX).toBeGreaterThanOrEqual(field.minX);
          expect(box.maxX).toBeLessThanOrEqual(field.maxX);
          expect(box.minY).toBeGreaterThanOrEqual(field.minY);
          expect(box.maxY).toBeLessThanOrEqual(field.maxY);
        }
        // Every piece enters and leaves through the border.
        for (const piece of pieces)
          for (const [x, y] of [piece.slice(0, 2), piece.slice(-2)])
            expect(x === field.minX || x === field.maxX || y === field.minY || y === field.maxY).toBe(true);
      }),
      {
        numRuns: 300,
        // Cut beside a corner, where the worked-out coordinate once left the field by a rounding.
        examples: [[{ unit: Float64Array.from([0, -40, 110, 70, 0, 0, 10, -40]), repeatMm: 10 }]],
      },
    );
  });

  it('leaves out pieces that stay in the margin', () => {
    // A tooth of 5 mm above a top that begins at 0: the row crosses the margin only.
    const unit = polylineOf([
      { x: 0, y: -15 },
      { x: 10, y: -5 },
      { x: 20, y: -15 },
    ]);
    expect(trimmedRow(unit, 20, field, { minX: 0, minY: 0, maxX: 100, maxY: 60 })).toEqual([]);
  });
});
