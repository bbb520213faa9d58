/** What each mend does to small drawings whose answer is plain to see. */
import { expect, test, vi } from 'vitest';
import type { Motif } from '../../shared/motif.js';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import {
  boundsOf,
  chained,
  firstPoint,
  lastPoint,
  lengthOf,
  pointsOf,
  polylineOf,
  reversed,
} from '../../src/geometry/polyline.js';
import { studyOf } from '../../src/measure/index.js';
import { type MendChoice, mendMotif } from '../../src/mend/index.js';
import { onlyMeeting } from '../../src/mend/row-cut.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { distanceTo, findingsOf } from '../checked.js';
import { circle, line } from './drawings.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000 });

function mended(strokes: readonly Polyline[] | Motif, choice: MendChoice = {}) {
  const motif = 'strokes' in strokes ? strokes : motifOf(strokes);
  return mendMotif(motif, defaultSetup, choice);
}

function curve(from: number, to: number, y: (x: number) => number, step = 0.5): Polyline {
  const count = Math.round((to - from) / step);
  return Float64Array.from(
    Array.from({ length: count + 1 }, (_, i) => from + (i * (to - from)) / count).flatMap((x) => [x, y(x)]),
  );
}

const level = (x: number) => 20 * Math.sin(x * (Math.PI / 50));
const wave = curve(0, 100, level);

test('drop: dots, copies in either direction, and what was left out on reading', () => {
  const notes = (['fill', 'text', 'hidden', 'cut'] as const).map((kind) => ({
    kind,
    what: kind,
    count: 2,
    places: [],
  }));
  const motif = motifOf([wave, wave.slice().reverse(), line(40, 30, 40.2, 30.1)], { notes });
  const backwards = motif.strokes[0].slice();
  for (let i = 0; i < backwards.length; i += 2)
    backwards.set(motif.strokes[0].slice(-2 - i, backwards.length - i), i);
  const given = { ...motif, strokes: [motif.strokes[0], backwards, motif.strokes[2]] };
  const { motif: left, accounts } = mended(given, { only: ['drop'] });
  expect(left.strokes.length).toBe(1);
  expect(left.notes.map(({ kind }) => kind)).toEqual(['hidden', 'cut']);
  expect(accounts[0].places.length).toBe(2);
  expect(accounts[0].addedMm).toBeCloseTo(-lengthOf(wave) - Math.hypot(0.2, 0.1), 2);
  expect(accounts[0].message).toContain('1 dot, 1 copy of a stroke');
});

test('drop: frames and registration marks only when reshaping', () => {
  const frame = line(-10, -30, 110, -30, 110, 30, -10, 30, -10, -30);
  expect(mended([wave, frame], { only: ['drop'] }).motif.strokes.length).toBe(2);
  const { motif, accounts } = mended([wave, frame], { only: ['drop'], reshape: true });
  expect(motif.strokes.length).toBe(1);
  expect(accounts[0].message).toContain('1 frame');
  const cross = [line(-20, 0, -17, 0), line(-18.5, -1.5, -18.5, 1.5)];
  expect(mended([wave, ...cross], { only: ['drop'], reshape: true }).motif.strokes.length).toBe(1);
});

test('join: both ends go halfway over the gap, whatever the order and direction', () => {
  const { motif, accounts } = mended([line(50.6, 0, 100, 0), line(50, 0, 0, 0)], { only: ['join'] });
  expect(motif.strokes.length).toBe(1);
  expect(accounts[0].movedMm).toBeCloseTo(0.3, 9);
  expect(accounts[0].addedMm).toBeCloseTo(0.6, 9);
  expect([...motif.strokes[0]].filter((_, i) => i % 2 === 0).sort((a, b) => a - b)).toEqual([0, 50.3, 100]);
});

test('join: ends that overshot each other make no hook', () => {
  const left = curve(0, 50.4, () => 0, 0.1);
  const right = curve(49.6, 100, () => 0.1, 0.1);
  const { motif } = mended([left, right], { only: ['join'] });
  const [joined] = motif.strokes;
  for (let i = 2; i < joined.length; i += 2) expect(joined[i]).toBeGreaterThanOrEqual(joined[i - 2]);
});

test('join: not beyond the tolerance, nor across more than a quarter of the shorter stroke', () => {
  expect(mended([line(0, 0, 50, 0), line(51.1, 0, 100, 0)], { only: ['join'] }).accounts).toEqual([]);
  expect(mended([line(0, 0, 50, 0), line(50.9, 0, 54, 0)], { only: ['join'] }).accounts).toEqual([]);
  expect(mended([line(0, 0, 50, 0), line(50.7, 0, 54, 0)], { only: ['join'] }).accounts.length).toBe(1);
});

