/** What is said of a line in pieces, and of one that is stitched over itself: how much, where, and what to do. */
import { describe, expect, test } from 'vitest';
import type { Break } from '../../shared/study.js';
import { judge, messages } from './judge.js';

/** A gap at x = `gapMm`. */
const gap = (gapMm: number, shorterMm = 100): Break => ({
  from: { x: gapMm, y: 1 },
  to: { x: gapMm, y: -1 },
  at: { x: gapMm, y: 0 },
  gapMm,
  shorterMm,
});
const at = (...gapsMm: number[]) => gapsMm.map((x) => ({ x, y: 0 }));
/** The second stroke runs beside the first, and begins at `x`. */
const copiedAt = (x: number) => ({
  copies: () => ({ places: [{ stroke: 1 }], more: false }),
  motif: { strokes: [Float64Array.of(x, 1, 99, 1), Float64Array.of(x, -1, 99, -1)] },
});
const nearGap = (breaks: Break[], copied = copiedAt(90)) => judge('near-gap', { breaks, ...copied });

describe('near-gap', () => {
  const fact = { limit: 0.01, unit: 'mm' };

  test('one gap is two ends, several are told by the widest', () => {
    expect(nearGap([gap(0.5)])).toEqual([
      {
        at: at(0.5),
        places: 1,
        measured: 0.5,
        ...fact,
        message:
          'Two ends look joined but lie 0.5 mm apart. The machine would stop there: let linewright mend join them.',
      },
    ]);
    expect(nearGap([gap(1)])).toHaveLength(1);
    expect(nearGap([gap(0.5), gap(0.75), gap(3)])).toEqual([
      {
        at: at(0.75, 0.5),
        places: 2,
        measured: 0.75,
        ...fact,
        message:
          'At 2 places ends look joined but lie up to 0.75 mm apart. The machine would stop there: let linewright mend join them.',
      },
    ]);
    expect(nearGap([])).toEqual([]);
  });

  test('a gap of up to a quarter of the shape beside it is joined; beyond, the shape would be swallowed', () => {
    expect(nearGap([gap(0.5, 2)])).toHaveLength(1);
    expect(nearGap([gap(0.5, 1.9), gap(0.75, 2)])).toEqual([
      {
        at: at(0.75, 0.5),
        places: 2,
        measured: 0.75,
        ...fact,
        mend: null,
        message:
          'At 2 places ends look joined but lie up to 0.75 mm apart. They cannot be joined by themselves: that would swallow the small shape beside them, only 2 mm long. Join them in your drawing program, or make the motif larger.',
      },
    ]);
    const both = nearGap([gap(0.5, 1), gap(0.25, 2)]);
    expect(both.map(({ at, mend }) => [at, mend])).toEqual([
      [at(0.25), undefined],
      [at(0.5), null],
    ]);
  });

  test('the gap between a line and its copy is not to be joined', () => {
    expect(nearGap([gap(0.5), gap(0.75)], copiedAt(0.5))).toEqual([
      expect.objectContaining({ at: at(0.75), message: expect.stringContaining('linewright mend join') }),
      {
        at: at(0.5),
        places: 1,
        measured: 0.5,
        ...fact,
        mend: 'untrace',
        message:
          'Two ends look joined but lie 0.5 mm apart. One belongs to a copy drawn beside the line, and joined to it the line would turn back: leave the copy out first, or let linewright mend --reshape leave it out.',
      },
    ]);
  });
});

describe('one-stroke', () => {
  const told = (gaps: number[], partGapsMm: number[] | null) =>
    messages('one-stroke', { breaks: gaps.map((mm) => gap(mm)), partGapsMm })[0];
  const advice =
    'The machine would stop at each. Join them in your drawing program, or let linewright mend --reshape find one line through them.';

  test('one gap is a gap, several are up to the widest', () => {
    expect(judge('one-stroke', { breaks: [gap(12)], partGapsMm: [12] })).toEqual([
      {
        at: [
          { x: 12, y: 1 },
          { x: 12, y: -1 },
        ],
        places: 2,
        measured: 12,
        limit: 1,
        unit: 'mm',
        message: `The line is in 2 pieces, with a gap of 12 mm between them. ${advice}`,
      },
    ]);
    expect(told([12, 15], [15, 12])).toBe(
      `The line is in 3 pieces, with gaps of up to 15 mm between them. ${advice}`,
    );
    expect(judge('one-stroke', { breaks: [gap(1)], partGapsMm: [1] })).toEqual([]);
  });

  test('where lines lie nearer than their ends, or touch, it says so', () => {
    expect(told([12], [11])).toBe(
      `The line is in 2 pieces that lie 11 mm apart: their nearest ends are 12 mm from each other. ${advice}`,
    );
    expect(told([12, 15], [11, 9])).toBe(
      `The line is in 3 pieces that lie up to 11 mm apart: their nearest ends are up to 15 mm from each other. ${advice}`,
    );
    // Parts no farther apart than ends that are joined count as touching.
    expect(told([12], [1])).toBe(
      `The line is in 2 pieces that touch or cross but do not follow on: their nearest ends are 12 mm from each other. ${advice}`,
    );
    expect(told([80, 40, 30], [10, 9])).toBe(
      `The line is in 4 pieces: some touch or cross but do not follow on, and what does not touch is in 3 groups that lie up to 10 mm apart; their nearest ends are up to 80 mm from each other. ${advice}`,
    );
    expect(told([80, 40], null)).toBe(
      `The line is in 3 pieces: their nearest ends are up to 80 mm from each other. ${advice}`,
    );
  });
});

