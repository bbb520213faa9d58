/** D. Douglas and T. Peucker, Cartographica 10 (1973): no dropped point lies farther than the tolerance. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { firstPoint, lastPoint, pointCount, pointsOf } from '../../src/geometry/polyline.js';
import { mendMotif } from '../../src/mend/index.js';
import { thinned } from '../../src/mend/thin.js';
import { motifOf } from '../../src/size/motif-of.js';
import { distanceTo } from '../checked.js';
import { circle, line } from './drawings.js';

const walks = fc
  .array(fc.tuple(fc.double({ min: -1, max: 1, noNaN: true }), fc.double({ min: -1, max: 1, noNaN: true })), {
    minLength: 2,
    maxLength: 120,
  })
  .map((steps): Polyline => {
    const flat: number[] = [0, 0, 5, 0];
    for (const [dx, dy] of steps) flat.push(flat[flat.length - 2] + dx, flat[flat.length - 1] + 0.1 * dy);
    return Float64Array.from(flat);
  });

function isPartOf(part: Polyline, whole: Polyline): boolean {
  let i = 0;
  for (const { x, y } of pointsOf(part)) {
    while (i < whole.length && (whole[i] !== x || whole[i + 1] !== y)) i += 2;
    if (i >= whole.length) return false;
    i += 2;
  }
  return true;
}

test('every dropped point lies within the tolerance, ends stay, and thinning again drops nothing', () => {
  fc.assert(
    fc.property(walks, fc.constantFrom(0.005, 0.02, 0.3), (walk, toleranceMm) => {
      const thin = thinned(walk, toleranceMm);
      expect(isPartOf(thin, walk)).toBe(true);
      for (const at of pointsOf(walk)) expect(distanceTo(thin, at)).toBeLessThanOrEqual(toleranceMm + 1e-8);
      expect([firstPoint(thin), lastPoint(thin)]).toEqual([firstPoint(walk), lastPoint(walk)]);
      expect(thinned(thin, toleranceMm)).toEqual(thin);
    }),
    { seed: 1973, numRuns: 500 },
  );
});

test('a circle of 20 mm needs no more points than its sagitta asks for', () => {
  // A chord that leaves the circle by s spans the angle 2 acos(1 - s / r) (Machinery's Handbook, circular segments).
  const fewest = Math.ceil((2 * Math.PI) / (2 * Math.acos(1 - 0.02 / 20)));
  const count = pointCount(thinned(circle(0, 0, 20, 0, 3600), 0.02)) - 1;
  expect(count).toBeGreaterThanOrEqual(fewest);
  expect(count).toBeLessThanOrEqual(2 * fewest);
});

test('a line that turns back keeps its turn, and repeated points go', () => {
  expect([...thinned(line(0, 0, 10, 0, 20, 0, 10, 0), 0.02)]).toEqual([0, 0, 20, 0, 10, 0]);
  expect([...thinned(line(0, 0, 0, 0, 5, 5, 5, 5, 10, 0), 0.02)]).toEqual([0, 0, 5, 5, 10, 0]);
});

test('a speck is not thinned to nothing', () => {
  const speck = circle(0, 0, 0.005, 0, 8);
  expect(pointCount(thinned(speck, 0.02))).toBe(pointCount(speck));
});

test('the motif says how near it still is to its curve', () => {
  const wave = Float64Array.from(
    Array.from({ length: 401 }, (_, i) => [i / 4, 10 * Math.sin(i / 40)]).flat(),
  );
  const { motif, accounts } = mendMotif(motifOf([wave]), defaultSetup);
  expect(accounts.map(({ mend }) => mend)).toEqual(['thin']);
  expect(motif.flattenMm).toBe(0.03);
  expect(pointCount(motif.strokes[0])).toBeLessThan(100);
});
