/** What rules say and how they weigh it, on facts given to them; that the facts are right is tested elsewhere. */
import { describe, expect, test } from 'vitest';
import { rules } from '../../rules/index.js';
import type { IntakeNote } from '../../shared/artwork.js';
import { sayIn } from '../../shared/say.js';
import { defaultSetup } from '../../shared/setup.js';
import type { Break, Study } from '../../shared/study.js';
import { motifOf } from '../../src/size/motif-of.js';

type Facts = { [K in keyof Study]?: unknown };

function judge(id: string, facts: Facts) {
  const rule = rules.find((one) => one.id === id)!;
  const setup = { ...defaultSetup, unit: 'mm' };
  return [...rule.judge({ setup, ...facts } as unknown as Study, rule.limits, sayIn('mm'))];
}

function noting(...notes: Partial<IntakeNote>[]) {
  const motif = motifOf([Float64Array.of(0, 0, 100, 50)]);
  return { ...motif, notes: notes.map((note) => ({ count: 1, places: [], what: '', ...note })) };
}

const here = { x: 1, y: 2 };

describe('the rules', () => {
  test('stand in the order of the documentation', () => {
    const ids = rules.map(({ id }) => id);
    expect(ids).toEqual([
      'physical-size',
      'no-namespace',
      'stray-artwork',
      'hidden-artwork',
      'broken-path',
      'traced-line',
      'outlined-line',
      'one-stroke',
      'near-gap',
      'repeated-line',
      'opposite-edges',
      'level-ends',
      'runs-left-to-right',
      'smooth-join',
      'repeat-collision',
      'tight-curve',
      'sharp-turn',
      'crowded-lines',
      'thread-pile',
      'short-steps',
      'row-nesting',
      'row-collision',
      'open-area',
      'fits-throat',
      'plausible-size',
    ]);
  });

  test('stand back only for earlier rules', () => {
    rules.forEach(({ unless = [] }, i) => {
      const earlier = rules.slice(0, i).map(({ id }) => id);
      expect(unless.filter((id) => !earlier.includes(id))).toEqual([]);
    });
  });

  test('speak in sentences', () => {
    for (const { id, what, why, remedy } of rules)
      for (const text of [what, why, remedy]) expect(`${id}: ${text}`).toMatch(/^[a-z-]+: [A-Z].*[.)]$/);
  });
});

describe('physical-size', () => {
  // 1in = 96px = 72pt (CSS Values and Units 3, 6.2): the same number of units is a third larger at 72 to the inch.
  test('says what 96 and 72 units to the inch would give', () => {
    const facts = { motif: { assumedSize: true }, widthMm: 150, heightMm: 75 };
    expect(judge('physical-size', facts)[0].message).toContain('150 x 75 mm');
    expect(judge('physical-size', facts)[0].message).toContain('200 x 100 mm');
    expect(judge('physical-size', { ...facts, motif: { assumedSize: false } })).toEqual([]);
  });
});

describe('stray-artwork', () => {
  test('names and counts what was left out', () => {
    const motif = noting(
      { kind: 'text', what: 'text', count: 2 },
      { kind: 'image', what: 'picture', places: [here] },
    );
    const [verdict, ...rest] = judge('stray-artwork', { motif, dots: [], marks: [] });
    expect(rest).toEqual([]);
    expect(verdict).toMatchObject({ measured: 3, unit: 'count', at: [here] });
    expect(verdict.message).toContain('2 texts and 1 picture');
  });

  test('adds dots of the file to dots of the line', () => {
    const motif = noting({ kind: 'dot', what: 'dot', count: 4, places: [{ x: 9, y: 9 }] });
    const [verdict] = judge('stray-artwork', { motif, dots: [here], marks: [] });
    expect(verdict).toMatchObject({ measured: 5, at: [here, { x: 9, y: 9 }] });
  });

  test('tells marks, frames, cuts and missing parts apart', () => {
    const motif = noting(
      { kind: 'cut', what: "clip 'page'" },
      { kind: 'missing', what: "'#leaf'", count: 3 },
    );
    const marks = [
      { kind: 'frame', at: here, strokes: [1] },
      { kind: 'mark', at: here, strokes: [2] },
      { kind: 'mark', at: here, strokes: [3] },
    ];
    const verdicts = judge('stray-artwork', { motif, dots: [], marks });
    expect(verdicts.map(({ measured, mend }) => [measured, mend])).toEqual([
      [2, undefined],
      [1, undefined],
      [1, null],
      [3, null],
    ]);
    expect(verdicts[3].message).toContain("'#leaf' (3 times)");
  });
});

