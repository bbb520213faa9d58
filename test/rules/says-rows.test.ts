/** What is said of rows and sizes: the circle, the distance or the length, and the spacing or the size that is enough. */
import { describe, expect, test } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { here, judge, there } from './judge.js';

const circle = (diameterMm: number, centre = here) => ({ centre, diameterMm });

describe('open-area', () => {
  interface Given {
    batting?: number | null;
    spacing?: number | null;
    even?: object;
    rows?: object;
    clearanceMm?: number;
  }
  /** Rows at 80 mm, where their even spacing is 60 mm: a circle of 50 mm inside the motif at both, batting for 40 mm. */
  function told({ batting = 40, spacing = 80, even, rows, clearanceMm = 2 }: Given) {
    const within = { inner: circle(50), seam: circle(30, there), largestOpenMm: 50 };
    return judge('open-area', {
      motif: {},
      setup: { ...defaultSetup, battingMm: batting, spacingMm: spacing },
      widthMm: 200,
      heightMm: 100,
      nesting: () => ({
        even: { spacingMm: 60, ...within, ...even },
        clearanceMm,
        closestSpacingMm: 40,
      }),
      rowsAt: (layout: string, spacingMm: number) =>
        layout === 'straight' && { spacingMm, ...within, ...rows },
    });
  }

  test('a circle inside the motif shrinks with it, but for the clearance in it', () => {
    // 2 mm of clearance in a circle of 50 mm: (40 - 2) / (50 - 2) = 0.79167 of 200 x 100 mm.
    expect(told({})).toEqual([
      {
        at: [here],
        measured: 50,
        limit: 40,
        unit: 'mm',
        message:
          'With straight rows 80 mm apart, a circle of 50 mm inside the motif holds no stitching; the batting allows 40 mm. Stitch the motif smaller, at about 158.33 x 79.17 mm, with its rows as much closer, or choose another layout.',
      },
    ]);
    // No size is small enough where the clearance alone is more than the batting allows.
    expect(told({ clearanceMm: 40 })[0].message).toMatch(
      /Stitch the motif smaller, with its rows as much closer, or choose another layout\.$/,
    );
    expect(told({ clearanceMm: 45 })[0].message).toContain('Stitch the motif smaller, with its rows');
  });

  test('a circle between rows goes where they are set closer', () => {
    const seam = { seam: circle(50, there), inner: circle(30) };
    expect(told({ rows: seam, even: { ...seam, largestOpenMm: 40 } })).toEqual([
      {
        at: [there],
        measured: 50,
        limit: 40,
        unit: 'mm',
        message:
          'With straight rows 80 mm apart, a circle of 50 mm between two rows holds no stitching; the batting allows 40 mm. Set them 60 mm apart: there it is 40 mm.',
      },
    ]);
    expect(told({ rows: { seam: null, inner: circle(50) }, even: seam })).toMatchObject([{ at: [here] }]);
  });

  test('without a spacing the even one is looked at', () => {
    expect(told({ spacing: null })[0].message).toMatch(/^With straight rows 60 mm apart, /);
    expect(told({ rows: { seam: null, inner: null, largestOpenMm: 50 } })).toMatchObject([{ at: [] }]);
  });

  test('up to what the batting allows, and where no limit is set, nothing is said', () => {
    expect(told({ batting: 50 })).toEqual([]);
    expect(told({ batting: null })).toEqual([]);
  });
});

describe('row-collision', () => {
  function told(leastMm: number, setup: object = {}, told = 2) {
    return judge('row-collision', {
      motif: {},
      setup: { ...defaultSetup, spacingMm: 30, clearanceMm: 2, ...setup },
      rowDistance: (layout: string, spacingMm: number) =>
        layout === 'straight' && spacingMm === 30 && { leastMm, at: here },
      nesting: () => ({ closestSpacingMm: 31.5, clearanceMm: told }),
    });
  }

  test('says how near rows come, or that they cross, and the spacing that is enough', () => {
    expect(told(1.5)).toEqual([
      {
        at: [here],
        measured: 1.5,
        limit: 2,
        unit: 'mm',
        message:
          'Set 30 mm apart, straight rows come as near to each other as 1.5 mm; the clearance is 2 mm. Set them 31.5 mm apart or more.',
      },
    ]);
    expect(told(0)[0].message).toBe(
      'Set 30 mm apart, straight rows cross; the clearance is 2 mm. Set them 31.5 mm apart or more.',
    );
    // The nesting may have been worked out for another clearance than the one stored with the motif.
    expect(told(1.5, {}, 3)[0].message).toMatch(/Set them 31.5 mm apart or more for a clearance of 3 mm\.$/);
  });

  test('rows that keep the clearance, or whose spacing is not chosen, are well', () => {
    expect(told(2)).toEqual([]);
    expect(told(1.5, { spacingMm: null })).toEqual([]);
  });
});

