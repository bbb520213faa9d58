/** Strokes drawn a little past the one they end on: routed as the drawing is that ends on it exactly. */
import { describe, expect, test, vi } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { lengthOf, passesBy, polylineOf, reversed } from '../../src/geometry/polyline.js';
import { mendMotif } from '../../src/mend/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { line, randomFrom } from './drawings.js';
import { hausdorff } from './hausdorff.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000 });

const stem = line(0, 60, 70, 50, 130, 70, 200, 60);

function routed(strokes: readonly Polyline[], stitchesPerInch = defaultSetup.stitchesPerInch) {
  const setup = { ...defaultSetup, stitchesPerInch, unit: 'mm' } as const;
  const { motif, accounts } = mendMotif(motifOf(strokes), setup, { only: ['route'] });
  return { made: motif.strokes[0], account: accounts[0] };
}

/** A place on a stretch of the stem. */
function onStem(stretch: number, share: number): [number, number] {
  const [ax, ay, bx, by] = stem.slice(2 * stretch);
  return [ax + share * (bx - ax), ay + share * (by - ay)];
}

test('25 drawings of bows over a stem: the same line as of bows that end on it, whichever way they are drawn', () => {
  const random = randomFrom(7);
  for (let drawing = 0; drawing < 25; drawing++) {
    const [exact, over]: [Polyline[], Polyline[]] = [[stem], [stem]];
    for (let stretch = 0; stretch < 3; stretch++) {
      const [from, to] = [onStem(stretch, 0.15 + 0.2 * random()), onStem(stretch, 0.65 + 0.2 * random())];
      const [ax, ay] = [from[0] + 20 * random() - 10, 20 * random()];
      const past = ([x, y]: [number, number]) => {
        const share = (0.2 + 1.8 * random()) / Math.hypot(x - ax, y - ay);
        return [x + share * (x - ax), y + share * (y - ay)];
      };
      exact.push(line(...from, ax, ay, ...to));
      over.push(
        random() < 0.5 ? line(...past(from), ax, ay, ...past(to)) : line(...past(to), ax, ay, ...past(from)),
      );
    }
    const { made, account } = routed(over);
    expect(hausdorff([made], [routed(exact).made])).toBeLessThan(0.01);
    expect(account.message).toContain(
      '6 ends that went past the line by less than a stitch are cut off there.',
    );
    expect(account.places).toHaveLength(3 + 6 + account.added.length);
    const drawnMm = over.reduce((sum, each) => sum + lengthOf(each), 0);
    expect(account.addedMm).toBeCloseTo(lengthOf(made) - drawnMm, 2);
  }
});

test('two strokes past one another meet in a corner', () => {
  const { made, account } = routed([line(0, 60, 101, 9.5), line(99, 9.5, 200, 60)]);
  expect([...made].map((value) => Math.round(100 * value) / 100)).toEqual([0, 50, 100, 0, 200, 50]);
  expect(account.message).toContain('nothing is stitched twice.');
});

describe('what is drawn stays', () => {
  // From top to bottom of the drawing, so that its box stays.
  const level = line(0, 60, 40, 0, 80, 60, 90, 70, 95, 60, 200, 60);
  test.each([
    ['a whole stitch past the line', [line(100, 20, 100, 62.4)], [100, 62.4]],
    ['as a thorn across the line', [line(100, 58, 100, 62)], [100, 62]],
    ['as a thorn on the line', [line(100, 58, 100, 60)], [100, 58]],
    ['between two lines', [line(90, 61.55, 180, 61.55, 180, 55), line(100, 20, 100, 61.5)], [100, 60.7]],
    [
      'past the line where another ends',
      [line(100, 20, 100, 61.5), line(100.05, 61.2, 130, 61.2, 130, 20)],
      [100, 61.1],
    ],
    ['past the line where a row begins', [line(1.5, 61.5, 1.5, 20, 20, 20)], [1.5, 61.5]],
  ] as const)('%s', (_, strokes, [x, y]) => {
    const { made, account } = routed([level, ...strokes]);
    expect(passesBy(made, x, y, 0.001)).toBe(true);
    expect(account.message).not.toContain('cut off');
  });

  test('a copy on the line, that crosses it over and over by a hair', () => {
    const wave = Float64Array.from(
      Array.from({ length: 201 }, (_, i) => [i, 30 - 30 * Math.cos(i / 10)]).flat(),
    );
    const copy = wave
      .slice(60, 240)
      .map((value, i) => value + (i % 4 === 1 ? 1e-3 : i % 4 === 3 ? -1e-3 : 0));
    const { made, account } = routed([wave, copy]);
    expect(account.message).toBe('Found one line through 2 strokes: nothing is stitched twice.');
    expect(hausdorff([made], [wave])).toBeLessThan(0.003);
  });

  test('past the line by more than finer stitches', () => {
    const strokes = [level, line(100, 20, 100, 61.5)];
    expect(passesBy(routed(strokes).made, 100, 61.5, 0.3)).toBe(false);
    expect(passesBy(routed(strokes, 22).made, 100, 61.5, 0.001)).toBe(true);
  });
});

// A wave in two pieces that run on beside each other for a while, drawn either way: what is stitched runs on to the
// right all along, within what lies between the two.
describe('two ends that overlap are cut back to one line', () => {
  const wave = (from: number, to: number, offMm: number) =>
    polylineOf(
      Array.from({ length: to - from + 1 }, (_, i) => {
        const x = (from + i) / 4;
        return { x, y: 25 * Math.sin((Math.PI * x) / 50) + offMm };
      }),
    );
  const runsRight = (made: Polyline) => made.every((x, i) => i < 2 || i % 2 === 1 || x > made[i - 2]);
  test.each([
    [6, 0.3],
    [6, -0.8],
    [40, 0.3],
    [40, -0.8],
  ])('by %d quarters of a millimetre, %d mm off', (over, offMm) => {
    const [left, right] = [wave(0, 420 + over, 0), wave(420, 800, offMm)];
    for (const strokes of [
      [left, right],
      [reversed(right), left],
      [right, reversed(left)],
    ]) {
      const { made, account } = routed(strokes);
      expect(runsRight(made[0] < made[made.length - 2] ? made : reversed(made))).toBe(true);
      expect(hausdorff([made], motifOf(strokes).strokes)).toBeLessThan(Math.abs(offMm));
      expect(account.message).toContain('nothing is stitched twice.');
      expect(account.message).toContain('At 1 place two ends that overlapped are cut back to one line.');
    }
  });

  test('but not two that part, nor more than a quarter of a piece', () => {
    const arm = line(100, 0.6, 103, 0.6, 110, 30);
    expect(routed([line(0, 0, 102, 0), line(105, 50, ...arm)]).account.message).not.toContain('overlapped');
    expect(routed([line(0, 0, 102, 0), line(99, 0.6, 110, 0.6)]).account.message).not.toContain('overlapped');
    expect(routed([line(0, 0, 102, 0), line(99, 0.6, 112, 0.6)]).account.message).toContain('overlapped');
  });
});
