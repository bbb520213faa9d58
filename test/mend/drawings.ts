/** Drawings for the tests of mends. */
import type { Polyline } from '../../shared/plane.js';
import { polylineOf } from '../../src/geometry/polyline.js';

/** Numbers from 0 to 1, the same for the same seed (the generator of "Numerical Recipes", ch. 7). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  for (let i = 0; i < 5; i++) next();
  return next;
}

export function line(...coordinates: number[]): Polyline {
  return Float64Array.from(coordinates);
}

/** A closed circle that begins at `angle`. */
export function circle(x: number, y: number, radius: number, angle = 0, points = 72): Polyline {
  return polylineOf(
    Array.from({ length: points + 1 }, (_, i) => {
      const t = angle + (2 * Math.PI * (i % points)) / points;
      return { x: x + radius * Math.cos(t), y: y + radius * Math.sin(t) };
    }),
  );
}

/** Strokes of straight segments that hang together: each begins just across a stroke that is there already. */
export function connectedStrokes(random: () => number, strokes: number): Polyline[] {
  const drawn: Polyline[] = [line(0, 50 * random(), 40 + 60 * random(), 50 * random())];
  while (drawn.length < strokes) {
    const host = drawn[Math.floor(random() * drawn.length)];
    const i = 2 * Math.floor((random() * (host.length - 2)) / 2);
    const share = 0.15 + 0.7 * random();
    const x = host[i] + share * (host[i + 2] - host[i]);
    const y = host[i + 1] + share * (host[i + 3] - host[i + 1]);
    const angle = 2 * Math.PI * random();
    const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
    const far = 10 + 30 * random();
    const points = [x - 4 * dx, y - 4 * dy, x + far * dx, y + far * dy];
    if (random() < 0.5) points.push(x + 60 * random() - 30, y + 60 * random() - 30);
    drawn.push(Float64Array.from(points));
  }
  return drawn;
}
