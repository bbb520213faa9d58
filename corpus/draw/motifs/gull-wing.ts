import { entities } from '../flavours.js';
import { through } from '../spline.js';
import { joined, scaled, shifted } from '../stroke.js';
import type { MotifDrawing } from './motif-drawing.js';

const halfMm = 76;

/**
 * A gull about (0, 0): off the water, out under the right wing to its tip, over both shoulders to the left tip, back
 * under the left wing and down to the water again.
 */
const gull = joined(
  through([
    [-halfMm, 34, 0],
    [0, 0, -40],
    [34, -18, 4],
    [74, 6, 62],
  ]),
  through([
    [74, 6, -98],
    [44, -34, 190],
    [0, -16, 180],
    [-44, -34, 170],
    [-74, 6, 98],
  ]),
  through([
    [-74, 6, -62],
    [-34, -18, -4],
    [0, 0, 40],
    [halfMm, 34, 0],
  ]),
);

const small = 0.74;

export const gullWing: MotifDrawing = {
  name: 'gull-wing',
  title: 'Gull Wing',
  creator: 'Wilhelmina Quayside',
  description: 'Two gulls over the water; their wing tips reach into the neighbouring repeats.',
  flavour: entities,
  stroke: joined(shifted(gull, 0, -34), shifted(scaled(gull, small), halfMm * (1 + small), -34 * small)),
};
