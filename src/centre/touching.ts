/** Where the border lies at the end of a piece. */
import type { Axis } from './axis.js';
import type { Border } from './border.js';
import type { Piece } from './pieces.js';

/** The points of the border on either side of an end: where it runs on past the end first, then where it comes back. */
export function touching(
  axis: Axis,
  { points }: Border,
  { nodes }: Piece,
  end: 0 | 1,
): readonly [number, number] {
  const order = end === 1 ? nodes : [...nodes].reverse();
  const last = order[order.length - 1];
  const before = order[Math.max(0, order.length - 6)];
  const dx = axis.x[last] - axis.x[before];
  const dy = axis.y[last] - axis.y[before];
  const aside = (point: number) =>
    dx * (points[2 * point + 1] - axis.y[last]) - dy * (points[2 * point] - axis.x[last]);
  const three = [...axis.touches.subarray(3 * last, 3 * last + 3)].sort((p, q) => aside(p) - aside(q));
  return [three[0], three[2]];
}
