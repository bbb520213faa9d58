import fc from 'fast-check';
import { expect, test } from 'vitest';
import { worstOf } from '../../shared/worst.js';

test('the worst are the first of all of them sorted, equals in their order', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 0, max: 20 })),
      fc.integer({ min: 1, max: 40 }),
      (amounts, most) => {
        const all = amounts.map((mm, k) => ({ mm, k }));
        const sorted = [...all].sort((a, b) => b.mm - a.mm || a.k - b.k);
        expect(worstOf(all, ({ mm }) => mm, most)).toEqual(sorted.slice(0, most));
      },
    ),
  );
});
