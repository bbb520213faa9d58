/** Curves from formulas, as cubics that share the formula's places and directions at even steps. */
import type { Point } from '../../shared/plane.js';
import { at, type Segment, type Stroke } from './stroke.js';

/** The curve of `place` from t = `from` to t = `to`, in `steps` cubics. Directions by central difference. */
export function drawn(place: (t: number) => Point, from: number, to: number, steps: number): Stroke {
  const h = (to - from) / steps;
  const tiny = h * 1e-4;
  const slope = (t: number) => {
    const [a, b] = [place(t - tiny), place(t + tiny)];
    return at((b.x - a.x) / (2 * tiny), (b.y - a.y) / (2 * tiny));
  };
  const segments = Array.from({ length: steps }, (_, i): Segment => {
    const [t0, t1] = [from + i * h, from + (i + 1) * h];
    const [p, q, u, v] = [place(t0), place(t1), slope(t0), slope(t1)];
    return {
      kind: 'cubic',
      c1: at(p.x + (u.x * h) / 3, p.y + (u.y * h) / 3),
      c2: at(q.x - (v.x * h) / 3, q.y - (v.y * h) / 3),
      to: q,
    };
  });
  return { from: place(from), segments };
}
