import { used } from '../flavours.js';
import { through } from '../spline.js';
import { at, joined, type Segment, type Stroke, withHalfTurn } from '../stroke.js';
import type { MotifDrawing } from './motif-drawing.js';

const meshMm = 24;
const risesMm = 15;
const strandMm = 24;
const width = 10 * meshMm;

/** A strand of half waves from (x, y), each a parabola; `up` where the first one rises. */
function strand(x: number, y: number, halves: number, stepMm: number, up: boolean): Stroke {
  const segments = Array.from({ length: halves }, (_, i): Segment => {
    const sign = (i % 2 === 0) === up ? -1 : 1;
    return {
      kind: 'quadratic',
      c: at(x + (i + 0.5) * stepMm, y + sign * 2 * risesMm),
      to: at(x + (i + 1) * stepMm, y),
    };
  });
  return { from: at(x, y), segments };
}

const steep = (Math.atan2(4 * risesMm, meshMm) * 180) / Math.PI;

/** Over the top strand to the right, back along the middle one to the centre; the rest is the same, turned. */
const half = joined(
  through([
    [0, 0, -80],
    [meshMm, -strandMm, -steep],
  ]),
  strand(meshMm, -strandMm, 8, meshMm, true),
  through([
    [9 * meshMm, -strandMm, -steep],
    [9 * meshMm + 14, -strandMm / 2, 90],
    [9 * meshMm, 0, 180 + steep],
  ]),
  strand(9 * meshMm, 0, 4, -meshMm, true),
);

export const net: MotifDrawing = {
  name: 'net',
  title: 'Net',
  creator: 'Barnaby Tidewater',
  description: `Three strands knotted into meshes, ${width} mm of them.`,
  flavour: used,
  stroke: withHalfTurn(half),
};
