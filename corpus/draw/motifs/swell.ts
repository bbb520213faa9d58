import { points } from '../flavours.js';
import { through } from '../spline.js';
import type { MotifDrawing } from './motif-drawing.js';

/** Three crests that lean into the wind, the middle one lower. */
export const swell: MotifDrawing = {
  name: 'swell',
  title: 'Swell',
  creator: 'Wilhelmina Quayside',
  description: 'Leaning crests with deep troughs: rows nest far into each other.',
  flavour: points,
  stroke: through([
    [0, 0, 0],
    [33, -34],
    [60, -64, 12],
    [86, 0, 0],
    [113, -26],
    [134, -48, 12],
    [158, 0, 0],
    [187, -32],
    [212, -56, 12],
    [238, 0, 0],
  ]),
};
