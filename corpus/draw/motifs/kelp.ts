import { prefixed } from '../flavours.js';
import { type Knot, through } from '../spline.js';
import type { MotifDrawing } from './motif-drawing.js';

const stepMm = 26;
/** Alternately above and below the stem. */
const lengthsMm = [62, 50, 52, 60, 66, 54, 56, 64];
const leanMm = 20;

/** A blade as a slender loop: out along one side, round the tip, back along the other and over its own root. */
function blade(x: number, lengthMm: number, side: 1 | -1): Knot[] {
  return [
    [x + 13, side * lengthMm * 0.5],
    [x + leanMm, side * lengthMm, 180 + side * 14],
    [x - 8, side * lengthMm * 0.46],
  ];
}

export const kelp: MotifDrawing = {
  name: 'kelp',
  title: 'Kelp',
  creator: 'Pearl Driftwood',
  description: 'Blades that drift past the end of the repeat and over the next one.',
  flavour: prefixed,
  stroke: through([
    [0, 0, -40],
    ...lengthsMm.flatMap((length, i): Knot[] => [
      ...blade((i + 0.7) * stepMm, length, i % 2 === 0 ? -1 : 1),
      [(i + 1) * stepMm + 4, 0, i === 7 ? -40 : undefined],
    ]),
  ]),
};
