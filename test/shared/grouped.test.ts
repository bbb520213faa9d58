import fc from 'fast-check';
import { expect, it } from 'vitest';
import { grouped } from '../../shared/grouped.js';

it('groups digits as ECMA-402 does for American English', () => {
  fc.assert(
    fc.property(fc.maxSafeInteger(), (n) => {
      expect(grouped(n)).toBe(n.toLocaleString('en-US'));
    }),
  );
});
