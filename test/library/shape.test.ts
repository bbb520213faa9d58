/**
 * The same line is found whatever was done to the sheet it is on. The maps used (scaling, turning over, quarter
 * turns, another order of strokes, other vertices) are the definition of "same"; other drawings must stay apart.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { pointsOf, polylineOf, reversed } from '../../src/geometry/polyline.js';
import { alikePairs, likenessOf, signatureOf } from '../../src/library/contents/shape.js';

/** A smooth line across 200 mm, another one for every set of amplitudes. */
function wave(amplitudes: readonly number[], points = 800): Polyline {
  return polylineOf(
    Array.from({ length: points + 1 }, (_, i) => {
      const t = i / points;
      const y = amplitudes.reduce((sum, a, k) => sum + a * Math.sin((k + 1) * Math.PI * t), 0);
      return { x: 200 * t, y };
    }),
  );
}

function placed(line: Polyline, scale: number, mirrored: boolean, quarterTurns: number): Polyline {
  return polylineOf(
    [...pointsOf(line)].map(({ x, y }) => {
      let [u, v] = [mirrored ? -x : x, y];
      for (let turn = 0; turn < quarterTurns; turn++) [u, v] = [-v, u];
      return { x: scale * u + 17, y: scale * v - 5 };
    }),
  );
}

const amplitudes = fc.array(fc.double({ min: -40, max: 40, noNaN: true }), { minLength: 3, maxLength: 5 });

describe('shape', () => {
  it('knows a line again at another size, turned over, turned round, walked the other way, with other points', () => {
    fc.assert(
      fc.property(
        amplitudes,
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        fc.boolean(),
        fc.integer({ min: 0, max: 3 }),
        (a, scale, mirrored, quarterTurns) => {
          const first = [wave(a)];
          const second = [reversed(placed(wave(a, 1111), scale, mirrored, quarterTurns))];
          expect([...alikePairs([signatureOf(first), signatureOf(second)])]).toEqual([[0, 1]]);
          const likeness = likenessOf(first, second);
          expect(likeness?.scale).toBeCloseTo(scale, 1);
          // Laid out by what was found, the first must come to lie on the second.
          const { x, y } = centroid(placed(first[0], scale, likeness!.mirrored, likeness!.quarterTurns));
          const laid = placed(first[0], scale, likeness!.mirrored, likeness!.quarterTurns);
          const other = centroid(second[0]);
          const gap = farthest(laid, second[0], other.x - x, other.y - y);
          expect(gap).toBeLessThan(0.03 * 200 * scale);
        },
      ),
      { seed: 7, numRuns: 60 },
    );
  });

  it('finds pieces in another order and direction to be the same drawing', () => {
    const line = wave([30, -12, 20]);
    const cut = 2 * 300;
    const pieces = [reversed(line.slice(cut)), line.slice(0, cut + 2)];
    expect([...alikePairs([signatureOf([line]), signatureOf(pieces)])]).toEqual([[0, 1]]);
    expect(likenessOf([line], pieces)).toEqual({
      mirrored: false,
      quarterTurns: 0,
      scale: expect.closeTo(1, 2),
    });
  });

  it('keeps different drawings apart, also those that differ in one place only', () => {
    fc.assert(
      fc.property(amplitudes, fc.integer({ min: 0, max: 2 }), (a, k) => {
        const other = a.map((value, i) => (i === k ? value + 14 : value));
        expect(likenessOf([wave(a)], [wave(other)])).toBeNull();
      }),
      { seed: 8, numRuns: 60, examples: [[[30, 0, 10], 1]] },
    );
  });
});

function centroid(line: Polyline) {
  let [x, y, whole] = [0, 0, 0];
  for (let i = 2; i < line.length; i += 2) {
    const length = Math.hypot(line[i] - line[i - 2], line[i + 1] - line[i - 1]);
    x += (length * (line[i] + line[i - 2])) / 2;
    y += (length * (line[i + 1] + line[i - 1])) / 2;
    whole += length;
  }
  return { x: x / whole, y: y / whole };
}

function farthest(line: Polyline, from: Polyline, dx: number, dy: number): number {
  let most = 0;
  for (let i = 0; i < line.length; i += 40) {
    let least = Infinity;
    for (let j = 0; j < from.length; j += 2) {
      least = Math.min(least, Math.hypot(line[i] + dx - from[j], line[i + 1] + dy - from[j + 1]));
    }
    most = Math.max(most, least);
  }
  return most;
}