describe('row-nesting', () => {
  function told({ heightMm = 60, stacked = 4, even = 2, nestingOffsetMm = 15 }) {
    return judge('row-nesting', {
      motif: {},
      heightMm,
      nesting: () => ({
        closestSpacingMm: 40,
        evenSpacingMm: 45,
        nestingOffsetMm,
        clearanceMm: 2,
        even: { unevenness: even },
      }),
      // Rows cannot be stacked at no distance.
      rowsAt: (layout: string, spacingMm: number) =>
        layout === 'straight' && spacingMm === 60 ? { unevenness: stacked, largestOpenMm: 35 } : null!,
    });
  }
  const band =
    "Set apart by the motif's height, 60 mm, straight rows leave a band open: circles of 35 mm hold no stitching.";
  const closest = 'The closest for a clearance of 2 mm is 40 mm.';

  test('says how open they are, and the spacings that are better', () => {
    expect(told({})).toEqual([
      {
        measured: 200,
        limit: 125,
        unit: 'percent',
        message: `${band} Set them 45 mm apart instead: they then nest by 15 mm. ${closest}`,
      },
    ]);
    expect(told({ nestingOffsetMm: 0 })[0].message).toContain('they then nest by 0 mm.');
    expect(told({ nestingOffsetMm: -15 })[0].message).toBe(
      `${band} Set them 45 mm apart instead: they still stand apart by 15 mm. ${closest}`,
    );
  });

  test('up to a quarter more uneven is about as even, and a line without height or circles has no rows', () => {
    expect(told({ stacked: 2.5 })).toEqual([]);
    expect(told({ stacked: 2.52 })).toHaveLength(1);
    expect(told({ even: 0 })).toEqual([]);
    expect(told({ stacked: Number.NaN })).toEqual([]);
    expect(told({ heightMm: 0 })).toEqual([]);
  });
});

describe('fits-throat', () => {
  test('gives the largest size of the same shape that fits', () => {
    const facts = { setup: { ...defaultSetup, throatMm: 240 }, widthMm: 450, heightMm: 300 };
    expect(judge('fits-throat', facts)).toEqual([
      {
        measured: 300,
        limit: 240,
        unit: 'mm',
        message:
          'The motif is 300 mm tall, more than the usable depth of 240 mm. The largest size that fits is 360 x 240 mm: give it with --height.',
      },
    ]);
    expect(judge('fits-throat', { ...facts, heightMm: 240 })).toEqual([]);
    expect(judge('fits-throat', { ...facts, setup: defaultSetup })).toEqual([]);
  });
});

describe('plausible-size', () => {
  const told = (widthMm: number, heightMm: number) => judge('plausible-size', { widthMm, heightMm });
  const advice = 'Check the units it was saved in, or give its size with --height or --width.';

  test('says on which side it is too large, and on which too small', () => {
    expect(told(5000, 9)).toEqual([
      {
        unit: 'mm',
        measured: 5000,
        limit: 3000,
        message: `The motif is 5000 x 9 mm: wider than 3000 mm. ${advice}`,
      },
      {
        unit: 'mm',
        measured: 9,
        limit: 10,
        message: `The motif is 5000 x 9 mm: lower than 10 mm. ${advice}`,
      },
    ]);
    expect(told(9, 5000).map(({ message }) => message)).toEqual([
      `The motif is 9 x 5000 mm: taller than 3000 mm. ${advice}`,
      `The motif is 9 x 5000 mm: narrower than 10 mm. ${advice}`,
    ]);
    expect(told(3000, 10)).toEqual([]);
  });
});
