/** The exact box of curves, by which a motif is brought to the size asked for. */
import { Bezier } from 'bezier-js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Op, type Subpath } from '../../shared/subpath.js';
import { curveBounds } from '../../src/size/bounds.js';

const number = fc.double({ min: -300, max: 300, noNaN: true });
const quadratic = fc.array(number, { minLength: 6, maxLength: 6 });

function segment(op: number, coords: readonly number[]): Subpath {
  return { ops: Uint8Array.of(op), coords: Float64Array.from(coords), closed: false };
}

describe('the box of a curve', () => {
  it('is that of bezier-js for quadratics, also where a program saved them as cubics', () => {
    fc.assert(
      fc.property(quadratic, ([ax, ay, bx, by, cx, cy]) => {
        const { x, y } = new Bezier(ax, ay, bx, by, cx, cy).bbox();
        // Each control of the cubic lies two thirds of the way to the quadratic's one. bezier-js itself misplaces the
        // extremes of such a cubic by as much as half its size: its derivative's leading coefficient is all rounding.
        const towards = (end: number, control: number) => end + (2 / 3) * (control - end);
        const cubic = [towards(ax, bx), towards(ay, by), towards(cx, bx), towards(cy, by)];
        for (const path of [
          segment(Op.quadratic, [ax, ay, bx, by, cx, cy]),
          segment(Op.cubic, [ax, ay, ...cubic, cx, cy]),
        ]) {
          const box = curveBounds([path]);
          expect([box.minX, box.maxX, box.minY, box.maxY]).toEqual(
            [x.min, x.max, y.min, y.max].map((value) => expect.closeTo(value, 8)),
          );
        }
      }),
      { seed: 31, numRuns: 500 },
    );
  });

  it('holds every place of a cubic, and touches one on each side (places by bezier-js)', () => {
    fc.assert(
      fc.property(fc.array(number, { minLength: 8, maxLength: 8 }), (coords) => {
        const curve = new Bezier(coords);
        const places = Array.from({ length: 2001 }, (_, i) => curve.compute(i / 2000));
        const box = curveBounds([segment(Op.cubic, coords)]);
        const beyond = [
          Math.min(...places.map(({ x }) => x)) - box.minX,
          box.maxX - Math.max(...places.map(({ x }) => x)),
          Math.min(...places.map(({ y }) => y)) - box.minY,
          box.maxY - Math.max(...places.map(({ y }) => y)),
        ];
        // Next to an extreme a curve leaves it by the square of the step: the second derivative is 6 times 1,200 at most.
        for (const gap of beyond) {
          expect(gap).toBeGreaterThanOrEqual(-1e-9);
          expect(gap).toBeLessThanOrEqual((7200 / 2) * 0.00025 ** 2 + 1e-9);
        }
      }),
      { seed: 32, numRuns: 100 },
    );
  });

  it('of a slanting ellipse reaches sqrt(a2 cos2 + b2 sin2) to each side (any table of conics)', () => {
    for (const degrees of [0, 10, 30, 45, 77, 90]) {
      const [a, b, tilt] = [50, 20, (degrees * Math.PI) / 180];
      const u = [a * Math.cos(tilt), a * Math.sin(tilt)];
      const v = [-b * Math.sin(tilt), b * Math.cos(tilt)];
      const box = curveBounds([segment(Op.arc, [...u, 0, 0, ...u, ...v, 0, 2 * Math.PI, ...u])]);
      const across = Math.hypot(a * Math.cos(tilt), b * Math.sin(tilt));
      const down = Math.hypot(a * Math.sin(tilt), b * Math.cos(tilt));
      expect([box.minX, box.maxX, box.minY, box.maxY]).toEqual(
        [-across, across, -down, down].map((value) => expect.closeTo(value, 10)),
      );
    }
  });

  it('of an arc holds only what the arc passes, whichever way it sweeps', () => {
    const arc = (sweep: number) =>
      curveBounds([
        segment(Op.arc, [10, 0, 0, 0, 10, 0, 0, 10, 0, sweep, 10 * Math.cos(sweep), 10 * Math.sin(sweep)]),
      ]);
    const near = (value: number) => expect.closeTo(value, 10);
    expect(arc(Math.PI)).toEqual({ minX: near(-10), maxX: near(10), minY: near(0), maxY: near(10) });
    expect(arc(-Math.PI)).toEqual({ minX: near(-10), maxX: near(10), minY: near(-10), maxY: near(0) });
    expect(arc(Math.PI / 2)).toEqual({ minX: near(0), maxX: near(10), minY: near(0), maxY: near(10) });
  });
});
