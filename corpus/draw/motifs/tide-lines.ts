import { nested } from '../flavours.js';
import { drawn } from '../formula.js';
import { through } from '../spline.js';
import { at, joined, type Stroke, withHalfTurn } from '../stroke.js';
import type { MotifDrawing } from './motif-drawing.js';

const width = 240;
const apartMm = 12;
const insetMm = 14;

const height = (x: number) => 9 * Math.sin((4 * Math.PI * (x - width / 2)) / width);
const slopeDeg = (x: number) => (Math.atan(height(x + 0.01) * 50 - height(x - 0.01) * 50) * 180) / Math.PI;

/** The wave at level `y`, from one x to another. */
function line(y: number, from: number, to: number): Stroke {
  return drawn((x) => at(x, y + height(x)), from, to, Math.max(4, Math.round(Math.abs(to - from) / 12)));
}

const [left, right] = [insetMm, width - insetMm];

/** Right along the top line, back along the second, right again along the middle one as far as the centre. */
const half = joined(
  through([
    [0, 0, -90],
    [left, -2 * apartMm + height(left), slopeDeg(left)],
  ]),
  line(-2 * apartMm, left, right),
  through([
    [right, -2 * apartMm + height(right), slopeDeg(right)],
    [right + apartMm / 2, -1.5 * apartMm + height(right), 90],
    [right, -apartMm + height(right), 180 + slopeDeg(right)],
  ]),
  line(-apartMm, right, left),
  through([
    [left, -apartMm + height(left), 180 + slopeDeg(left)],
    [left - apartMm / 2, -0.5 * apartMm + height(left), 90],
    [left, height(left), slopeDeg(left)],
  ]),
  line(0, left, width / 2),
);

export const tideLines: MotifDrawing = {
  name: 'tide-lines',
  title: 'Tide Lines',
  creator: 'Wilhelmina Quayside',
  description: 'Five echoes of one wave, as the ebb leaves them on the sand.',
  flavour: nested,
  stroke: withHalfTurn(half),
};