test('untrace: three passes become one, and a twig that must be come back from stays', () => {
  const back = line(0, 0, 30, 10, 60, 0, 40, 20 / 3, 60, 0, 100, 0);
  const { motif, accounts } = mended([back], { only: ['untrace'] });
  expect(lengthOf(motif.strokes[0])).toBeCloseTo(lengthOf(line(0, 0, 30, 10, 60, 0, 100, 0)), 1);
  expect(accounts[0].addedMm).toBeCloseTo(-2 * Math.hypot(20, 20 / 3), 1);
  const twig = line(0, 0, 50, 0, 50, 20, 50, 0, 100, 0);
  expect(mended([twig], { only: ['untrace'] }).accounts).toEqual([]);
});

test('repeated-line promises what untrace then leaves out, and sends nobody to it in vain', () => {
  const back = line(0, 0, 30, 10, 60, 0, 40, 20 / 3, 60, 0, 100, 0);
  const twig = line(0, 0, 50, 0, 50, 20, 50, 0, 100, 0);
  const both = line(0, 0, 30, 10, 60, 0, 40, 20 / 3, 60, 0, 80, 0, 80, 25, 80, 0, 100, 0);
  const spare = 2 * Math.hypot(20, 20 / 3);
  for (const [drawn, spareMm] of [
    [back, spare],
    [twig, 0],
    [both, spare],
  ] as const) {
    const before = studyOf(motifOf([drawn]), defaultSetup).spareMm!;
    expect(before).toBeCloseTo(spareMm, 1);
    const { motif, accounts } = mended([drawn], { only: ['untrace'] });
    expect(before).toBeCloseTo(-(accounts[0]?.addedMm ?? 0), 2);
    expect(studyOf(motif, defaultSetup).spareMm).toBe(0);
  }
});

test('repeated-line does not work out what is spare where that takes longer than a check may', () => {
  const long = curve(0, 100, level, 0.002);
  const { spareMm } = studyOf(motifOf([chained([long, reversed(long), long])]), defaultSetup);
  expect(spareMm).toBeNull();
});

test('repeated-line says of what route made that it has to stay', () => {
  const drawn = [line(0, 0, 100, 0), line(40, 0, 40, 30), line(70, 3, 70, 20)];
  const { motif } = mended(drawn, { reshape: true });
  const told = findingsOf(motif).filter(({ rule }) => rule === 'repeated-line');
  expect(told).toMatchObject([{ mend: null }]);
  expect(told[0].message).toContain('has to stay');
});

test('untrace: a copy drawn a little off is left out, whole or in pieces, and what is farther off stays', () => {
  const shifted = (mm: number) => wave.map((v, i) => (i % 2 === 0 ? v : v + mm));
  for (const copies of [[shifted(0.4)], [shifted(0.3).slice(0, 150), shifted(-0.3).slice(150)]]) {
    const { motif, accounts } = mended([...copies, wave], { reshape: true });
    expect(accounts.map(({ mend }) => mend)).toContain('untrace');
    expect(motif.strokes).toHaveLength(1);
    expect(studyOf(motif, defaultSetup).lengthMm).toBeCloseTo(lengthOf(wave), 0);
    expect(findingsOf(motif).map(({ rule }) => rule)).not.toContain('repeated-line');
  }
  // A shift of 1 mm straight down leaves them 0.62 mm apart where the wave is steepest, its slope being 2 pi / 5.
  const apart = mended([wave, shifted(1)], { only: ['untrace'] });
  expect(apart.accounts).toEqual([]);
  // A copy beside a part of the line only, which goes on elsewhere, is no copy.
  const turnsOff = polylineOf([...pointsOf(shifted(0.3).slice(0, 100)), { x: 40, y: 60 }]);
  expect(mended([wave, turnsOff], { only: ['untrace'] }).accounts).toEqual([]);
});

test('copies are left out before a motif is turned: a level one that its copies led down was stood on end', async () => {
  const swell = 'M0 80C40 80 50 30 90 30C120 30 130 60 110 66C95 70 90 52 105 50C130 48 150 80 200 80';
  const paths = [swell, 'M0 80C40 80 50 30 90 30', swell].map(
    (d, k) => `<path d="${d}" transform="translate(0 ${k === 2 ? 0.2 : 0})" fill="none" stroke="#000"/>`,
  );
  const page = 'xmlns="http://www.w3.org/2000/svg" width="200mm" height="110mm" viewBox="0 0 200 110"';
  const bytes = new TextEncoder().encode(`<svg ${page}>${paths.join('')}</svg>`);
  const motif = toMotif(await readArtwork(bytes, 'swell.svg'), defaultSetup);
  const done = mendMotif(motif, defaultSetup, { reshape: true });
  expect(done.accounts.map(({ mend }) => mend)).toEqual(['untrace', 'thin']);
  expect(studyOf(done.motif, defaultSetup).lengthMm).toBeCloseTo(lengthOf(motif.strokes[0]), 0);
});

