/** What is said of what the needle makes of a line: the worst, how many places, and what ends it. */
import { describe, expect, test } from 'vitest';
import { here, judge, messages, there, yonder } from './judge.js';

/** Found only where it is asked for with the rule's own limits. */
function askedWith<T>(found: T, none: T, ...limits: number[]) {
  return (...asked: number[]) => (JSON.stringify(asked) === JSON.stringify(limits) ? found : none);
}

const nothing = { places: [], more: false };

describe('tight-curve', () => {
  const facts = (
    places: object[],
    timesAsLarge: number | null,
    stitchesPerInch: number | null,
    more = false,
    isShaky = false,
  ) => ({
    isShakyAt: askedWith(
      isShaky,
      nothing as never,
      (places[0] as { at?: unknown } | undefined)?.at as never,
      0.8,
    ),
    tightCurves: askedWith({ places, more }, nothing as never, 0.4),
    tightCurvesEnd: askedWith(
      { timesAsLarge, stitchesPerInch },
      { timesAsLarge: null, stitchesPerInch: null },
      0.4,
      20,
    ),
  });
  const worst = { at: here, radiusMm: 1.2, cutMm: 0.75 };
  const other = { at: there, radiusMm: 1, cutMm: 0.5 };

  test('one curve, what its stitch cuts off, and everything that ends it', () => {
    expect(judge('tight-curve', facts([worst], 1.6, 14))).toEqual([
      {
        at: [here],
        measured: 0.75,
        limit: 0.4,
        unit: 'mm',
        atLeast: false,
        message:
          '1 curve too tight for the stitch: at the worst, of radius 1.2 mm, a stitch cuts off 0.75 mm, more than 0.4 mm. To keep it round, stitch the motif 1.6 times as large, or stitch it with 14 stitches to the inch, or draw it wider.',
      },
    ]);
  });

  test('many curves, of which there may be more', () => {
    expect(judge('tight-curve', facts([worst, other], null, null, true))).toEqual([
      {
        at: [here, there],
        measured: 0.75,
        limit: 0.4,
        unit: 'mm',
        atLeast: true,
        message:
          'At least 2 curves too tight for the stitch: at the worst, of radius 1.2 mm, a stitch cuts off 0.75 mm, more than 0.4 mm. To keep them round, draw them wider.',
      },
    ]);
    expect(judge('tight-curve', facts([], 2, 20))).toEqual([]);
  });

  test('a line that can be smoothed, and the option that does it', () => {
    expect(messages('tight-curve', facts([worst], null, null, false, true))[0]).toMatch(
      / draw it wider\. If the hand shook there, linewright mend --reshape with --smooth 0\.8mm makes the line smooth\.$/,
    );
  });

  test('sizes are told without noughts that say nothing', () => {
    const told = (times: number) =>
      /motif (\S+) times/.exec(messages('tight-curve', facts([worst], times, null))[0])?.[1];
    expect([1.5, 2, 10, 1.05, 20.4].map(told)).toEqual(['1.5', '2', '10', '1.05', '20.4']);
  });
});

describe('sharp-turn', () => {
  test('counts the points', () => {
    const told = (...places: object[]) => judge('sharp-turn', { cusps: askedWith(places, [], 20) });
    expect(told(here, there)).toEqual([
      {
        at: [here, there],
        measured: 2,
        limit: 0,
        unit: 'count',
        message:
          'The line doubles back at 2 points, sharper than 20 degrees. If a point is not meant, round it or open it a little.',
      },
    ]);
    expect(told(here)[0].message).toMatch(/^The line doubles back at 1 point, /);
    expect(told()).toEqual([]);
  });
});

describe('crowded-lines', () => {
  const told = (more: boolean, ...leastMm: number[]) =>
    judge('crowded-lines', {
      crowding: askedWith(
        { places: leastMm.map((least) => ({ at: { x: least, y: 0 }, leastMm: least })), more },
        nothing as never,
        0.8,
        5,
      ),
    });

  test('says how near the nearest come, wherever that is', () => {
    const fact = { measured: 0.25, limit: 0.8, unit: 'mm' };
    const at = [0.5, 0.25, 0.75].map((x) => ({ x, y: 0 }));
    const where = 'Lines run side by side nearer than 0.8 mm, as near as 0.25 mm,';
    const advice = 'Draw them farther apart, or stitch the motif larger.';
    expect(told(false, 0.5, 0.25, 0.75)).toEqual([
      { at, ...fact, atLeast: false, message: `${where} in 3 places. ${advice}` },
    ]);
    expect(told(true, 0.5, 0.25, 0.75)).toEqual([
      { at, ...fact, atLeast: true, message: `${where} in at least 3 places. ${advice}` },
    ]);
    expect(told(false, 0.25)[0].message).toBe(`${where} in 1 place. ${advice}`);
    expect(told(false)).toEqual([]);
  });
});

describe('thread-pile', () => {
  const told = (more: boolean, ...places: object[]) =>
    judge('thread-pile', { lump: null, piles: askedWith({ places, more }, nothing as never, 4) });
  const advice = 'where thread would pile up. Move the passes apart by a stitch or so.';

  test('counts the passes of the worst place, and the other places', () => {
    expect(told(false, { at: here, passes: 7 })).toEqual([
      {
        at: [here],
        measured: 7,
        limit: 4,
        unit: 'count',
        atLeast: false,
        message: `The line runs 7 times through one place, ${advice}`,
      },
    ]);
    const piles = [here, there, yonder].map((at, i) => ({ at, passes: 7 - i }));
    expect(told(true, ...piles)).toEqual([
      {
        at: [here, there, yonder],
        measured: 7,
        limit: 4,
        unit: 'count',
        atLeast: true,
        message: `The line runs at least 7 times through one place, and 4 times or more through 2 others, ${advice}`,
      },
    ]);
    expect(told(false, piles[0], piles[1])[0].message).toContain('and 4 times or more through 1 other, ');
    expect(told(false)).toEqual([]);
  });

  test('of a lump says that alone, as an error', () => {
    expect(judge('thread-pile', { lump: { at: here, passes: 25_001 } })).toEqual([
      {
        at: [here],
        measured: 25_001,
        limit: 4,
        unit: 'count',
        severity: 'error',
        message:
          'The line runs 25,001 times through one place: that cannot be stitched. Take out in your drawing program what was drawn again and again; what else is wrong there is not looked for.',
      },
    ]);
  });
});

describe('short-steps', () => {
  const told = (count: number) =>
    judge('short-steps', {
      shortSteps: askedWith({ count, places: [here] }, { count: 0, places: [] as object[] }, 0.05),
    });
  const advice = 'shorter than 0.05 mm. Mending thins them; the line stays the same to the eye.';

  test('counts them', () => {
    expect(told(7200)).toEqual([
      {
        at: [here],
        measured: 7200,
        limit: 0,
        unit: 'count',
        message: `7,200 steps from point to point are ${advice}`,
      },
    ]);
    expect(told(1)[0].message).toBe(`1 step from point to point is ${advice}`);
    expect(told(0)).toEqual([]);
  });
});
