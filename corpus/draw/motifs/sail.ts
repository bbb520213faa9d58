import { nested } from '../flavours.js';
import { through } from '../spline.js';
import { joined, scaled, shifted } from '../stroke.js';
import type { MotifDrawing } from './motif-drawing.js';

/** Up the luff, down the leech, along the foot, round the bow and under the hull. */
const boat = joined(
  through([
    [0, 0, 0],
    [22, -10, -52],
    [56, -78, -66],
  ]),
  through([
    [56, -78, 62],
    [76, -48],
    [82, -18, 98],
  ]),
  through([
    [82, -18, 186],
    [50, -20],
    [16, -16, 172],
    [10, -6, 80],
    [40, 12, 8],
    [78, 4],
    [106, 0, 0],
  ]),
);

export const sail: MotifDrawing = {
  name: 'sail',
  title: 'Sail',
  creator: 'Wilhelmina Quayside',
  description: 'A sloop and her tender, each sail one loop of the line.',
  flavour: nested,
  stroke: joined(boat, shifted(scaled(boat, 0.72), 106, 0)),
};
