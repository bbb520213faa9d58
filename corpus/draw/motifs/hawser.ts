import { used } from '../flavours.js';
import { drawn } from '../formula.js';
import { through } from '../spline.js';
import { at, joined, type Stroke, withHalfTurn } from '../stroke.js';
import type { MotifDrawing } from './motif-drawing.js';

const width = 252;
const amplitudeMm = 26;
/** So many that the outer strands cross the middle height at the edges. */
const waves = 3 + 2 / 3;
/** Where, at the right, the first and the middle strand cross for the last time: there they turn into each other. */
const lastMm = width - width / waves / 4;

/** Strand of the plait: a sine, `third` thirds of a wave along; the middle one is 0. */
const level = (x: number, third: number) =>
  amplitudeMm * Math.sin(2 * Math.PI * ((waves * (x - width / 2)) / width + third / 3));
const slopeDeg = (x: number, third: number) =>
  (Math.atan(50 * (level(x + 0.01, third) - level(x - 0.01, third))) * 180) / Math.PI;

function strand(third: number, from: number, to: number): Stroke {
  return drawn((x) => at(x, level(x, third)), from, to, Math.round(Math.abs(to - from) / 9));
}

const half = joined(
  strand(1, 0, lastMm),
  through([
    [lastMm, level(lastMm, 1), slopeDeg(lastMm, 1)],
    [lastMm + 6, level(lastMm, 0) + 9, 0],
    [lastMm + 13, level(lastMm, 0), -90],
    [lastMm + 6, level(lastMm, 0) - 9, 180],
    [lastMm, level(lastMm, 0), 180 + slopeDeg(lastMm, 0)],
  ]),
  strand(0, lastMm, width / 2),
);

export const hawser: MotifDrawing = {
  name: 'hawser',
  title: 'Hawser',
  creator: 'Barnaby Tidewater',
  description: 'A plait of three strands, all of them one line.',
  flavour: used,
  stroke: withHalfTurn(half),
};
