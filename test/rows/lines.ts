/** Lines to stack: curves by formula, and random ones with overhangs. */
import { rowOf } from '../../src/rows/index.js';
import type { Case } from './jts.js';

/** The polyline through f(0), f(1/n), …, f(1). */
export function curve(n: number, f: (t: number) => readonly [number, number]): Float64Array {
  return Float64Array.from(Array.from({ length: n + 1 }, (_, i) => f(i / n)).flat());
}

export function points(...xy: number[]): Float64Array {
  return Float64Array.from(xy);
}

export function rowOfCase({ strokes, repeatMm, middleXMm }: Case) {
  return rowOf(strokes, repeatMm, middleXMm);
}

/** A small linear congruential generator (Numerical Recipes' constants), 0 up to 1. */
export function generator(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** A wandering line, level at its ends, that leans out of its repeat on both sides and turns back on itself. */
export function randomCase(seed: number): Case {
  const random = generator(seed * 7919 + 1);
  const repeatMm = 60 + 140 * random();
  const heightMm = 20 + 80 * random();
  const n = 8 + Math.floor(14 * random());
  const end = heightMm * random();
  const xy = [0, end];
  for (let i = 1; i < n; i++) {
    const drift = (i / n) * repeatMm;
    xy.push(drift + (random() - 0.5) * 0.9 * repeatMm, heightMm * random());
  }
  xy.push(repeatMm, end);
  return { strokes: [Float64Array.from(xy)], repeatMm, middleXMm: repeatMm / 2 };
}

/** A few short strokes with room between them: rows farther apart than the next may meet. */
export function randomDashes(seed: number): Case {
  const random = generator(seed * 6007 + 5);
  const repeatMm = 40 + 40 * random();
  const strokes = Array.from({ length: 2 + Math.floor(3 * random()) }, () => {
    const [x, y] = [repeatMm * random(), 60 * random()];
    return points(x, y, x + 16 * random() - 8, y + 10 * random() - 5);
  });
  return { strokes, repeatMm, middleXMm: repeatMm * random() };
}

/** Rings of seven corners with a gap, large and small, and a dash: rows that close pockets of their own. */
export function randomRings(seed: number): Case {
  const random = generator(seed * 4001 + 3);
  const repeatMm = 40 + 30 * random();
  const ring = (most: number) => {
    const [x, y, mm, turn] = [
      repeatMm * random(),
      40 * random(),
      most * (0.6 + 0.4 * random()),
      7 * random(),
    ];
    return curve(6, (t) => {
      const off = mm * (0.9 + 0.2 * random());
      return [x + off * Math.cos(turn + 5.2 * t), y + off * Math.sin(turn + 5.2 * t)];
    });
  };
  const sizes = seed % 3 === 0 ? [2] : [14, 4];
  const [x, y] = [repeatMm * random(), 40 * random()];
  return {
    strokes: [...sizes.map(ring), points(x, y, x + 6, y + 3)],
    repeatMm,
    middleXMm: repeatMm * random(),
  };
}

/** The same row, cut into repeats elsewhere. */
export function shiftedCase({ strokes, repeatMm, middleXMm }: Case, byMm: number): Case {
  return {
    strokes: strokes.map((line) => line.map((value, i) => (i % 2 === 0 ? value + byMm : value))),
    repeatMm,
    middleXMm: middleXMm + byMm,
  };
}
