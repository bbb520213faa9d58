/** What the mend `route` takes up, what it leaves, and what it says of it, on drawings whose route is plain to see. */
import { expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { lengthOf, moved } from '../../src/geometry/polyline.js';
import { studyOf } from '../../src/measure/index.js';
import { mendMotif } from '../../src/mend/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { bufferOutline, walkedOutline } from '../pen-outline.js';
import { circle, connectedStrokes, line, randomFrom } from './drawings.js';

const setup = { ...defaultSetup, unit: 'mm' } as const;

function routed(...strokes: Polyline[]) {
  const { motif, accounts } = mendMotif(motifOf(strokes), setup, { only: ['route'] });
  return { line: motif.strokes[0], motif, account: accounts[0] };
}

const places = (all: readonly { x: number; y: number }[]) =>
  all
    .map(({ x, y }) => [x, y].map((v) => Math.round(100 * v) / 100))
    .sort((a, b) => a[0] - b[0] || a[1] - b[1]);

test('a branch is stitched there and back, and shown', () => {
  const { line: made, account } = routed(line(0, 0, 100, 0), line(50, 0, 50, 30));
  expect(lengthOf(made)).toBeCloseTo(160, 6);
  expect(account.message).toBe(
    'Found one line through 2 strokes: 30 mm (1 3/16 in) of it is stitched twice, the least that these ends allow.',
  );
  expect(account.addedMm).toBeCloseTo(30, 6);
  expect(account.movedMm).toBeLessThan(0.01);
  // Where the second stroke touches the first, and the middle of the branch.
  expect(places(account.places)).toEqual([
    [50, 0],
    [50, 15],
  ]);
  expect(account.added.map(lengthOf)).toEqual([30]);
});

test('a link between parts is told, and counted once', () => {
  const { line: made, account } = routed(line(0, 0, 48, 0), line(52, 0, 100, 0));
  expect(lengthOf(made)).toBeCloseTo(100, 6);
  expect(account.message).toBe(
    'Found one line through 2 strokes: nothing is stitched twice. 1 link between parts that did not touch is 4 mm (5/32 in) long.',
  );
  expect(account.addedMm).toBeCloseTo(4, 6);
  expect(places(account.places)).toEqual([[50, 0]]);
});

test('one line is routed anew only where that spares more than a millimetre', () => {
  const back = (mm: number) => routed(line(0, 0, 60, 0, 60 - mm, 0, 100, 0));
  expect(back(20).account.message).toBe('Found a better way along the line: nothing is stitched twice.');
  expect(back(20).account.addedMm).toBeCloseTo(-40, 6);
  expect(lengthOf(back(20).line)).toBeCloseTo(100, 6);
  expect(back(0.4).account).toBeUndefined();
  expect(routed(line(0, 0, 50, 20, 100, 0)).account).toBeUndefined();
  // A branch that has to be come back from stays as it is.
  expect(routed(line(0, 0, 50, 0, 50, 20, 50, 0, 100, 0)).account).toBeUndefined();
});

test('strokes of no length are no strokes', () => {
  const { account } = routed(line(0, 0, 48, 0), line(52, 0, 100, 0), line(20, 30, 20, 30));
  expect(account.message).toContain('through 2 strokes');
  expect(account.addedMm).toBeCloseTo(4, 6);
});

test('a line that comes back is led to a row', () => {
  const { line: made, account } = routed(line(0, 0, 100, 0, 50, 40, 0, 0.5));
  expect(account.message).toMatch(/^Found a better way along the line: /);
  expect(made[made.length - 2] - made[0]).toBeGreaterThan(50);
});

test('a row that was drawn twice, or has a dot beside it, is routed like strokes', () => {
  const row = line(0, 0, 50, 20, 100, 0);
  const twice = routed(row, row.slice());
  expect(twice.account.message).toBe('Found one line through 2 strokes: nothing is stitched twice.');
  expect(twice.account.mend).toBe('route');
  expect([...twice.line]).toEqual([...row]);
  expect(twice.account.addedMm).toBeCloseTo(-lengthOf(row), 9);
  // There and back over a link of 5 mm, and over the dot.
  const dotted = routed(row, line(50, 25, 50.3, 25));
  expect(dotted.account.message).toContain('1 link between parts that did not touch is 5 mm');
  expect(dotted.account.addedMm).toBeCloseTo(2 * 5 + 0.3, 9);
});

test.each([
  ['merged', (row: Polyline) => bufferOutline(row, 1)],
  ['walked', (row: Polyline) => [walkedOutline(row, 1)]],
])('the outline of a pen stroke, %s, is left as it is', (_, outlineOf) => {
  const wave = Float64Array.from(
    Array.from({ length: 41 }, (_, i) => [5 * i, 20 + 15 * Math.sin(i / 4)]).flat(),
  );
  expect(routed(...outlineOf(wave)).account).toBeUndefined();
});

test('of nothing but dots there is no route', () => {
  expect(() => routed(line(3, 3, 3.3, 3), line(8, 3, 8, 3))).toThrow('only dots');
});

// Once a link is drawn a line may leave from its middle, or go back over less of it.
test.each([3, 5, 8, 11, 35])(
  'parts of random lines, seed %d: looked for again there is no better way',
  (seed) => {
    const random = randomFrom(seed);
    const parts = 1 + Math.floor(3 * random());
    const drawn = Array.from({ length: parts }, (_, k) =>
      random() < 0.3
        ? [circle(120 * k + 50, 30, 10 + 20 * random(), 6 * random(), 40)]
        : connectedStrokes(random, 1 + Math.floor(3 * random())).map((each) => moved(each, 120 * k, 0)),
    ).flat();
    const { line: made, motif, account } = routed(...drawn);
    // Places are written to a thousandth of a millimetre.
    const drawnMm = drawn.reduce((sum, each) => sum + lengthOf(each), 0);
    expect(Math.abs(lengthOf(made) - drawnMm - account.addedMm)).toBeLessThan(0.01);
    expect(routed(made).account).toBeUndefined();
    // What is said of it is what is found.
    const said = Number(/([\d.]+) mm \([^)]*\) of it is stitched twice/.exec(account.message)?.[1] ?? 0);
    expect(Math.abs(studyOf(motif, setup).retraces.totalMm - said)).toBeLessThan(0.5);
  },
);
