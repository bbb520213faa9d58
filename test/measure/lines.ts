/** Lines to measure: random ones from a seed, and drawn ones whose facts are known. */
import type { Motif } from '../../shared/motif.js';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { studyOf } from '../../src/measure/index.js';
import { motifOf } from '../../src/size/motif-of.js';

export function line(...coordinates: number[]): Polyline {
  return Float64Array.from(coordinates);
}

/** The study of these strokes under the default setup. */
export function studied(strokes: readonly Polyline[], rest: Partial<Motif> = {}) {
  return studyOf(motifOf(strokes, rest), defaultSetup);
}

/** Numbers from 0 to 1, the same for the same seed (Park and Miller 1988). */
export function randomFrom(seed: number): () => number {
  let state = (seed % 2147483646) + 1;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

/** A line of `points` random points in a rectangle. */
export function scribble(seed: number, points: number, width = 200, height = 100): Polyline {
  const random = randomFrom(seed);
  return Float64Array.from({ length: 2 * points }, (_, i) => random() * (i % 2 ? height : width));
}

/** The curve t -> (x, y) for t from 0 to 1, as `steps` chords. */
export function curve(steps: number, place: (t: number) => readonly [number, number]): Polyline {
  return Float64Array.from(Array.from({ length: steps + 1 }, (_, i) => place(i / steps)).flat());
}

/** Loops along a level line, as in a row of e's: neighbours overlap where `radius` is large against `step`. */
export function loops(count: number, step: number, radius: number, squash = 1): Polyline {
  return curve(60 * count, (t) => {
    const angle = 2 * Math.PI * count * t;
    return [step * count * t + radius * Math.sin(angle), radius * squash * Math.cos(angle)];
  });
}

/** The Hilbert curve of order n through the middles of 2^n by 2^n unit cells, from (0, 0) to (2^n - 1, 0). */
export function hilbert(order: number): Polyline {
  const side = 2 ** order;
  const flat: number[] = [];
  for (let i = 0; i < side * side; i++) {
    let x = 0;
    let y = 0;
    let rest = i;
    for (let s = 1; s < side; s *= 2) {
      const rx = 1 & (rest / 2);
      const ry = 1 & (rest ^ rx);
      if (ry === 0) {
        if (rx === 1) [x, y] = [s - 1 - x, s - 1 - y];
        [x, y] = [y, x];
      }
      x += s * rx;
      y += s * ry;
      rest = Math.floor(rest / 4);
    }
    flat.push(x, y);
  }
  return Float64Array.from(flat);
}
