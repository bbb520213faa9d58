/** Points as text, against what JavaScript itself writes and reads. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { numberText } from '../../src/markup/number-text.js';
import { pointsText } from '../../src/markup/points-text.js';

it('is the JSON that numberText would put together', () => {
  const number = fc.oneof(
    fc.double({ min: -1e9, max: 1e9, noNaN: true }),
    fc.double({ min: -2, max: 2, noNaN: true }),
    fc.double({ min: -1e25, max: 1e25, noNaN: true }),
    fc.integer({ min: -100_000, max: 100_000 }).map((n) => n / 1000),
    fc.constantFrom(0, -0, 0.0005, -0.0005, -0.0004, 9.9995, 999.9996, 10, 100, 1e9),
  );
  fc.assert(
    fc.property(fc.array(fc.tuple(number, number), { minLength: 1, maxLength: 20 }), (places) => {
      const text = pointsText(Float64Array.from(places.flat()));
      expect(text).toBe(`[${places.map(([x, y]) => `[${numberText(x)},${numberText(y)}]`).join(',')}]`);
    }),
    { numRuns: 1000 },
  );
});

it('refuses what is no coordinate', () => {
  for (const bad of [Number.NaN, Infinity])
    expect(() => pointsText(Float64Array.of(bad, 0))).toThrow(RangeError);
});