describe('hidden-artwork and broken-path', () => {
  test('hidden lines are counted by how they are hidden', () => {
    const motif = noting(
      { kind: 'hidden', what: 'invisible', count: 2 },
      { kind: 'hidden', what: 'transparent' },
    );
    const [verdict] = judge('hidden-artwork', { motif });
    expect(verdict.measured).toBe(3);
    expect(verdict.message).toContain('3 lines');
    expect(verdict.message).toContain('2 invisible and 1 transparent');
  });

  test('each broken path is told with its character and its line, what was left out with how much', () => {
    const motif = noting(
      { kind: 'broken-path', what: "path 'leaf'", offset: 1234, fileLine: 7, places: [here] },
      { kind: 'broken-path', what: 'polyline', count: 2, fileLine: 31 },
    );
    const [first, second] = judge('broken-path', { motif });
    expect(first).toMatchObject({ measured: 1234, unit: 'count', at: [here] });
    expect(first.message).toContain("path 'leaf' breaks off at character 1,234 of its data, on line 7");
    expect(second.message).toContain(
      '2 polylines could not be read and were left out, the first on line 31 of the file',
    );
  });
});

describe('gaps', () => {
  const gap = (gapMm: number, shorterMm = 100): Break => ({
    from: { x: gapMm, y: 1 },
    to: here,
    at: { x: gapMm, y: 0 },
    gapMm,
    shorterMm,
  });

  test('up to the join tolerance they are near, beyond it pieces', () => {
    const facts = { breaks: [gap(0.3), gap(1), gap(1.01), gap(5)], partGapsMm: [5, 1.01, 1, 0.3] };
    expect(judge('near-gap', facts)[0]).toMatchObject({ measured: 1, at: [{ x: 1 }, { x: 0.3 }] });
    expect(judge('one-stroke', facts)[0]).toMatchObject({
      measured: 5,
      limit: 1,
      // Both on the line: where the piece before ends, and where the next one starts.
      at: [{ x: 5, y: 1 }, here, { x: 1.01, y: 1 }, here],
    });
    expect(judge('one-stroke', facts)[0].message).toContain('3 pieces');
  });

  test('pieces are told by how their lines lie, not only by their ends', () => {
    const told = (gaps: number[], partGapsMm: number[] | null) =>
      judge('one-stroke', { breaks: gaps.map((mm) => gap(mm)), partGapsMm })[0].message;
    expect(told([12], [12])).toMatch(/in 2 pieces, with a gap of 12 mm/);
    expect(told([28.4], [])).toMatch(/2 pieces that touch or cross but do not follow on: .* are 28.4 mm/);
    expect(told([28.4], [])).not.toContain('gap');
    expect(told([80, 40, 30], [10, 9.5, 9])).toMatch(
      /4 pieces that lie up to 10 mm .* apart: .* up to 80 mm/,
    );
    expect(told([80, 40, 30], [10, 0.5])).toMatch(
      /4 pieces: some touch .* in 2 groups that lie 10 mm .* apart/,
    );
    expect(told([80, 40], null)).toMatch(/3 pieces: their nearest ends are up to 80 mm/);
  });

  test('no mend where joining would swallow a small shape', () => {
    const [joinable, not] = judge('near-gap', { breaks: [gap(0.5, 2), gap(0.6, 2.3)] });
    expect(joinable).toMatchObject({ measured: 0.5 });
    expect(joinable.mend).toBe(undefined);
    expect(not).toMatchObject({ measured: 0.6, mend: null });
    expect(not.message).toContain('2.3 mm');
  });
});