test('join: not an end to that of a copy, which would be a hairpin; what else meets is joined', () => {
  const copied = motifOf([line(0, 0, 50, 0), line(0, 0.5, 50, 0.5), line(50.4, 0.1, 100, 0)]);
  const { motif } = mendMotif(copied, defaultSetup, { only: ['join'] });
  expect(motif.strokes.map((stroke) => [...stroke.slice(0, 2), ...stroke.slice(-2)])).toEqual([
    [0, 0, 100, 0],
    [0, 0.5, 50, 0.5],
  ]);
});

test('reach: a row that an upright line meets once somewhere is cut there, and nothing moves', () => {
  // The line starts inside a curl: three passes over the start, one over the stretch from 60 on.
  const curl = line(20, 0, 30, 10, 0, 20, 60, 30, 120, 0);
  const { motif, accounts } = mended([curl], { only: ['reach'] });
  const [cut] = motif.strokes;
  expect(accounts[0]).toMatchObject({ movedMm: 0, added: [] });
  expect(accounts[0].message).toContain('meets only once');
  expect(lengthOf(cut)).toBeCloseTo(lengthOf(curl), 2);
  const box = boundsOf([cut]);
  expect(firstPoint(cut).x).toBe(box.minX);
  expect(lastPoint(cut).x).toBe(box.maxX);
  expect(box.maxX - box.minX).toBeCloseTo(100, 3);
  expect(lastPoint(cut).y).toBeCloseTo(firstPoint(cut).y, 3);
  // The old row, three repeats of it, holds every place of the new one, moved by the same amount.
  const row = [-1, 0, 1].map((k) => curl.map((v, i) => (i % 2 === 0 ? v + 100 * k : v)));
  const { at } = onlyMeeting(curl)!;
  const back = { x: at.x - firstPoint(cut).x, y: at.y - firstPoint(cut).y };
  for (const { x, y } of pointsOf(cut))
    expect(Math.min(...row.map((l) => distanceTo(l, { x: x + back.x, y: y + back.y })))).toBeLessThan(0.002);
});

test('reach: where no upright line meets the row only once, level lead lines go out to the edges', () => {
  // A full bight to the left over the start, so that every upright line meets the row three times.
  const bight = line(50, 0, 120, 30, -20, 40, 170, 50, 120, 15, 150, 0);
  const motif = motifOf([bight]);
  const { motif: led, accounts } = mended(motif, { only: ['reach'] });
  expect(accounts[0].message).toContain('lead lines go out');
  const [stroke] = led.strokes;
  expect(firstPoint(stroke)).toEqual({ x: 0, y: 0 });
  expect(lastPoint(stroke)).toEqual({ x: 190, y: 0 });
  expect(accounts[0].addedMm).toBeCloseTo(70 + 20, 6);
});

test('reach: a row whose repeats run into each other is not cut elsewhere, which would only hide it', () => {
  // It starts inside a curl, which the next repeat's end runs through.
  const curl = line(40, 20, 50, 10, 50, 30, 0, 30, 0, -10, 120, 40, 130, 20);
  const { motif, accounts, notMended } = mended([curl], { reshape: true });
  expect(accounts.map(({ mend }) => mend)).not.toContain('reach');
  expect(notMended).toMatchObject([{ mend: 'reach' }]);
  expect(findingsOf(motif).map(({ rule }) => rule)).toEqual(
    expect.arrayContaining(['opposite-edges', 'repeat-collision']),
  );
});

test('reach: what cannot come to its edges is not slanted either', () => {
  // The curl above, its end 6 lower.
  const curl = line(40, 20, 50, 10, 50, 30, 0, 30, 0, -10, 120, 40, 130, 26);
  const { motif, notMended } = mended([curl], { only: ['reach'] });
  expect(notMended).toMatchObject([{ mend: 'reach' }]);
  expect(motif.strokes[0].length).toBe(curl.length);
  expect(lastPoint(motif.strokes[0]).y - firstPoint(motif.strokes[0]).y).toBeCloseTo(6, 6);
});

test('join: ends that meet at one place are no gap', () => {
  const { accounts } = mended(
    [line(0, 0, 50, 0), line(50, 0, 100, 0), line(50, 0, 50, 40), line(50, 0, 60, 40)],
    {
      only: ['join'],
    },
  );
  expect(accounts[0].message).toMatch(/^Joined ends that met already/);
});

