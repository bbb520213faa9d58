/** Which layout is recommended, and in which words. */
import { describe, expect, test } from 'vitest';
import type { Layout } from '../../shared/layout.js';
import type { Nesting } from '../../shared/rows.js';
import { sayIn } from '../../shared/say.js';
import { adviceOn, recommend } from '../../src/rows/index.js';

function nesting(layout: Layout, unevenness: number, openMm = 40, rest: Partial<Nesting> = {}): Nesting {
  const circle = { centre: { x: 0, y: 0 }, diameterMm: openMm };
  return {
    layout,
    clearanceMm: 3,
    closestSpacingMm: 100,
    evenSpacingMm: 133.35,
    nestingOffsetMm: 22.225,
    even: {
      spacingMm: 133.35,
      inner: circle,
      seam: circle,
      largestOpenMm: openMm,
      openness: unevenness,
      unevenness,
    },
    interlocksMm: [],
    evened: true,
    gapMm: null,
    ...rest,
  };
}

describe('recommended is', () => {
  test('the layout of the least unevenness', () => {
    expect(recommend([nesting('straight', 2), nesting('brick', 1.5)], null)).toBe('brick');
  });
  test('the plainer one where it is as good to 3 %', () => {
    expect(recommend([nesting('turned', 1.5), nesting('straight', 1.54)], null)).toBe('straight');
    expect(recommend([nesting('turned', 1.5), nesting('straight', 1.55)], null)).toBe('turned');
    expect(recommend([nesting('turned', 1), nesting('straight', 1.03)], null)).toBe('straight');
  });
  test('among those that the batting allows', () => {
    const layouts = [nesting('straight', 2, 40), nesting('brick', 1.5, 60)];
    expect(recommend(layouts, 50)).toBe('straight');
    expect(recommend(layouts, 60)).toBe('brick');
  });
  test('where the batting allows none, the one that comes nearest', () => {
    expect(recommend([nesting('straight', 2, 70), nesting('brick', 2.5, 60)], 50)).toBe('brick');
  });
});

describe('the advice', () => {
  const inInches = sayIn('in');
  test('is a sentence to act on', () => {
    expect(adviceOn(nesting('brick', 1.5), null, inInches)).toBe(
      'Set the rows 5 1/4 in (133.4 mm) apart, every second row shifted by half a repeat; they nest by 7/8 in (22.2 mm).',
    );
  });
  test('says in words that rows stand apart', () => {
    expect(adviceOn(nesting('straight', 1.5, 40, { nestingOffsetMm: -3.175 }), null, sayIn('mm'))).toBe(
      'Set the rows 133.4 mm (5 1/4 in) apart, every row like the one above; they stand apart by 3.2 mm (1/8 in).',
    );
  });
  test('says both circles where no spacing hides the seam', () => {
    const even = { ...nesting('straight', 1).even, seam: { centre: { x: 0, y: 0 }, diameterMm: 50.8 } };
    expect(adviceOn(nesting('straight', 1, 25.4, { even, evened: false }), null, inInches)).toContain(
      'circles of 2 in (50.8 mm) stay open between the rows',
    );
  });
  test('names the gap where the motif closes no pocket, and how to choose another', () => {
    const even = { ...nesting('straight', 1, 25.4).even, inner: null };
    expect(adviceOn(nesting('straight', 1, 25.4, { even, gapMm: 25.4 }), null, inInches)).toContain(
      'at that one the largest open circle is 1 in (25.4 mm). Say another with --gap',
    );
    // The clearance leaves a wider one.
    expect(adviceOn(nesting('straight', 1, 25.4, { even, gapMm: 10 }), null, inInches)).toContain(
      'that is the closest for a clearance of 1/8 in (3 mm), and circles of 1 in (25.4 mm) stay open',
    );
  });
  test('says so where the batting allows less', () => {
    expect(adviceOn(nesting('straight', 1, 76.2), 50.8, inInches)).toContain(
      'The largest open circle is 3 in (76.2 mm) then, more than the 2 in (50.8 mm) that the batting allows',
    );
  });
});