describe('repeated-line', () => {
  const facts = (totalMm: number, lengthMm: number, copies: number[] = []) => ({
    retraces: {
      totalMm,
      stretches: totalMm > 0 ? [{ from: here, at: here, to: here, extraMm: totalMm }] : [],
    },
    duplicates: copies.map((length) => ({ at: here, lengthMm: length, stroke: 0 })),
    copies: () => [],
    lengthMm,
    spareMm: null,
  });

  test('sends to the mend for what it can leave out, and to the drawing for the rest', () => {
    const told = (spareMm: number | null) => judge('repeated-line', { ...facts(20, 1000), spareMm })[0];
    expect(told(20)).toMatchObject({ mend: 'untrace' });
    expect(told(20).message).toMatch(/mend --reshape leave it out\.$/);
    expect(told(12)).toMatchObject({ mend: 'untrace' });
    expect(told(12).message).toMatch(/leave out 12 mm .* of it; the rest has to stay/);
    expect(told(0)).toMatchObject({ mend: null, measured: 20 });
    expect(told(0).message).toContain('All of it has to stay');
    expect(told(0).message).not.toContain('mend');
    expect(told(null).message).toContain('where the line stays in one piece');
  });

  test('fires over 2 mm or over 1 % of the length, whichever is less', () => {
    expect(judge('repeated-line', facts(2, 1000))).toEqual([]);
    expect(judge('repeated-line', facts(2.1, 1000))[0]).toMatchObject({ measured: 2.1, limit: 2 });
    expect(judge('repeated-line', facts(1.1, 100))[0]).toMatchObject({ measured: 1.1, limit: 1 });
  });

  test('copies are dropped, stretches are not', () => {
    const verdicts = judge('repeated-line', facts(20, 1000, [30, 50]));
    expect(verdicts.map(({ measured, mend }) => [measured, mend])).toEqual([
      [80, 'drop'],
      [20, 'untrace'],
    ]);
  });
});