test('reach: a drop up to a quarter of the height is a shear, which keeps straight lines straight', () => {
  const sloping = curve(0, 100, (x) => level(x) + 0.03 * x);
  const { motif, accounts } = mended([sloping], { only: ['reach'] });
  const [stroke] = motif.strokes;
  // What is left is the level curve the slope was put on, wherever its box begins.
  const lifts = Array.from(pointsOf(stroke), ({ x, y }) => y - level(x));
  for (const lift of lifts) expect(lift).toBeCloseTo(lifts[0], 2);
  expect(accounts[0].movedMm).toBeCloseTo(1.5, 6);
  expect(accounts[0].message).toContain('slanted by 1.7 degrees');
});

test('reach: what the level-ends rule calls level is left alone, whatever its limit', () => {
  const sloping = curve(0, 100, (x) => level(x) + 0.03 * x);
  const lenient = { ...defaultSetup, rules: { 'level-ends': { limits: { dropMm: 4 } } } };
  expect(mendMotif(motifOf([sloping]), lenient, { only: ['reach'] }).accounts).toEqual([]);
});

test('reach: a larger drop is eased where the line is long, half of it at each end', () => {
  // 140 mm of line up and down for each mm across: a drop of 6 on a height of 20 hardly bends it.
  const zigzag = polylineOf(
    Array.from({ length: 201 }, (_, i) => ({ x: i / 10, y: (i % 2) * 14 + (6 * i) / 200 })),
  );
  const { motif, accounts } = mended([zigzag], { only: ['reach'] });
  const [stroke] = motif.strokes;
  expect(accounts[0].message).toContain('eased');
  expect(lastPoint(stroke).y).toBeCloseTo(firstPoint(stroke).y, 3);
  expect(accounts[0].movedMm).toBeCloseTo(3, 6);
  // The middle half of the line is as it was, only the box begins elsewhere.
  const lifts = Array.from(pointsOf(stroke), ({ x, y }) => ({ x, y }))
    .filter(({ x }) => x > 5.2 && x < 14.8)
    .map(({ x, y }) => y - (Math.round(10 * x) % 2) * 14 - 0.3 * x);
  for (const lift of lifts) expect(lift).toBeCloseTo(lifts[0], 2);
});

test('reach: where an ease would show, a curve leads on from the end without a corner', () => {
  const rise = curve(0, 100, (x) => 25 * Math.sin((2 * Math.PI * x) / 100) - 0.2 * x);
  const { motif, accounts } = mended([rise], { only: ['reach'] });
  const [stroke] = motif.strokes;
  expect(accounts[0].message).toContain('curve leads on');
  expect(accounts[0].movedMm).toBe(0);
  expect(lastPoint(stroke).y).toBeCloseTo(firstPoint(stroke).y, 3);
  const { joinTurnDeg } = studyOf(motif, defaultSetup);
  expect(joinTurnDeg).toBeLessThan(5);
  // No corner anywhere: the steps of a smooth line turn little.
  expect(studyOf(motif, defaultSetup).cusps(150)).toEqual([]);
});

test('reach: a line that runs across and down at once is left as it is, and told', () => {
  const corner = line(0, 100, 30, 60, 60, 110, 90, 60, 100, 0);
  const { accounts, notMended } = mended([corner], { only: ['reach'] });
  expect(accounts).toEqual([]);
  expect(notMended[0].message).toContain('more than half the motif');
});

test('a straight line drawn twice is that line, level or down, and down no route is looked for', () => {
  for (const [down, strokes] of [
    [false, [line(0, 0, 400, 0), line(0, 0.2, 400, 0.2)]],
    [false, [line(0, 0, 400, 0), line(400, 0.2, 0, 0.2)]],
    [true, [line(0, 0, 0, 400), line(0.2, 0, 0.2, 400)]],
  ] as const) {
    const { motif, accounts } = mendMotif(motifOf(strokes), defaultSetup, { reshape: true });
    expect(motif.strokes.map((stroke) => [...stroke])).toEqual([[0, 0, 400, 0]]);
    expect(accounts.map(({ mend }) => mend)).toEqual(down ? ['untrace', 'turn'] : ['untrace']);
  }
  for (const x of [0, 0.005]) {
    const upright = motifOf([line(0, 0, x, 50, 0, 100)]);
    expect(mendMotif(upright, defaultSetup, { only: ['route'] }).motif.strokes).toEqual(upright.strokes);
  }
});

