/** Numbers read digit by digit must be those that JavaScript's own `Number` makes of the same text (ECMA-262, 7.1.4.1). */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { NumberScanner, numberList } from '../../src/read/svg/number-scanner.js';

it('are exact, however many digits', () => {
  const double = fc.double({ noNaN: true, noDefaultInfinity: true }).map(String);
  const digits = (max: number) =>
    fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: 1, maxLength: max });
  const decimal = fc
    .tuple(fc.constantFrom('', '-', '+'), digits(18), digits(24))
    .map(([s, a, b]) => `${s}${a}.${b}`);
  fc.assert(
    fc.property(fc.oneof(double, decimal, digits(40)), (text) => {
      const scan = new NumberScanner(text);
      expect(scan.number()).toBe(Number(text));
      expect(scan.atEnd).toBe(true);
    }),
    { seed: 3, numRuns: 3000 },
  );
});

it('stop where no number can go on', () => {
  expect(numberList('1-2+3.5.5e1e')).toBeNull();
  expect(numberList(' 1-2+3.5.5e1 , 4')).toEqual([1, -2, 3.5, 5, 4]);
  expect(numberList('1,,2')).toBeNull();
  expect(numberList('1,')).toBeNull();
  // An e without digits is no exponent: it is what follows the number.
  const scan = new NumberScanner('2em');
  expect([scan.number(), scan.at]).toEqual([2, 1]);
});
