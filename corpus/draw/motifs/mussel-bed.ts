import { entities } from '../flavours.js';
import { type Knot, through } from '../spline.js';
import type { MotifDrawing } from './motif-drawing.js';

/** A shell and its growth line: two turns of one loop, leaning by `leanDeg`, rooted at (x, y). */
function mussel(x: number, y: number, lengthMm: number, leanDeg: number, side: 1 | -1): Knot[] {
  const lean = (leanDeg * Math.PI) / 180;
  const place = (along: number, across: number): [number, number] => {
    const [u, v] = [along * lengthMm, across * lengthMm];
    return [
      x + u * Math.sin(lean) + v * Math.cos(lean),
      y + side * (u * Math.cos(lean) - v * Math.sin(lean)),
    ];
  };
  return [
    place(0.6, 0.28),
    [...place(1, 0), 180 + -side * leanDeg],
    place(0.6, -0.28),
    place(0.28, 0),
    place(0.6, 0.15),
    [...place(0.83, 0), 180 + -side * leanDeg],
    place(0.6, -0.15),
  ];
}

export const musselBed: MotifDrawing = {
  name: 'mussel-bed',
  title: 'Mussel Bed',
  creator: 'Pearl Driftwood',
  description: 'Shells with their growth lines, pointing every way.',
  flavour: entities,
  stroke: through([
    [0, 0, 0],
    ...mussel(16, -2, 58, -14, -1),
    [38, 1, 8],
    ...mussel(54, 2, 50, 8, 1),
    [72, 0, -8],
    ...mussel(88, -2, 52, 12, -1),
    [107, 1, 8],
    ...mussel(125, 2, 58, -6, 1),
    [143, 0, -8],
    ...mussel(158, -2, 56, -4, -1),
    [176, 1, 8],
    ...mussel(192, 2, 52, 10, 1),
    [212, 0, 0],
  ]),
};