test('turn: from left to right, and a motif that runs down is turned when reshaping', () => {
  const back = mended([line(100, 0, 50, 30, 0, 0)], { only: ['turn'] });
  expect([...back.motif.strokes[0]]).toEqual([0, 0, 50, 30, 100, 0]);
  const down = motifOf([line(0, 0, 30, 50, 0, 100)]);
  expect(mended(down, { only: ['turn'] }).accounts).toEqual([]);
  const turned = mended(down, { only: ['turn'], reshape: true }).motif;
  // The top has become the left side; the motif is turned, not mirrored, so the bulge to the right now points up.
  expect([...turned.strokes[0]]).toEqual([0, 30, 50, 0, 100, 30]);
  expect(studyOf(turned, defaultSetup).repeat).toEqual({ dx: 100, dy: 0, assumed: false });
});

test('accounts count the places and measure the moves', () => {
  const account = (strokes: readonly Polyline[], choice: MendChoice) => {
    const [{ mend, places, addedMm, movedMm }, ...more] = mended(strokes, choice).accounts;
    expect(more).toEqual([]);
    return { mend, places: places.length, addedMm, movedMm };
  };
  // One point on the line between its neighbours: nothing moves without it.
  const straight = account([line(0, 0, 25, 10, 50, 20, 100, 0)], { only: ['thin'] });
  expect(straight).toEqual({ mend: 'thin', places: 1, addedMm: 0, movedMm: 0 });
  // One that lies 0.01 mm off it moves by as much.
  const bent = account([line(0, 0, 50, 0.01, 100, 0)], { only: ['thin'] });
  expect(bent.places).toBe(1);
  expect(bent.movedMm).toBeCloseTo(0.01, 9);
  const met = account([line(0, 0, 50, 20), line(50, 20, 100, 0)], { only: ['join'] });
  expect(met).toEqual({ mend: 'join', places: 1, addedMm: 0, movedMm: 0 });
  const again = line(0, 50, 60, 50, 40, 50, 100, 50);
  expect(account([again], { only: ['untrace'], reshape: true })).toMatchObject({ places: 1, addedMm: -40 });
  const eye = [
    line(0, 50, 30, 0, 60, 50),
    line(0, 50, 30, 100, 60, 50),
    line(0, 50, 60, 50),
    line(60, 50, 100, 50),
  ];
  expect(account(eye, { only: ['route'], reshape: true }).places).toBeGreaterThanOrEqual(3);
});

test('only and skip name mends; the history grows', () => {
  const pieces = [line(50.5, 0, 100, 0), line(50, 0, 25, 0, 0, 0)];
  expect(mended(pieces, { skip: ['join'] }).accounts.map(({ mend }) => mend)).toEqual(['turn', 'thin']);
  const { motif } = mended(pieces);
  expect(motif.mended.map(({ mend }) => mend)).toEqual(['join', 'turn', 'thin']);
  const credited = { ...motif, credit: { title: 'Swell', creator: 'Harbour studio' } };
  const again = mended({ ...credited, strokes: [line(0, 0, 50, 0.01, 100, 0)] });
  expect(again.motif.mended.map(({ mend }) => mend)).toEqual(['join', 'turn', 'thin', 'thin']);
  expect(again.motif.credit).toEqual(credited.credit);
});

test('the outline of a pen stroke is not routed: that would only go round it again', () => {
  const ring = [...curve(0, 100, () => 0), ...Array.from(curve(0, 100, () => 1).reverse())];
  const outline = Float64Array.from(ring.slice(0, 402));
  const back = curve(0, 100, () => 1);
  const walked = new Float64Array(outline.length + back.length + 2);
  walked.set(outline);
  for (let i = 0; i < back.length; i += 2)
    walked.set(back.slice(back.length - 2 - i, back.length - i), outline.length + i);
  walked.set(outline.slice(0, 2), walked.length - 2);
  const motif = motifOf([walked]);
  expect(studyOf(motif, defaultSetup).outline).not.toBeNull();
  expect(mended(motif, { only: ['route'] }).accounts).toEqual([]);
});

test('a closed ring alone becomes a line from its left to its right, half of it twice', () => {
  const { motif, accounts } = mended([circle(0, 0, 20, 1, 360)], { reshape: true, skip: ['thin'] });
  const [stroke] = motif.strokes;
  expect(firstPoint(stroke).x).toBeLessThan(0.01);
  expect(lastPoint(stroke).x).toBeGreaterThan(motif.widthMm - 0.01);
  expect(accounts.map(({ mend }) => mend)).toContain('route');
  expect(Math.abs(lengthOf(stroke) - 1.5 * 2 * Math.PI * 20)).toBeLessThan(2);
});
