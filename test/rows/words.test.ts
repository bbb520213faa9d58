/** What is said of rows, whole, on facts given to it; how lengths are told in inches is tested elsewhere. */
import { describe, expect, test } from 'vitest';
import { type Layout, layouts } from '../../shared/layout.js';
import type { Nesting, RowsAtSpacing } from '../../shared/rows.js';
import { defaultSetup } from '../../shared/setup.js';
import type { Study } from '../../shared/study.js';
import {
  adviceOn,
  battingWords,
  howItLies,
  type JudgedRows,
  judgedRows,
  judgementWords,
  throatWords,
} from '../../src/rows/index.js';
import { plain } from '../rules/judge.js';

const say = plain();
const circle = (diameterMm: number) => ({ centre: { x: 0, y: 0 }, diameterMm });

function atSpacing(spacingMm: number, rest: Partial<RowsAtSpacing> = {}): RowsAtSpacing {
  const within = { inner: circle(20), seam: circle(18), largestOpenMm: 20, openness: 2, unevenness: 1.2 };
  return { spacingMm, ...within, ...rest };
}

function advice(rest: Partial<Nesting>, battingMm: number | null = null): string {
  const nesting: Nesting = {
    layout: 'straight',
    clearanceMm: 3,
    closestSpacingMm: 40,
    evenSpacingMm: 50,
    nestingOffsetMm: 10,
    even: atSpacing(50),
    interlocksMm: [],
    evened: true,
    gapMm: null,
    ...rest,
  };
  return adviceOn(nesting, battingMm, say);
}

const plainAdvice = 'Set the rows 50 mm apart, every row like the one above; they nest by 10 mm.';

describe('the advice', () => {
  test.each([
    ['straight', 'every row like the one above'],
    ['brick', 'every second row shifted by half a repeat'],
    ['mirrored', 'every second row flipped top to bottom and shifted by half a repeat'],
    ['turned', 'every second row turned by half a turn'],
  ] as const)('says how %s rows lie', (layout, how) => {
    expect(advice({ layout })).toBe(`Set the rows 50 mm apart, ${how}; they nest by 10 mm.`);
  });

  // Lengths are told to a tenth of a millimetre: less than half of that is none.
  test.each([
    [10, 'they nest by 10 mm'],
    [0.05, 'they nest by 0.05 mm'],
    [0.04, "that is the motif's own height"],
    [-0.04, "that is the motif's own height"],
    [-0.05, 'they stand apart by 0.05 mm'],
    [-7, 'they stand apart by 7 mm'],
  ])('of rows %d mm into each other', (nestingOffsetMm, how) => {
    expect(advice({ nestingOffsetMm })).toBe(
      `Set the rows 50 mm apart, every row like the one above; ${how}.`,
    );
  });

  test('of rows where nothing hides the seam says both circles, where there are two', () => {
    const even = atSpacing(50, { seam: circle(30), largestOpenMm: 30 });
    expect(advice({ evened: false, even })).toBe(
      `${plainAdvice} No spacing hides the seam altogether: circles of 30 mm stay open between the rows, of 20 mm inside the motif. That is the closest for a clearance of 3 mm.`,
    );
    expect(advice({ evened: false, even: atSpacing(50, { seam: null }) })).toBe(plainAdvice);
    expect(advice({ evened: false, even: atSpacing(50, { inner: null }) })).toBe(plainAdvice);
  });

  const open = 'The motif closes no pocket of its own, so it looks the same at any spacing: ';
  const asWide = `${plainAdvice} ${open}at that one the largest open circle is 20 mm. Say another with --gap; the closest for a clearance of 3 mm is 40 mm.`;
  const wider = `${plainAdvice} ${open}that is the closest for a clearance of 3 mm, and circles of 20 mm stay open.`;
  // Open circles are right to 0.1 mm: no more than that over the gap is the gap.
  test.each([
    [25, asWide],
    [20, asWide],
    [19.95, asWide],
    [19.9, asWide],
    [19.8, wider],
    [5, wider],
  ])('of a motif without pockets, for a gap of %d mm', (gapMm, words) => {
    expect(advice({ gapMm, even: atSpacing(50, { inner: null }) })).toBe(words);
  });

  test('of rows too open for the batting', () => {
    const tooOpen = `${plainAdvice} The largest open circle is 20 mm then, more than the 15 mm that the batting allows: stitch the motif smaller.`;
    expect(advice({}, 15)).toBe(tooOpen);
    expect(advice({}, 20)).toBe(plainAdvice);
  });
});

describe('the batting', () => {
  const told = (battingMm: number | null, widest: RowsAtSpacing | null) =>
    battingWords(
      {
        setup: { ...defaultSetup, battingMm },
        battingRows: (layout: Layout) => (layout === 'brick' ? widest : null),
      } as unknown as Study,
      'brick',
      { ...say, atMost: (mm) => `${mm} mm` },
    );
  test('says how far apart rows may be set', () => {
    expect(told(25, atSpacing(33))).toEqual([
      'The batting allows open circles of 25 mm: brick rows may be up to 33 mm apart.',
    ]);
  });
  test('says that no spacing is good', () => {
    expect(told(25, null)).toEqual([
      'The batting allows open circles of 25 mm: no spacing of brick rows keeps within that at this size.',
    ]);
  });
  test('says nothing where no limit is set', () => expect(told(null, atSpacing(33))).toEqual([]));
});

