/** The line across a fork, from one arm into another: the quintic that takes up place, direction and bend of both. */
import type { Polyline } from '../../shared/plane.js';
import type { Heading } from './arm.js';

/** From `a` to `b`, ends included, in steps of about `step`. Hermite's quintic; its speed at both ends is the chord. */
export function bridge(a: Heading, b: Heading, step: number): Polyline {
  const length = Math.hypot(b.at.x - a.at.x, b.at.y - a.at.y);
  const steps = Math.max(2, Math.ceil(length / step));
  const flat = new Float64Array(2 * steps + 2);
  const bendA = Math.max(-2, Math.min(a.bend * length, 2)) * length;
  const bendB = Math.max(-2, Math.min(-b.bend * length, 2)) * length;
  for (let i = 0; i <= steps; i++) {
    const t = i / steps;
    const [h0, h1, h2, h3, h4, h5] = hermite(t);
    flat[2 * i] =
      h0 * a.at.x +
      h1 * a.dx * length +
      h2 * -a.dy * bendA +
      h3 * b.at.x +
      h4 * -b.dx * length +
      h5 * b.dy * bendB;
    flat[2 * i + 1] =
      h0 * a.at.y +
      h1 * a.dy * length +
      h2 * a.dx * bendA +
      h3 * b.at.y +
      h4 * -b.dy * length +
      h5 * -b.dx * bendB;
  }
  return flat;
}

function hermite(t: number): readonly number[] {
  const t3 = t * t * t;
  const t4 = t3 * t;
  const t5 = t4 * t;
  return [
    1 - 10 * t3 + 15 * t4 - 6 * t5,
    t - 6 * t3 + 8 * t4 - 3 * t5,
    (t * t - 3 * t3 + 3 * t4 - t5) / 2,
    10 * t3 - 15 * t4 + 6 * t5,
    -4 * t3 + 7 * t4 - 3 * t5,
    (t3 - 2 * t4 + t5) / 2,
  ];
}
