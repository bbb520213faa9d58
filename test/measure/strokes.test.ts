import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { lengthOf, moved, nearestAlong, reversed, runningLengths } from '../../src/geometry/polyline.js';
import { joinedStrokes } from '../../src/measure/ends/strokes.js';
import { curve, line, randomFrom, scribble, studied } from './lines.js';

const wave = curve(200, (t) => [200 * t, 20 * Math.sin(20 * t)]);

/** The line cut at these points, the pieces reversed and shuffled by the seed. */
function cut(whole: Polyline, at: readonly number[], seed: number): Polyline[] {
  const bounds = [0, ...at, whole.length / 2 - 1];
  const random = randomFrom(seed);
  return bounds
    .slice(1)
    .map((end, i) => whole.slice(2 * bounds[i], 2 * end + 2))
    .map((piece) => ({ piece: random() < 0.5 ? reversed(piece) : piece, key: random() }))
    .sort((a, b) => a.key - b.key)
    .map(({ piece }) => piece);
}

test('pieces in any order and direction make the line they were cut from', () => {
  for (let seed = 1; seed < 30; seed++) {
    const { strokes } = joinedStrokes(cut(wave, [20, 55, 90, 91, 160], seed));
    expect(strokes).toHaveLength(1);
    const [{ line: joined, parts }] = strokes;
    expect([...parts].sort()).toEqual([0, 1, 2, 3, 4, 5]);
    const along = joined[0] < 100 ? joined : reversed(joined);
    expect([...along]).toEqual([...wave]);
    expect(lengthOf(joined)).toBeCloseTo(lengthOf(wave), 6);
  }
});

/** Places go to 0.001 mm: so the next step is not always the straightest. */
function asInFiles(mm: number): number {
  return Math.round(1000 * mm) / 1000;
}

test('a line in strokes far shorter than the 0.01 mm at which ends coincide is one line again', () => {
  const short = fc.record({
    seed: fc.integer({ min: 1, max: 1e6 }),
    steps: fc.integer({ min: 200, max: 900 }),
    stepMm: fc.double({ min: 0.003, max: 0.02, noNaN: true }),
    turns: fc.integer({ min: 0, max: 2 }),
  });
  fc.assert(
    fc.property(short, ({ seed, steps, stepMm, turns }) => {
      // An arch, or a coil that crosses nothing: it grows as it goes round.
      const whole = curve(steps, (t) => {
        const angle = 2 * Math.PI * (turns + 0.4) * t;
        const radius = (steps * stepMm * (0.5 + t)) / (turns + 1);
        return [radius * Math.cos(angle), radius * Math.sin(angle)];
      }).map(asInFiles);
      const at = Array.from({ length: steps - 1 }, (_, i) => i + 1);
      const { strokes, dots } = joinedStrokes(cut(whole, at, seed));
      expect([strokes.length, dots.length]).toEqual([1, 0]);
      const [{ line: joined }] = strokes;
      expect([...(joined[0] === whole[0] ? joined : reversed(joined))]).toEqual([...whole]);
    }),
    { seed: 11, numRuns: 20 },
  );
});

test('an end in the very same place goes before one that is straighter but lies off it', () => {
  // The corner is drawn as one; the third line begins 0.005 mm beside it, straight ahead.
  const lines = [line(0, 0, 50, 0), line(50, 0, 50, 40), line(50.005, 0, 90, 0)];
  expect(joinedStrokes(lines).strokes.map(({ parts }) => parts)).toEqual([[0, 1], [2]]);
});

test('at the corner of a box a side goes on in the next, not in a curve that comes there along it', () => {
  const sides = [line(0, 40, 200, 40), line(200, 40, 200, 0), line(200, 0, 0, 0), line(0, 0, 0, 40)];
  // Of a curve that is level at its ends, in places rounded to 0.001 mm: it seems to come from below there.
  const rise = line(0, 40, 0.801, 39.988, 1.592, 39.952, 50, 10, 100, 20);
  const fall = reversed(rise).map((at, i) => (i % 2 === 0 ? 200 - at : at));
  const flat = Float64Array.from([...rise, ...fall.slice(2)]);
  // Whichever side was drawn first, and whichever way round.
  for (const from of [0, 1, 2, 3])
    for (const box of [sides, sides.map(reversed).reverse()]) {
      const inTurn = [...box.slice(from), ...box.slice(0, from)];
      for (const strokes of [
        [...inTurn, flat],
        [flat, ...inTurn],
      ])
        expect(joinedStrokes(strokes).strokes.map(({ parts }) => parts)).toContainEqual([
          strokes.indexOf(flat),
        ]);
    }
});

test('a joined line runs as most of it was drawn', () => {
  const pieces = [reversed(wave.slice(0, 60)), wave.slice(58, 300), wave.slice(298)];
  expect([...joinedStrokes(pieces).strokes[0].line]).toEqual([...wave]);
  const [{ line: backwards, parts }] = joinedStrokes(pieces.map(reversed)).strokes;
  expect([...backwards]).toEqual([...reversed(wave)]);
  expect(parts).toEqual([2, 1, 0]);
});

test('ends coincide up to 0.01 mm and no farther', () => {
  const beside = (gap: number) => [line(0, 0, 50, 0), line(50 + gap, 0, 100, 0)];
  expect(studied(beside(0.009)).strokes).toHaveLength(1);
  expect(studied(beside(0.011)).strokes).toHaveLength(2);
});

test('where four ends meet, the straightest pairs are joined', () => {
  const star = [line(0, 0, 10, 10), line(10, 10, 20, 1), line(0, 19, 10, 10), line(20, 20, 10, 10)];
  const joined = joinedStrokes(star).strokes;
  expect(joined.map(({ parts }) => [...parts].sort())).toEqual([
    [0, 3],
    [1, 2],
  ]);
});

