/** Closest spacing, interlocks and distance of rows against every pair of their segments. */
import { describe, expect, test } from 'vitest';
import { layouts } from '../../shared/layout.js';
import { closestSpacing } from '../../src/rows/closest.js';
import { rowDistance } from '../../src/rows/index.js';
import { interlocks } from '../../src/rows/interlocks.js';
import { type Interval, nearest, tooNear } from './every-pair.js';
import type { Case } from './jts.js';
import { generator, points, randomCase, randomDashes, rowOfCase, shiftedCase } from './lines.js';

/** Strokes along the lines of a grid and across it: level, upright, ends over ends. */
function onGrid(seed: number): Case {
  const random = generator(seed * 31 + 7);
  const [columns, lines] = [4 + Math.floor(6 * random()), 3 + Math.floor(8 * random())];
  const strokes = Array.from({ length: 2 + Math.floor(4 * random()) }, () => {
    const xy = [Math.floor(columns * random()), Math.floor(lines * random())];
    for (let i = 0; i < 3; i++)
      xy.push(xy[2 * i] + Math.floor(5 * random()) - 2, xy[2 * i + 1] + Math.floor(5 * random()) - 2);
    return points(...xy.map((v) => 5 * v));
  });
  return { strokes, repeatMm: 5 * columns, middleXMm: 2.5 * Math.floor(columns * random()) };
}

/** Gaps narrower than this are none, mm. */
const narrowest = 0.001;

const drawn = (seed: number): Case => {
  const random = generator(seed);
  const motif = [randomCase, randomDashes, onGrid][seed % 3](seed);
  // Repeats that overhang one another, and that leave room; cut anywhere.
  const repeatMm = motif.repeatMm * [0.6, 1, 1, 1.7][seed % 4];
  return seed % 3 === 2 ? motif : shiftedCase({ ...motif, repeatMm }, 500 * random() - 250);
};

describe.each(layouts)('%s rows', (layout) => {
  const cases = Array.from({ length: 12 }, (_, seed) => ({ seed, motif: drawn(seed) }));

  test('closest spacing and interlocks leave out what any pair forbids', () => {
    for (const { seed, motif } of cases) {
      const clearance = [0.3, 1, 2.5, 6][seed % 4];
      const row = rowOfCase(motif);
      const closest = closestSpacing(row, layout, clearance);
      // Rows many times as close are many to be looked at.
      const least = Math.max(1, clearance / 2, row.heightMm / 5);
      const forbidden: Interval[] = [];
      for (let apart = 1; apart * least < row.heightMm + clearance; apart++)
        forbidden.push(...tooNear(motif, layout, apart, clearance));
      expect(closest, `seed ${seed}`).toBeCloseTo(Math.max(...forbidden.map(([, to]) => to)), 9);
      const clear: Interval[] = [];
      let upTo = least;
      for (const [from, to] of forbidden.sort(([a], [b]) => a - b)) {
        if (from > upTo + narrowest) clear.push([upTo, from]);
        upTo = Math.max(upTo, to);
      }
      const found = interlocks(row, layout, clearance)
        .map(([from, to]): Interval => [Math.max(from, least), to])
        .filter(([from, to]) => to > from + narrowest);
      expect(found.length, `seed ${seed}`).toBe(clear.length);
      for (const [k, [from, to]] of clear.entries()) {
        // Beyond a gap too narrow to be set they begin at the next thousandth.
        expect(found[k][0] - from, `seed ${seed}`).toBeGreaterThan(-1e-6);
        expect(found[k][0] - from, `seed ${seed}`).toBeLessThan(narrowest + 1e-6);
        expect(found[k][1], `seed ${seed}`).toBeCloseTo(to, 6);
      }
    }
  });

  test('come as near as their nearest pair', () => {
    for (const { seed, motif } of cases) {
      const row = rowOfCase(motif);
      for (const share of [0.3, 0.8, 1.4]) {
        const spacing = share * row.heightMm + 2;
        const { leastMm } = rowDistance(row, layout, spacing);
        let least = leastMm + 1;
        for (let apart = 1; apart * spacing < row.heightMm + least; apart++)
          least = nearest(motif, layout, apart, spacing, least);
        expect(leastMm, `seed ${seed}, ${spacing}`).toBeCloseTo(least, 9);
      }
    }
  });
});
