/** The outline of a row, by the heights of all its lines at an x, and in closed form. */
import { expect, test } from 'vitest';
import { reversed } from '../../src/geometry/polyline.js';
import { closestSpacing } from '../../src/rows/closest.js';
import { outlineFrom } from '../../src/rows/outline.js';
import { rowOf } from '../../src/rows/row.js';
import { segmentTreeOf } from '../../src/rows/segment-tree.js';
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
    const below = outlineFrom(row, 1);
    const above = outlineFrom(row, -1);
    const at = ({ count, segments: s }: typeof below, side: number, x: number) =>
      Math.max(
        ...Array.from({ length: count }, (_, i) => {
          const share = (x - s[4 * i]) / (s[4 * i + 2] - s[4 * i]);
          return share >= 0 && share <= 1
            ? side * (s[4 * i + 1] + share * (s[4 * i + 3] - s[4 * i + 1]))
            : -Infinity;
        }),
      );
    for (let i = 0; i < 40; i++) {
      const x = 300 * random();
      expect(at(below, 1, x)).toBeCloseTo(Math.max(...heightsAt(x)), 9);
      expect(at(above, -1, x)).toBeCloseTo(Math.max(...heightsAt(x).map((h) => -h)), 9);
    }
  }
});

test('of a thousand lines one behind another few are left', () => {
  const strokes = Array.from({ length: 1000 }, (_, k) =>
    Float64Array.of(0, k / 10, 50, 80 + k / 10, 100, k / 10),
  );
  for (const side of [1, -1]) expect(outlineFrom(rowOf(strokes, 100), side).count).toBeLessThan(10);
});

// The ends of the lines lie on a circle of radius 30: right above one another two such stars keep 60 and the clearance.
test('thousands of lines that meet in a point are no trouble', () => {
  for (const x of [0, 40]) {
    const star = Array.from({ length: 3000 }, (_, k) => {
      const [dx, dy] = [30 * Math.cos((k * Math.PI) / 3000), 30 * Math.sin((k * Math.PI) / 3000)];
      return Float64Array.of(x - dx, -dy, x + dx, dy);
    });
    expect(closestSpacing(rowOf(star, 100), 'straight', 3)).toBeCloseTo(63, 9);
  }
});

// What lies over itself a thousand times is as near as once; counted, not timed.
test('a ring drawn over and over, either way round, is looked at once', () => {
  const ring = Float64Array.from({ length: 2 * 49 }, (_, i) =>
    i % 2 === 0 ? 20 * Math.cos((i * Math.PI) / 48) : 20 * Math.sin(((i - 1) * Math.PI) / 48),
  );
  const back = reversed(ring);
  const over = rowOf([ring, back, ring, ring.slice(10), back.slice(0, 40)], 50);
  expect(segmentTreeOf(over).count).toBe(48);
  expect(segmentTreeOf(rowOf([ring], 50)).count).toBe(48);
});

// All the points of the scallops lie at the same x, so that no stretch is free of them.
test('of scallops right above one another only the outermost are seen', () => {
  const strokes = Array.from({ length: 300 }, (_, k) =>
    Float64Array.from({ length: 2 * 81 }, (_, i) =>
      i % 2 === 0 ? i / 2 : k + Math.abs(Math.sin(((i - 1) * Math.PI) / 16)),
    ),
  );
  for (const side of [1, -1]) expect(outlineFrom(rowOf(strokes, 80), side).count).toBe(80);
});
