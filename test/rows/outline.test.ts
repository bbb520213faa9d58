import { expect, test } from 'vitest';
import { outlineFromAbove, outlineFromBelow } from '../../src/rows/outline.js';
import { rowOf } from '../../src/rows/row.js';
import { randomFrom } from '../measure/lines.js';

test('of thousands of strokes the outline is the lowest and the highest line at each x', () => {
  const random = randomFrom(7);
  for (const longestMm of [4, 60]) {
    // Some lie level, some stand upright, some go on into the next repeat.
    const strokes = Array.from({ length: 2500 }, (_, k) => {
      const [x, y, mm, turn] = [300 * random(), 80 * random(), longestMm * random(), 7 * random()];
      const [dx, dy] = [k % 50 === 0 ? 0 : mm * Math.cos(turn), k % 40 === 0 ? 0 : mm * Math.sin(turn)];
      return Float64Array.of(x, y, x + dx, y + dy);
    });
    const row = rowOf(strokes, 300);
    const heightsAt = (x: number) =>
      strokes.flatMap(([ax, ay, bx, by]) =>
        [-600, -300, 0, 300, 600].flatMap((shift) => {
          const share = (x - shift - ax) / (bx - ax);
          return share >= 0 && share <= 1 ? [ay + share * (by - ay)] : [];
        }),
      );
    const below = outlineFromBelow(row);
    const above = outlineFromAbove(row);
    const at = ({ count, x0, x1, h0, h1 }: typeof below, x: number) => {
      const k = Array.from({ length: count }, (_, i) => i).find((i) => x0[i] < x && x < x1[i])!;
      return h0[k] + ((x - x0[k]) / (x1[k] - x0[k])) * (h1[k] - h0[k]);
    };
    for (let i = 0; i < 100; i++) {
      const x = 300 * random();
      expect(at(below, x)).toBeCloseTo(Math.max(...heightsAt(x)), 9);
      expect(at(above, x)).toBeCloseTo(Math.max(...heightsAt(x).map((h) => -h)), 9);
    }
  }
});
