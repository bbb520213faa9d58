/** Sizes and places as people type them: every way of writing the same places reads the same, and nothing is guessed. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parsePlace, parseSize, parseTwoPlaces } from '../../src/setup/lengths.js';

const inch = 25.4;

/** A length as a quilter writes it, and its inches. */
const length = fc
  .record({
    whole: fc.integer({ min: 0, max: 120 }),
    sixteenths: fc.integer({ min: 0, max: 15 }),
    minus: fc.boolean(),
    form: fc.constantFrom('fraction', 'decimal'),
    mark: fc.constantFrom('', 'in', ' in', '"'),
  })
  .map(({ whole, sixteenths, minus, form, mark }) => {
    const sign = minus ? '-' : '';
    const inches = (whole + sixteenths / 16) * (minus ? -1 : 1);
    if (form === 'decimal' || sixteenths === 0) return { text: `${sign}${Math.abs(inches)}${mark}`, inches };
    return { text: `${sign}${whole > 0 ? `${whole} ` : ''}${sixteenths}/16${mark}`, inches };
  });

describe('places', () => {
  it('read the same with semicolons and with commas, and with spaces alone or not at all', () => {
    fc.assert(
      fc.property(fc.tuple(length, length, length, length), (four) => {
        const texts = four.map(({ text }) => text);
        const mm = four.map(({ inches }) => expect.closeTo(inches * inch, 9));
        const [ax, ay, bx, by] = texts;
        const [first, both] = [mm.slice(0, 2), [mm.slice(0, 2), mm.slice(2)]];
        for (const mark of ['; ', ', ', ';']) expect(parsePlace(ax + mark + ay, 'in', '--at')).toEqual(first);
        for (const found of [`${ax}, ${ay}; ${bx}, ${by}`, `${ax}; ${ay}; ${bx}; ${by}`, texts.join(', ')])
          expect(parseTwoPlaces(found, 'in', '--found')).toEqual(both);
        // Spaces stand inside fractions too: read right or refused, never wrong.
        const spaced: [() => unknown, unknown][] = [
          [() => parsePlace(`${ax} ${ay}`, 'in', '--at'), first],
          [() => parseTwoPlaces(`${ax}, ${ay} ${bx}, ${by}`, 'in', '--found'), both],
          [() => parseTwoPlaces(texts.join(' '), 'in', '--found'), both],
        ];
        for (const [read, right] of spaced) {
          let got: unknown = null;
          try {
            got = read();
          } catch (error) {
            expect(String(error)).toMatch(/takes (a place|two places) such as/);
          }
          if (got !== null) expect(got).toEqual(right);
        }
      }),
      { numRuns: 500 },
    );
  });

  it.each([
    ['30 1/2 19 1/4', [30.5, 19.25]],
    ['30.5 19.25', [30.5, 19.25]],
    ['775mm 489mm', [775 / inch, 489 / inch]],
    ['-1 1/2 22in', [-1.5, 22]],
    ['22,5; 14,25', [22.5, 14.25]],
    ['22,5', [22, 5]],
  ])('%s', (text, inches) =>
    expect(parsePlace(text, 'in', '--at')).toEqual(inches.map((each) => expect.closeTo(each * inch, 9))),
  );

  // One length, none, three.
  it.each(['30 1/2', '30', '', '1 2 3', '5in; 6in; 7in', 'here; there'])('%j is refused', (text) =>
    expect(() => parsePlace(text, 'in', '--at')).toThrow(/--at/),
  );

  it.each(['1 2 3', '1, 2', '1 1/2 3 1/2', '1; 2; 3; 4; 5'])('%j is refused for two places', (text) =>
    expect(() => parseTwoPlaces(text, 'in', '--found')).toThrow(/--found/),
  );
});

describe('the size of a top', () => {
  it.each(['60in x 72in', '60 x 72in', '60x72', '60 by 72', '60 in by 72 in', '60" × 72"', '60*72'])(
    '%s',
    (text) =>
      expect(parseSize(text, 'in', '--quilt')).toEqual([
        expect.closeTo(60 * inch, 9),
        expect.closeTo(72 * inch, 9),
      ]),
  );

  it.each(['60x', 'x72', '60', '60 x 72 x 3', ''])('%j names what is missing', (text) =>
    expect(() => parseSize(text, 'in', '--quilt')).toThrow(/--quilt takes a width and a height such as/),
  );
});