test('so they are whichever way each of them was drawn', () => {
  const arms = [line(0, 0, 10, 10), line(20, 1, 10, 10), line(0, 19, 10, 10), line(20, 20, 10, 10)];
  for (let ways = 0; ways < 16; ways++) {
    const star = arms.map((arm, k) => (ways & (1 << k) ? reversed(arm) : arm));
    expect(joinedStrokes(star).strokes.map(({ parts }) => [...parts].sort())).toEqual([
      [0, 3],
      [1, 2],
    ]);
  }
  // Of three the one that is left over stays by itself.
  const fork = [line(0, 0, 10, 0), line(10, 0, 20, 1), line(10, 20, 10, 0)];
  for (let ways = 0; ways < 8; ways++) {
    const drawn = fork.map((arm, k) => (ways & (1 << k) ? reversed(arm) : arm));
    expect(joinedStrokes(drawn).strokes.map(({ parts }) => [...parts].sort())).toEqual([[0, 1], [2]]);
  }
});

test('a loop that the line runs into and out of straight becomes part of the line', () => {
  const loop = line(50, 0, 70, 0, 70, -20, 50, -20, 50, 0);
  const { strokes } = joinedStrokes([line(0, 0, 50, 0), loop, line(50, 0, 50, 60)]);
  expect(strokes.map(({ parts }) => parts)).toEqual([[0, 1, 2]]);
  expect(lengthOf(strokes[0].line)).toBeCloseTo(50 + 80 + 60, 9);
});

test('pieces of a ring make a closed line that ends exactly where it starts', () => {
  const ring = curve(90, (t) => [30 * Math.cos(6.2831853 * t), 30 * Math.sin(6.2831853 * t)]);
  for (let seed = 1; seed < 8; seed++) {
    // Exactly, though the ends of the pieces lie a few thousandths of a millimetre apart.
    const pieces = cut(ring, [30, 60], seed).map((piece, k) => moved(piece, 0.003 * k, -0.002 * k));
    const [{ line: joined }, ...others] = joinedStrokes(pieces).strokes;
    expect(others).toEqual([]);
    expect([...joined.subarray(0, 2)]).toEqual([...joined.subarray(-2)]);
    expect(Math.abs(lengthOf(joined) - lengthOf(ring))).toBeLessThan(0.02);
  }
});

test('exact duplicates are set aside in either direction, and only exact ones', () => {
  const second = moved(wave, 0, 60);
  const shaken = wave.map((value, i) => value + (i % 3 === 0 ? 0.0009 : 0));
  const { duplicates, strokes } = joinedStrokes([wave, reversed(wave), second, shaken, moved(wave, 0, 0.02)]);
  expect(duplicates.map(({ stroke }) => stroke)).toEqual([1, 3]);
  expect(duplicates[0].lengthMm).toBeCloseTo(lengthOf(wave), 9);
  // It is told halfway along it.
  expect(nearestAlong(wave, runningLengths(wave), duplicates[0].at)).toBeCloseTo(lengthOf(wave) / 2, 6);
  expect(strokes.map(({ parts }) => parts)).toEqual([[0], [2], [4]]);
});

test('concentric rings with as many points each are no duplicates', () => {
  const rings = Array.from({ length: 50 }, (_, k) =>
    curve(30, (t) => [(k + 1) * Math.cos(6.3 * t), (k + 1) * Math.sin(6.3 * t)]),
  );
  expect(joinedStrokes(rings).duplicates).toEqual([]);
});

test('a dot is less than half a millimetre across once it is joined, whatever its length', () => {
  const ring = (radius: number) =>
    curve(40, (t) => [50 + radius * Math.cos(6.3 * t), 30 + radius * Math.sin(6.3 * t)]);
  const [dot, ...others] = joinedStrokes([wave, ring(0.24)]).dots;
  expect(others).toEqual([]);
  expect(Math.hypot(dot.at.x - 50, dot.at.y - 30)).toBeLessThan(0.002);
  expect(studied([wave, ring(0.24)]).strokes).toHaveLength(1);
  expect(studied([wave, ring(0.26)]).dots).toEqual([]);
  // Upright or level, a hair too long.
  for (const long of [line(50, 30, 50, 30.501, 50, 30), line(50, 30, 50.501, 30, 50, 30)])
    expect(studied([wave, long]).dots).toEqual([]);
  // 0.49 and 0.51 mm on the slant, neither 0.4 mm wide nor high.
  expect(studied([wave, line(50, 30, 50.35, 30.343)]).dots).toHaveLength(1);
  expect(studied([wave, line(50, 30, 50.36, 30.361)]).dots).toEqual([]);
  const steps = Array.from({ length: 10 }, (_, i) => line(50 + 0.3 * i, 30, 50.3 + 0.3 * i, 30));
  expect(studied([wave, ...steps]).dots).toEqual([]);
});

test('a motif of dots only has nothing to stitch', () => {
  const study = studied([line(0, 0, 0.1, 0.1)], { name: 'sand' });
  expect(() => study.strokes).toThrow('nothing to stitch in "sand"');
});

test('random strokes lose no length in joining', () => {
  for (let seed = 1; seed < 40; seed++) {
    const random = randomFrom(seed);
    const marks = Array.from({ length: 99 }, (_, i) => i + 1).filter(() => random() < 0.4);
    const whole = scribble(seed, 101);
    const pieces = cut(whole, marks, seed);
    const study = studied(pieces);
    expect(study.strokes).toHaveLength(1);
    expect(study.lengthMm).toBeCloseTo(lengthOf(whole), 6);
  }
});
