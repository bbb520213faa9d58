import { expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { moved, reversed } from '../../src/geometry/polyline.js';
import { curve, line, studied } from './lines.js';

const wave = curve(200, (t) => [200 * t, 40 + 40 * Math.sin(12 * t)]);

function cross(x: number, y: number, size = 6): Polyline[] {
  const half = size / 2;
  return [line(x - half, y, x + half, y), line(x, y - half, x, y + half)];
}

function ring(x: number, y: number, radius: number): Polyline {
  return curve(60, (t) => [x + radius * Math.cos(2 * Math.PI * t), y + radius * Math.sin(2 * Math.PI * t)]);
}

function closedRing(x: number, y: number, radius: number): Polyline {
  const open = ring(x, y, radius);
  open.set(open.subarray(0, 2), open.length - 2);
  return open;
}

const frame = line(-5, -5, 205, -5, 205, 85, -5, 85, -5, -5);

test('registration crosses outside the motif are marks, each once', () => {
  const { marks } = studied([...cross(-15, -15), wave, ...cross(215, 95), closedRing(215, 95, 2)]);
  expect(marks.map(({ kind, strokes }) => ({ kind, strokes }))).toEqual([
    { kind: 'mark', strokes: [0, 1] },
    { kind: 'mark', strokes: [3, 4, 5] },
  ]);
  // The motif's box begins at the first cross.
  expect(marks[0].at).toEqual({ x: 3, y: 3 });
});

test('a cross in an open corner of the motif is a mark, a pearl there is not', () => {
  expect(studied([wave, ...cross(28, 20)]).marks.map(({ kind }) => kind)).toEqual(['mark']);
  expect(studied([wave, ring(28, 20, 3)]).marks).toEqual([]);
});

test('small shapes beside the line, and all of a motif of small pieces, are not marks', () => {
  expect(studied([wave, ring(28, 80, 3)]).marks).toEqual([]);
  const dashes = Array.from({ length: 60 }, (_, i) => line(4 * i, 0, 4 * i + 2.5, 1));
  expect(studied(dashes).marks).toEqual([]);
});

test('a mark is under a twentieth of the motif', () => {
  // The motif is 215 mm across its box; a cross is half as large again across its own.
  expect(studied([wave, ...cross(-40, -40, 7)]).marks).toHaveLength(1);
  expect(studied([wave, ...cross(-40, -40, 9)]).marks).toEqual([]);
});

test('a page border is a frame, drawn in one or in four pieces, single or double', () => {
  expect(studied([wave, frame]).marks.map(({ kind, strokes }) => [kind, strokes])).toEqual([['frame', [1]]]);
  const sides = [0, 2, 4, 6].map((i) => frame.slice(i, i + 4));
  const [{ kind, strokes }] = studied([...sides, wave]).marks;
  expect([kind, [...strokes].sort()]).toEqual(['frame', [0, 1, 2, 3]]);
  const inner = line(-3, -3, 203, -3, 203, 83, -3, 83, -3, -3);
  expect(studied([wave, frame, inner]).marks).toHaveLength(2);
});

test('a heart or a hoop round the motif, an open border, and a dense closed line are no frames', () => {
  expect(studied([wave, closedRing(100, 40, 120)]).marks).toEqual([]);
  expect(studied([wave, frame.slice(0, 8)]).marks).toEqual([]);
  expect(studied([frame]).marks).toEqual([]);
  expect(studied([frame, line(-20, 40, 100, 40)]).marks).toEqual([]);
});

test('the border of a crosshatch, which its lines touch, is stitching', () => {
  const hatch = [60, 110].map((x) => line(x, -5, x, 85));
  expect(studied([frame, ...hatch]).marks).toEqual([]);
  // Clear of it by a millimetre it is a border again.
  const inside = [60, 110].map((x) => line(x, -4, x, 84));
  expect(studied([frame, ...inside]).marks.map(({ kind }) => kind)).toEqual(['frame']);
});

/** In an open corner of the motif, where only a plain cross is a mark. */
const inCorner = (...bars: Polyline[]) => studied([wave, ...bars]).marks.length;
const bar = (x: number, y: number, long: number, deg: number) => {
  const [dx, dy] = [Math.cos, Math.sin].map((of) => (long / 2) * of((deg * Math.PI) / 180));
  return line(x - dx, y - dy, x + dx, y + dy);
};

// Half of 6 mm is 3; a fifth of the shorter bar is how far the middles may be apart: 1.2. The cosine of 78.5 degrees is 0.2.
test.each([
  ['across each other, upright', [bar(28, 20, 6, 0), bar(28, 20, 6, 90)], 1],
  ['turned', [bar(28, 20, 6, 30), bar(28, 20, 6, 120)], 1],
  ['a little off the middle', [bar(28, 20, 6, 0), bar(28, 21, 6, 90)], 1],
  ['farther off the middle', [bar(28, 20, 6, 0), bar(28, 21.4, 6, 90)], 0],
  ['off to the side', [bar(28, 20, 6, 0), bar(29.4, 20, 6, 90)], 0],
  ['a little longer', [bar(28, 20, 6, 0), bar(28, 20, 3.2, 90)], 1],
  ['more than twice as long', [bar(28, 20, 6, 0), bar(28, 20, 2.8, 90)], 0],
  ['the second more than twice as long', [bar(28, 20, 2.8, 0), bar(28, 20, 6, 90)], 0],
  ['at 80 degrees', [bar(28, 20, 6, 10), bar(28, 20, 6, 90)], 1],
  ['at 75 degrees', [bar(28, 20, 6, 15), bar(28, 20, 6, 90)], 0],
  ['at 75 degrees the other way', [bar(28, 20, 6, -15), bar(28, 20, 6, 90)], 0],
  ['one bar alone', [bar(28, 20, 6, 0)], 0],
  ['one of them bent', [line(25, 20, 28, 20.6, 31, 20), bar(28, 20, 6, 90)], 0],
])('two bars %s', (_, bars, marks) => expect(inCorner(...bars)).toBe(marks));

// A ring of 3 mm is 8.49 from corner to corner of its box; half as much again from its middle a line is near.
test('outside the motif a small shape is a mark unless a line of the motif is near', () => {
  const [crestX, crestY] = [100, 40 - 40];
  const flat = line(0, 80, crestX, crestY, 200, 80);
  const at = (y: number) => studied([flat, closedRing(crestX, y, 3)]).marks.length;
  expect(at(-12)).toBe(0);
  expect(at(-13.5)).toBe(1);
});

// The frame is 210 x 90: 600 round, and corners cut off by 30.7 leave nine tenths of its area.
test('a frame takes nine tenths of its box, and is one way round it', () => {
  const cut = (c: number) =>
    line(
      -5 + c,
      -5,
      205 - c,
      -5,
      205,
      -5 + c,
      205,
      85 - c,
      205 - c,
      85,
      -5 + c,
      85,
      -5,
      85 - c,
      -5,
      -5 + c,
      -5 + c,
      -5,
    );
  const small = curve(200, (t) => [60 + 80 * t, 40 + 8 * Math.sin(12 * t)]);
  const frames = (border: Polyline) => studied([small, border]).marks.map(({ kind }) => kind);
  expect(frames(cut(30))).toEqual(['frame']);
  expect(frames(cut(31.5))).toEqual([]);
  const notched = (deep: number) =>
    line(-5, -5, 100, -5, 100, -5 + deep, 101, -5 + deep, 101, -5, 205, -5, 205, 85, -5, 85, -5, -5);
  expect(frames(notched(2.8))).toEqual(['frame']);
  expect(frames(notched(3.2))).toEqual([]);
  // Either way round, from whichever corner.
  expect(frames(reversed(frame))).toEqual(['frame']);
  const [first] = studied([small, moved(frame, 30, 10)]).marks;
  expect(first.at).toEqual({ x: 0, y: 0 });
});

test('of three borders one within the other two are frames', () => {
  const border = (by: number) =>
    line(-5 - by, -5 - by, 205 + by, -5 - by, 205 + by, 85 + by, -5 - by, 85 + by, -5 - by, -5 - by);
  const found = studied([wave, border(0), border(4), border(8)]).marks;
  expect(found.map(({ kind, strokes }) => [kind, strokes])).toEqual([
    ['frame', [3]],
    ['frame', [2]],
  ]);
});

test('crosses at all four corners are four marks, in whatever order they were drawn', () => {
  const corners = [
    [-15, -15],
    [215, -15],
    [-15, 95],
    [215, 95],
  ] as const;
  for (const order of [corners, [...corners].reverse()]) {
    const { marks } = studied([wave, ...order.flatMap(([x, y]) => cross(x, y))]);
    expect(marks.map(({ strokes }) => strokes)).toEqual([
      [1, 2],
      [3, 4],
      [5, 6],
      [7, 8],
    ]);
    // The motif's box begins at the upper left one, 3 mm from its middle.
    expect(marks.map(({ at }) => at)).toEqual(order.map(([x, y]) => ({ x: x + 18, y: y + 18 })));
  }
});

test('the last stroke that is left is the motif, and an inner border is one way round as well', () => {
  const border = (by: number, notchMm: number) =>
    line(
      -by,
      -by,
      100,
      -by,
      100,
      notchMm - by,
      101,
      notchMm - by,
      101,
      -by,
      200 + by,
      -by,
      200 + by,
      80 + by,
      -by,
      80 + by,
      -by,
      -by,
    );
  expect(studied([border(8, 0), border(4, 0)]).marks.map(({ strokes }) => strokes)).toEqual([[0]]);
  // The inner one is 592 round: notches of 2.7 and 3.1 are just under and over a hundredth of it.
  const small = curve(200, (t) => [60 + 80 * t, 40 + 8 * Math.sin(12 * t)]);
  expect(studied([small, border(8, 0), border(4, 2.7)]).marks).toHaveLength(2);
  expect(studied([small, border(8, 0), border(4, 3.1)]).marks).toHaveLength(1);
});

/** 200 wide, from (0, 0): the ends lie on the sides of a box as wide, and it touches top and bottom of one 80 high. */
const across = curve(800, (t) => [200 * t, 40 - 40 * Math.sin(6 * Math.PI * t)]);
const box = (left: number, top: number, right: number, bottom: number) =>
  line(left, top, right, top, right, bottom, left, bottom, left, top);
const found = (...strokes: Polyline[]) =>
  studied(strokes).marks.map(({ kind, strokes }) => [kind, ...strokes]);

test('the box of the repeat is a frame, though the line that runs across touches it or reaches out', () => {
  expect(found(across, box(0, 0, 200, 80))).toEqual([['frame', 1]]);
  expect(found(box(0, -10, 200, 90), reversed(across))).toEqual([['frame', 0]]);
  expect(found(across, box(2, 3, 198, 77))).toEqual([['frame', 1]]);
  const sides = [0, 2, 4, 6].map((i) => box(0, 0, 200, 80).slice(i, i + 4));
  expect(found(...sides, across)).toEqual([['frame', 0, 1, 2, 3]]);
  // The area of a box 4 mm in on all sides is 86 % of the line's, that of one 6 mm in 80 %, of one 7 mm in 77 %.
  expect(found(across, box(5, 5, 195, 75))).toHaveLength(1);
  expect(found(across, box(7, 7, 193, 73))).toEqual([]);
});

test('beside the line across, what lies clear of the frame leaves it a frame, what else touches it does not', () => {
  const border = box(0, -10, 200, 90);
  expect(found(across, border, closedRing(100, 20, 9)).map(([kind]) => kind)).toContain('frame');
  expect(found(across, border, line(100, -10, 100, 0))).toEqual([]);
  expect(found(across, border, line(0, 85, 100, 85))).toEqual([]);
  // What ends on it would be stitched from it; what does not, not.
  expect(found(across, border, line(100, -10, 120, 0))).toEqual([]);
  expect(found(across, border, closedRing(100, 80, 10))).toEqual([['frame', 1]]);
  expect(found(across, border, closedRing(190, 70, 10))).toEqual([['frame', 1]]);
  expect(found(across, border, line(20, 80, 40, 95, 60, 80))).toEqual([['frame', 1]]);
});

test('so do other lines across: a second wave, a straight guide, and the same from top to bottom that fills it', () => {
  const border = box(0, -10, 200, 90);
  expect(found(across, border, moved(across, 0, 8))).toEqual([['frame', 1]]);
  expect(found(across, border, line(0, 85, 200, 85))).toEqual([['frame', 1]]);
  const down = [across, box(0, 0, 200, 80)].map((each) => each.slice().reverse());
  expect(found(...down)).toEqual([['frame', 1]]);
});

test('the line across may be in pieces whose ends nearly meet, and may reach beyond its ends', () => {
  // Cut on the crest at a quarter of the way, where the next point is a quarter of a millimetre on.
  const [first, second] = [across.slice(0, 402), across.slice(402)];
  const parts = (gapMm: number) => found(first, moved(second, gapMm - 0.25, 0), box(0, 0, 200, 80));
  expect(parts(0.9)).toEqual([['frame', 2]]);
  expect(parts(1.1)).toEqual([]);
  const loops = curve(900, (t) => [
    240 * t - 18 * Math.sin(24 * Math.PI * t),
    40 + 26 * Math.cos(24 * Math.PI * t),
  ]);
  expect(found(loops, box(-16, 14, 256, 66))).toEqual([['frame', 1]]);
});

test.each([
  ['a bar', [line(0, 40, 200, 40)]],
  ['a diagonal bar', [line(0, 75, 100, 40.5, 200, 5)]],
  ['the ground it stands on', [line(-5, 80, 205, 80)]],
  ['two bars across each other', [line(0, 40, 200, 40), line(100, 0, 100, 80)]],
  ['a wave from top to bottom', [curve(200, (t) => [100 + 40 * Math.sin(20 * t), 80 * t])]],
  ['a wave that stops short of one side', [curve(200, (t) => [178 * t, 40 + 40 * Math.sin(12 * t)])]],
  ['a bent ground below it', [curve(200, (t) => [200 * t, 80 + 4 * (1 - Math.cos(20 * t))])]],
  [
    'arches that stand on it',
    [0, 70, 140].map((x) => curve(60, (t) => [x + 60 * t, 80 - 60 * Math.sin(Math.PI * t)])),
  ],
  [
    'a wave that comes back to its start',
    [curve(400, (t) => [100 - 100 * Math.cos(2 * Math.PI * t), 40 + 40 * Math.sin(6 * Math.PI * t)])],
  ],
  ['a closed line inside', [closedRing(100, 40, 40)]],
])('a rectangle with %s is stitching', (_, rest) => expect(found(box(0, 0, 200, 80), ...rest)).toEqual([]));

test('of boxes in a row none is a frame, nor is a flat one that a high line runs through', () => {
  expect(found(across, box(0, 0, 100, 80), box(100, 0, 200, 80))).toEqual([]);
  expect(found(across, box(0, 20, 200, 60))).toEqual([]);
});