describe('ends', () => {
  const end = (x: number, y: number, leftMm: number, rightMm: number) => ({ at: { x, y }, leftMm, rightMm });
  const meeting =
    (leastMm: number, crossings = 0, lyingMm = 0) =>
    () => ({
      leastMm,
      lyingMm,
      at: here,
      crossings: Array.from({ length: crossings }, () => here),
    });
  const line = { isOneStroke: true, runsLeft: false, widthMm: 200, heightMm: 100 };
  const inset = {
    ...line,
    start: end(8, 50, 8, 192),
    end: end(200, 50, 200, 0),
    repeat: { dx: 192, dy: 0, assumed: false },
  };

  test('an inset end is a warning where neighbouring repeats meet, else information', () => {
    for (const [repeatMeeting, severity] of [
      [meeting(Infinity), 'info'],
      [meeting(0.9), 'info'],
      [meeting(0.7), 'warning'],
      [meeting(0, 1), 'warning'],
    ] as const)
      expect(judge('opposite-edges', { ...inset, repeatMeeting })).toMatchObject([
        { severity, measured: 8, limit: 1, at: [{ x: 8, y: 50 }] },
      ]);
  });

  test('repeats laid over each other are an error, those that cross here and there or lie on each other a warning', () => {
    const judged = (crossings: number, lyingMm = 0) =>
      judge('repeat-collision', { ...inset, repeatMeeting: meeting(0, crossings, lyingMm) });
    expect(judged(9)).toMatchObject([{ severity: 'error', measured: 0 }]);
    for (const found of [judged(8), judged(20, 60)]) expect(found[0].severity).toBe(undefined);
    expect(judged(20, 60)[0].message).toContain('of each repeat lies on the next');
    expect(judged(0)).toMatchObject([{ measured: 0 }]);
  });

  test('a line that runs to the left is measured at the same ends', () => {
    const turned = { ...inset, runsLeft: true, start: inset.end, end: inset.start };
    expect(judge('opposite-edges', { ...turned, repeatMeeting: meeting(5) })).toMatchObject([
      { measured: 8, at: [{ x: 8, y: 50 }] },
    ]);
  });

  test('a motif that runs down is told from one that comes back', () => {
    const assumed = { dx: 200, dy: 0, assumed: true };
    const down = { ...line, repeat: assumed, start: end(100, 0, 100, 100), end: end(90, 100, 90, 110) };
    expect(judge('opposite-edges', down)).toMatchObject([{ mend: 'turn', measured: 10, limit: 100 }]);
    const back = { ...line, repeat: assumed, start: end(0, 50, 0, 200), end: end(60, 50, 60, 140) };
    expect(judge('opposite-edges', back)).toMatchObject([{ measured: 60, limit: 100 }]);
    expect(judge('opposite-edges', back)[0].mend).toBe(undefined);
  });

  test('nothing is said of ends while the line is in pieces', () => {
    const pieces = {
      ...inset,
      isOneStroke: false,
      repeat: { dx: 192, dy: 9, assumed: true },
      joinTurnDeg: 90,
    };
    const facts = { ...pieces, runsLeft: true, repeatMeeting: meeting(0, 3) };
    for (const id of [
      'opposite-edges',
      'level-ends',
      'runs-left-to-right',
      'smooth-join',
      'repeat-collision',
    ])
      expect(judge(id, facts)).toEqual([]);
  });

  test('level-ends says whether the row climbs or sinks', () => {
    const drop = (dy: number) => judge('level-ends', { ...inset, repeat: { dx: 192, dy, assumed: false } });
    expect(drop(0.5)).toEqual([]);
    expect(drop(6)[0]).toMatchObject({ measured: 6, limit: 0.5, at: [{ x: 200, y: 50 }] });
    expect(drop(6)[0].message).toContain('sink');
    expect(drop(-6)[0]).toMatchObject({ measured: 6 });
    expect(drop(-6)[0].message).toContain('climb');
  });
});

describe('tight-curve', () => {
  const facts = (timesAsLarge: number | null, stitchesPerInch: number | null) => ({
    tightCurves: () => ({ places: [{ at: here, radiusMm: 1.2, cutMm: 0.5 }], more: false }),
    tightCurvesEnd: () => ({ timesAsLarge, stitchesPerInch }),
  });

  test('says what ends it, and nothing that does not', () => {
    const told = (times: number | null, perInch: number | null) =>
      judge('tight-curve', facts(times, perInch))[0].message;
    expect(told(1.6, 14)).toContain('1.6 times as large, or stitch it with 14 stitches to the inch, or draw');
    expect(told(2, null)).toContain('2 times as large, or draw it wider');
    expect(told(2, null)).not.toContain('to the inch');
    expect(told(null, null)).not.toContain('as large');
  });
});

describe('sizes', () => {
  test('fits-throat gives the largest size that fits', () => {
    const facts = { setup: { ...defaultSetup, throatMm: 240 }, widthMm: 450, heightMm: 300 };
    const [verdict] = judge('fits-throat', facts);
    expect(verdict).toMatchObject({ measured: 300, limit: 240 });
    expect(verdict.message).toContain('360 x 240 mm');
    expect(judge('fits-throat', { ...facts, heightMm: 240 })).toEqual([]);
    expect(judge('fits-throat', { ...facts, setup: defaultSetup })).toEqual([]);
  });

  test('plausible-size: from 10 mm to 3 m', () => {
    expect(judge('plausible-size', { widthMm: 3000, heightMm: 10 })).toEqual([]);
    expect(judge('plausible-size', { widthMm: 200, heightMm: 9 })).toMatchObject([
      { measured: 9, limit: 10 },
    ]);
    expect(judge('plausible-size', { widthMm: 3001, heightMm: 9 })).toMatchObject([
      { measured: 3001, limit: 3000 },
      { measured: 9, limit: 10 },
    ]);
  });
});
