/** Which choices are shown, against the words of their definition, on made-up ways. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { worthShowing } from '../../src/plan/choose.js';
import type { Fitted } from '../../src/plan/fit.js';

const way = fc.record({
  evenness: fc.integer({ min: 10, max: 20 }).map((n) => n / 10),
  largestOpenMm: fc.integer({ min: 20, max: 60 }),
  passes: fc.integer({ min: 1, max: 4 }),
  size: fc.integer({ min: 90, max: 110 }).map((n) => n / 100),
  wholeAcross: fc.boolean(),
  wholeDown: fc.boolean(),
  linkMm: fc.integer({ min: 0, max: 9 }),
});
type Way = typeof way extends fc.Arbitrary<infer T> ? T : never;

const whole = ({ wholeAcross, wholeDown }: Way) => Number(wholeAcross) + Number(wholeDown);
const change = ({ size }: Way) => Math.round(100 * Math.abs(size - 1));
/** Less is better. */
const marks = (each: Way) => [each.evenness, each.passes, change(each), -whole(each)];
const beats = (a: Way, b: Way) => {
  const [of, than] = [marks(a), marks(b)];
  return of.every((mark, i) => mark <= than[i]) && of.some((mark, i) => mark < than[i]);
};

describe('choices', () => {
  it('are those that none beats, the eight best, of those that the batting allows', () => {
    fc.assert(
      fc.property(
        fc.array(way, { minLength: 1, maxLength: 30 }),
        fc.option(fc.integer({ min: 15, max: 60 })),
        (ways, battingMm) => {
          const shown = worthShowing(
            ways as unknown as Fitted[],
            battingMm,
            (each) => (each as unknown as Way).linkMm,
          ) as unknown as Way[];
          const allowed = ways.filter(({ largestOpenMm }) => largestOpenMm <= (battingMm ?? Infinity));
          const fitting = allowed.length > 0 ? allowed : ways;
          const unbeaten = fitting.filter((each) => !fitting.some((other) => beats(other, each)));
          expect(shown).toHaveLength(Math.min(8, unbeaten.length));
          for (const each of shown) expect(unbeaten).toContain(each);
          // The first: of those within a tenth of the least openness the most whole, then the fewest passes, the least
          // change of size, the least link.
          const least = Math.min(...unbeaten.map(({ evenness }) => evenness));
          const nearly = unbeaten.filter(({ evenness }) => evenness <= 1.1 * least);
          const order = (each: Way) => [-whole(each), each.passes, change(each), each.linkMm];
          const better = (a: Way, b: Way) => {
            const i = order(a).findIndex((value, k) => value !== order(b)[k]);
            return i >= 0 && order(a)[i] < order(b)[i];
          };
          expect(nearly).toContain(shown[0]);
          expect(nearly.filter((each) => better(each, shown[0]))).toEqual([]);
        },
      ),
      { numRuns: 1000 },
    );
  });
});
