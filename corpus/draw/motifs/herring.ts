import { prefixed } from '../flavours.js';
import { through } from '../spline.js';
import { flipped, joined, type Stroke, shifted } from '../stroke.js';
import type { MotifDrawing } from './motif-drawing.js';

const stepMm = 118;

/** A fish: over its back, round its nose, along its belly, up into the tail; and the wake that follows over it. */
const fish: Stroke = joined(
  through([
    [0, 0, 0],
    [30, -14, -34],
    [64, -29],
    [97, -10, 84],
    [62, 2],
    [30, -14, 214],
    [13, -34, 222],
  ]),
  through([
    [13, -34, -28],
    [54, -50, 0],
    [104, -22, 66],
    [stepMm, 0, 0],
  ]),
);

export const herring: MotifDrawing = {
  name: 'herring',
  title: 'Herring',
  creator: 'Pearl Driftwood',
  description: 'A shoal of two, each followed by its wake.',
  flavour: prefixed,
  stroke: joined(fish, shifted(flipped(fish, 0), stepMm, 0)),
};
