import { polyline } from '../flavours.js';
import { polygonal, repeated } from '../stroke.js';
import type { MotifDrawing } from './motif-drawing.js';

const u = 6;

/** A square key: in to the middle and out again, lines 2 u apart. */
const key = polygonal(
  (
    [
      [-5, 0],
      [-5, -5],
      [5, -5],
      [5, 3],
      [-1, 3],
      [-1, -1],
      [1, -1],
      [1, 1],
      [3, 1],
      [3, -3],
      [-3, -3],
      [-3, 5],
      [7, 5],
      [7, 0],
    ] as const
  ).map(([x, y]) => [x * u, y * u] as const),
);

export const crates: MotifDrawing = {
  name: 'crates',
  title: 'Crates',
  creator: 'Barnaby Tidewater',
  description: 'A key pattern of right angles, stacked like crates on the quay.',
  flavour: polyline,
  stroke: repeated(key, 3, 12 * u),
};
