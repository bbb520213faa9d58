/**
 * Drawings on which the search for interlocks once crept forward by next to nothing: marks whose uprights slide past one
 * another, rings that touch, a line drawn in steps of next to nothing. Held against jsts at many spacings.
 */
import { describe, expect, it } from 'vitest';
import { type Layout, layouts } from '../../shared/layout.js';
import { nest } from '../../src/rows/index.js';
import { type Case, leastDistance } from './jts.js';
import { points, rowOfCase } from './lines.js';

const wave = points(
  ...Array.from({ length: 101 }, (_, i) => [2 * i, 60 - 40 * Math.sin((i / 50) * Math.PI)]).flat(),
);
const cross = (x: number, y: number) => [points(x - 3, y, x + 3, y), points(x, y - 3, x, y + 3)];
const ring = (x: number, y: number) =>
  points(
    ...Array.from({ length: 49 }, (_, i) => [
      x + 3 * Math.cos((i / 24) * Math.PI),
      y + 3 * Math.sin((i / 24) * Math.PI),
    ]).flat(),
  );

const drawings: Readonly<Record<string, Case>> = {
  'two crosses': { strokes: [wave, ...cross(-6, 5), ...cross(206, 115)], repeatMm: 218, middleXMm: 109 },
  'four crosses': {
    strokes: [wave, ...cross(-6, 5), ...cross(-6, 115), ...cross(206, 5), ...cross(206, 115)],
    repeatMm: 218,
    middleXMm: 109,
  },
  'two rings': { strokes: [wave, ring(-6, 5), ring(206, 115)], repeatMm: 218, middleXMm: 109 },
  'two dashes': {
    strokes: [wave, points(-9, 5, -3, 5), points(203, 115, 209, 115)],
    repeatMm: 218,
    middleXMm: 109,
  },
  'a step of next to nothing': { strokes: [points(0, 0, 1e-320, 10, 20, 20)], repeatMm: 20, middleXMm: 10 },
};

describe.each(Object.entries(drawings))('%s', (_, motif) => {
  it.each(layouts)('%s', (layout: Layout) => {
    const { interlocksMm, closestSpacingMm } = nest(rowOfCase(motif), layout, 3);
    for (const [from, to] of interlocksMm) {
      expect(to).toBeGreaterThan(from);
      expect(to).toBeLessThanOrEqual(closestSpacingMm);
      // jsts 2.12, DistanceOp; neighbours alone, which is what an interlock at least keeps clear of.
      expect(leastDistance(motif, layout, (from + to) / 2)).toBeGreaterThanOrEqual(3 - 1e-6);
    }
    for (let k = 1; k < 24; k++) {
      const spacing = (k / 24) * closestSpacingMm;
      if (leastDistance(motif, layout, spacing) >= 3 - 1e-6) continue;
      expect(interlocksMm.some(([from, to]) => spacing > from + 1e-6 && spacing < to - 1e-6)).toBe(false);
    }
  });
});
