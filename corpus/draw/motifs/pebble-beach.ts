import { plain } from '../flavours.js';
import { type Knot, through } from '../spline.js';
import type { MotifDrawing } from './motif-drawing.js';

/** A pebble as a loop off the line: above it (`side` -1) or below. */
function pebble(x: number, y: number, wide: number, high: number, side: 1 | -1): Knot[] {
  return [
    [x + wide, y, 90 * side],
    [x, y + side * high, 180],
    [x - wide, y, -90 * side],
  ];
}

export const pebbleBeach: MotifDrawing = {
  name: 'pebble-beach',
  title: 'Pebble Beach',
  creator: 'Pearl Driftwood',
  description: 'Pebbles of every size on a line that winds between them.',
  flavour: plain,
  stroke: through([
    [0, 0, 0],
    ...pebble(20, -19, 14, 15, -1),
    ...pebble(36, 17, 11, 11, 1),
    ...pebble(56, -24, 17, 19, -1),
    ...pebble(72, 21, 16, 16, 1),
    ...pebble(95, -16, 11, 11, -1),
    ...pebble(111, 17, 12, 13, 1),
    ...pebble(130, -22, 16, 17, -1),
    ...pebble(147, 22, 15, 16, 1),
    ...pebble(168, -16, 12, 12, -1),
    [180, 0, 0],
  ]),
};
