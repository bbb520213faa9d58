/** What is said of a plan: bobbins, rows, links and batting, each read back out of the sentence. */
import { describe, expect, it } from 'vitest';
import type { Pass, Plan } from '../../shared/plan.js';
import { sayIn } from '../../shared/say.js';
import { defaultSetup } from '../../shared/setup.js';
import { changesIn, minutesText, rowsWords } from '../../src/plan/pass-words.js';
import { choiceWords, settingWords, sumsInWords, tooOpenWords } from '../../src/plan/plan-words.js';
import { planOf, planOfLine, wantedOf } from './planned.js';

const say = sayIn('in');

describe('rows', () => {
  it.each([
    [[4], 'row 4'],
    [[1, 2, 3], 'rows 1 to 3'],
    [[4, 8], 'rows 4 and 8'],
    [[2, 3, 4, 8, 10, 11], 'rows 2 to 4, 8 and 10 to 11'],
  ])('%j', (rows, words) => expect(rowsWords(rows, say)).toBe(words));
});

describe('the bobbin', () => {
  const pass = (rows: number[]) => ({ rows }) as unknown as Pass;
  const bobbins = {
    needed: 5,
    changeAfterRows: [1, 2, 3, 7],
    runsOutAt: [
      { row: 2, atMm: [254, 50.8] as const },
      { row: 2, atMm: [-25.4, 76.2] as const },
    ],
  };

  it('is told of the rows of the pass only, each row once', () => {
    expect(changesIn(pass([1, 2, 3]), { bobbins }, say)).toEqual([
      'new bobbin after rows 1 to 3',
      'the bobbin runs out in row 2 at 10 in across, 2 in down and at -1 in across, 3 in down',
    ]);
    expect(changesIn(pass([7]), { bobbins }, say)).toEqual(['new bobbin after row 7']);
    expect(changesIn(pass([4, 5, 6]), { bobbins }, say)).toEqual([]);
    expect(changesIn(pass([1]), { bobbins: null }, say)).toEqual([]);
  });
});

it('minutes of passes add up to about those of the whole', () => {
  // Nine passes of 4.1 minutes and one of 1: 37.9 in all.
  const told = [...Array(9).fill(4.1), 1].map((minutes) => Number(minutesText(minutes)));
  expect(Math.abs(told.reduce((a, b) => a + b) - 37.9)).toBeLessThan(1);
  expect(minutesText(0.2)).toBe('1');
});

/** A wave of 12 x 6 in from peak to peak, rows of it straight. */
const wave = Float64Array.from(
  Array.from({ length: 49 }, (_, i) => [
    (i / 48) * 304.8,
    76.2 - 76.2 * Math.cos((i / 48) * 2 * Math.PI),
  ]).flat(),
);

/** Rows that do not interlock. */
const apart = { spacingMm: 203.2 };

describe('a plan', () => {
  const plan = (
    widthMm: number,
    heightMm: number,
    marginMm: number,
    more: Partial<typeof defaultSetup> = {},
  ) =>
    planOfLine(wave, wantedOf(widthMm, heightMm, marginMm), { ...defaultSetup, layout: 'straight', ...more });
  const sums = (made: Plan) => sumsInWords(made, say)[0];

  it('says where its links lie, and that there are none', () => {
    expect(sums(plan(1000, 1200, 25.4))).toMatch(/ yd \([\d.]+ m\) of it links in the margin/);
    expect(sums(plan(1000, 1200, 0))).toMatch(/of it links along the top's edge/);
    // One row of one piece: nothing to link.
    const one = plan(304.8, 152.4, 0, apart);
    expect(one.totals.linkMm).toBe(0);
    expect(sums(one)).toContain('none of it links');
    expect(sums(one)).not.toMatch(/\b0(\.0+)? /);
  });

  it('of one row sets no distance between rows, and is shown once, not in every layout', () => {
    const one = planOfLine(wave, wantedOf(304.8, 152.4, 0), { ...defaultSetup, ...apart });
    expect(one.choices.map(({ layout, rows }) => [layout, rows])).toEqual([['straight', 1]]);
    expect(choiceWords(one.choices[0], say)).toContain('1 row, 1 pass');
    expect(settingWords(one, say)).toBe('Set the motif 6 in (152.4 mm) high: whole across and down.');
  });

  it('names the motif that the batting allows, and its circle then is within the limit', async () => {
    const batting = { ...defaultSetup, battingMm: 30 };
    const wanted = wantedOf(1524, 1828.8);
    const made = await planOf('kelp', wanted, batting);
    expect(made.choices[0].largestOpenMm).toBeGreaterThan(30);
    const [sentence] = tooOpenWords(made, batting, say);
    expect(sentence).toMatch(/more than the 1 3\/16 in \(30 mm\) that the batting allows/);
    const named = Number(/\((\d+(?:\.\d+)?) mm\) high, with --height/.exec(sentence)![1]);
    const smaller = { ...batting, heightMm: named };
    const again = await planOf('kelp', wanted, smaller);
    expect(again.choices[0].largestOpenMm).toBeLessThanOrEqual(30);
    expect(tooOpenWords(again, smaller, say)).toEqual([]);
    expect(tooOpenWords(made, { ...batting, battingMm: null }, say)).toEqual([]);
  });
});
