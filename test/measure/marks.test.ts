import { expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
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