describe('the throat', () => {
  const told = (throatMm: number | null, spacingMm: number, heightMm = 100) =>
    throatWords({ setup: { ...defaultSetup, throatMm }, heightMm, widthMm: 200 } as Study, spacingMm, say);
  const holds = (rows: string) => [
    `The throat of 400 mm holds ${rows} at 60 mm before the quilt is rolled on, with the take-up roll empty.`,
  ];
  // The first row takes its height, each further one the spacing: 100 + 5 x 60 = 400.
  test('holds as many rows as reach into its depth', () => {
    expect(told(400, 60)).toEqual(holds('6 rows'));
    expect(told(400, 60, 100.001)).toEqual(holds('5 rows'));
    expect(told(400, 60, 99.999)).toEqual(holds('6 rows'));
    expect(told(400, 60, 400)).toEqual(holds('1 row'));
  });
  // At 0.1 + 0.2 mm the sum is over 0.3 by rounding alone.
  test('is not too shallow by a hair of rounding', () => {
    expect(told(0.3, 0.2, 0.1)[0]).toContain('holds 2 rows at');
  });
  test('too shallow for one row says the size that fits', () => {
    expect(told(80, 60)).toEqual([
      "The motif is taller than the throat's usable depth of 80 mm: the largest size that fits is 160 x 80 mm.",
    ]);
  });
  test('that was not given is not spoken of', () => expect(told(null, 60)).toEqual([]));
});

describe('how the motif lies', () => {
  const told = (rest: { strokes?: number; assumed?: boolean; dy?: number }) =>
    howItLies(
      {
        strokes: Array.from({ length: rest.strokes ?? 1 }, () => Float64Array.of(0, 0, 1, 1)),
        isOneStroke: (rest.strokes ?? 1) === 1,
        repeat: { dx: 120, dy: rest.dy ?? 0, assumed: rest.assumed ?? false },
      } as unknown as Study,
      say,
    );
  test('from edge to edge, level to half a millimetre: nothing', () => {
    expect(told({})).toEqual([]);
    expect(told({ dy: 0.5 })).toEqual([]);
    expect(told({ dy: -0.5 })).toEqual([]);
  });
  test('in many strokes', () =>
    expect(told({ strokes: 3 })).toEqual([
      'The motif is in 3 strokes: the rows are worked out with all of them as they lie.',
    ]));
  test('with ends that are not level', () => {
    const ends = (how: string) => [
      `The line ends ${how} than it starts: the rows are worked out as if every repeat began at the same height.`,
    ];
    expect(told({ dy: 4 })).toEqual(ends('4 mm lower'));
    expect(told({ dy: -4 })).toEqual(ends('4 mm higher'));
  });
  test('not from edge to edge', () => {
    const width =
      "The line does not run from one edge across to the other: the motif's width, 120 mm, is taken for the repeat.";
    expect(told({ assumed: true })).toEqual([width]);
    expect(told({ assumed: true, dy: 4 })).toEqual([width]);
    expect(told({ assumed: true, strokes: 2 })).toEqual([
      'The motif is in 2 strokes: the rows are worked out with all of them as they lie.',
      width,
    ]);
  });
});

describe('rows at a spacing of one’s own', () => {
  const study = (setup: object, rows?: object): Study =>
    ({
      motif: { rows },
      setup: { ...defaultSetup, clearanceMm: 3, ...setup },
      rowDistance: (layout: Layout, spacingMm: number) => ({
        spacingMm,
        leastMm: layout === 'turned' ? spacingMm / 10 : 0,
        at: { x: 7, y: 8 },
      }),
      rowsAt: (_: Layout, spacingMm: number) => atSpacing(spacingMm),
    }) as unknown as Study;

  test('are judged by the clearance', () => {
    const well = {
      layout: 'turned',
      spacingMm: 30,
      clearanceMm: 3,
      rows: atSpacing(30),
      leastMm: 3,
      at: { x: 7, y: 8 },
      clear: true,
    };
    expect(judgedRows(study({ spacingMm: 30 }), 'turned')).toEqual(well);
    expect(judgedRows(study({ spacingMm: 29 }), 'turned')).toMatchObject({ leastMm: 2.9, clear: false });
    expect(judgedRows(study({ spacingMm: 29 }), 'brick')).toMatchObject({ leastMm: 0, clear: false });
    // Stored with the motif, the clearance too; only for the layout that they were stored for.
    const stored = { layout: 'turned', spacing: 30, clearance: 2 };
    expect(judgedRows(study({}, stored), 'turned')).toEqual({ ...well, clearanceMm: 2 });
    expect(judgedRows(study({}, stored), 'brick')).toBeNull();
    for (const layout of layouts) expect(judgedRows(study({}), layout)).toBeNull();
  });

  const judged: JudgedRows = {
    layout: 'brick',
    spacingMm: 30,
    clearanceMm: 3,
    rows: atSpacing(30),
    leastMm: 4,
    at: { x: 7, y: 8 },
    clear: true,
  };
  const beside = { ...say, beside: (mm: number, besideMm: number) => `${mm} mm (beside ${besideMm} mm)` };
  test.each([
    [
      {},
      null,
      'At 30 mm, brick rows keep clear of each other, 4 mm (beside 3 mm) apart at the nearest; the largest open circle is 20 mm.',
    ],
    [
      { leastMm: 2, clear: false },
      20,
      'At 30 mm, brick rows come too near to each other, 2 mm (beside 3 mm) apart at the nearest, where the clearance is 3 mm; the largest open circle is 20 mm.',
    ],
    [
      { leastMm: 0, clear: false },
      19,
      'At 30 mm, brick rows cross; the largest open circle is 20 mm (beside 19 mm), more than the 19 mm that the batting allows.',
    ],
  ])('are told in a sentence: %o, batting %s', (rest, battingMm, words) => {
    expect(judgementWords({ ...judged, ...rest }, battingMm, beside)).toBe(words);
  });
});