describe('repeated-line', () => {
  interface Given {
    stretches?: number[];
    copied?: number[];
    beside?: { lengthMm: number; offMm: number }[];
    spareMm?: number | null;
    lengthMm?: number;
    more?: boolean;
    moreBeside?: boolean;
  }
  /** Each at x = its length. */
  const facts = ({
    stretches = [],
    copied = [],
    beside = [],
    spareMm = null,
    lengthMm = 1000,
    more,
    moreBeside = false,
  }: Given) => ({
    retraces: {
      totalMm: stretches.reduce((sum, mm) => sum + mm, 0),
      stretches: stretches.map((extraMm) => ({ at: { x: extraMm, y: 0 }, extraMm })),
      more: more ?? false,
    },
    duplicates: copied.map((lengthMm) => ({ at: { x: lengthMm, y: 0 }, lengthMm, stroke: 0 })),
    copies: (withinMm: number) => ({
      places: withinMm === 0.8 ? beside.map((copy) => ({ ...copy, at: { x: copy.lengthMm, y: 0 } })) : [],
      more: moreBeside,
    }),
    lengthMm,
    spareMm,
  });
  const told = (given: Given) => judge('repeated-line', facts(given));
  const fact = { limit: 2, unit: 'mm' };

  test('stretches: how much, in how many, the longest first', () => {
    expect(told({ stretches: [10, 30] })).toEqual([
      {
        at: at(30, 10),
        measured: 40,
        ...fact,
        atLeast: false,
        mend: 'untrace',
        message:
          '40 mm of the line is stitched over again, in 2 stretches. Delete what is drawn twice, or let linewright mend --reshape leave it out where the line stays in one piece.',
      },
    ]);
    expect(told({ stretches: [30], more: true })).toMatchObject([
      { atLeast: true, message: expect.stringMatching(/^At least 30 mm .* in 1 stretch\. /) },
    ]);
  });

  test('sends to the mend for what it can leave out, and says what has to stay', () => {
    const stays =
      'has to stay for the line to be one as it is drawn. To have less of it, let the pieces touch or cross in your drawing program, draw a dead end as a narrow loop, and where the line goes on, back and on again beside itself, leave out two of the three passes';
    const advice = (spareMm: number, stretches = [40]) => {
      const [{ mend, message }] = told({ stretches, spareMm });
      return [mend, message.replace(/^.* stretch(es)?\. /, '')];
    };
    const leaveOut = 'Delete what is drawn twice, or let linewright mend --reshape leave';
    expect(advice(0)).toEqual([null, `All of it ${stays}.`]);
    expect(advice(40)).toEqual(['untrace', `${leaveOut} it out.`]);
    expect(advice(12)).toEqual(['untrace', `${leaveOut} out 12 mm of it; the rest ${stays}.`]);
    // A rest under a millimetre, or under a hundredth of all, is not worth a word.
    expect(advice(39.1)[1]).toBe(`${leaveOut} it out.`);
    expect(advice(39)[1]).toContain('out 39 mm of it');
    expect(advice(398, [400])[1]).toBe(`${leaveOut} it out.`);
    expect(advice(396, [400])[1]).toContain('out 396 mm of it');
  });

  test('exact copies are dropped by the mend that always runs', () => {
    expect(told({ copied: [30, 50], stretches: [10] })).toMatchObject([
      {
        at: at(50, 30),
        measured: 80,
        ...fact,
        mend: 'drop',
        message:
          '2 pieces of the line lie exactly on top of another, 80 mm in all, and would be stitched twice. Mending drops the copies.',
      },
      { measured: 10, mend: 'untrace' },
    ]);
    expect(told({ copied: [30] })).toEqual([
      {
        at: at(30),
        measured: 30,
        ...fact,
        mend: 'drop',
        message:
          '1 piece of the line lies exactly on top of another, 30 mm in all, and would be stitched twice. Mending drops the copy.',
      },
    ]);
  });

  test('copies drawn beside the line are told by the farthest off, and come before the rest', () => {
    const near = { lengthMm: 30, offMm: 0.4 };
    const far = { lengthMm: 50, offMm: 0.7 };
    const farther = { lengthMm: 20, offMm: 0.5 };
    expect(told({ beside: [near, far, farther], lengthMm: 100 })).toEqual([
      {
        at: at(50, 30, 20),
        places: 3,
        atLeast: false,
        measured: 100,
        // A hundredth of the line's length, where that is less than 2 mm.
        limit: 1,
        unit: 'mm',
        message:
          '3 pieces of the line run beside another all the way, no more than 0.7 mm off: 100 mm would be stitched twice. Delete the copies in your drawing program, or let linewright mend --reshape leave them out.',
      },
    ]);
    expect(told({ beside: [near] })[0].message).toBe(
      '1 piece of the line runs beside another all the way, no more than 0.4 mm off: 30 mm would be stitched twice. Delete the copy in your drawing program, or let linewright mend --reshape leave it out.',
    );
    expect(told({ beside: [near], moreBeside: true })[0]).toMatchObject({
      atLeast: true,
      message: expect.stringMatching(
        /^At least 1 piece of the line runs beside another all the way, these no more than 0.4 mm off: at least 30 mm would be stitched twice/,
      ),
    });
    // Even the shortest copy is a copy, whatever the limit.
    expect(told({ beside: [{ lengthMm: 0.5, offMm: 0.4 }], stretches: [30] })).toMatchObject([
      { measured: 0.5 },
      { measured: 30 },
    ]);
  });

  test('up to the limit nothing is said, of copies and stretches together', () => {
    expect(told({ stretches: [1], copied: [1] })).toEqual([]);
    expect(told({ stretches: [1], copied: [1.5] })).toHaveLength(2);
    expect(told({})).toEqual([]);
  });
});
