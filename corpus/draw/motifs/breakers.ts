import type { Point } from '../../../shared/plane.js';
import { inches } from '../flavours.js';
import { drawn } from '../formula.js';
import { through } from '../spline.js';
import { at, joined, type Stroke } from '../stroke.js';
import type { MotifDrawing } from './motif-drawing.js';

const degrees = Math.PI / 180;

/** One turn of the curl brings the line this much nearer to its middle; the way out runs between. */
const perTurnMm = 13;

/**
 * A wave from the trough at `x` that climbs, curls over to the right, winds in about `middle`, turns and winds out
 * again to the trough at `toX`. `outer` is the curl's radius where it begins.
 */
function breaker(x: number, middle: Point, outer: number, toX: number): Stroke {
  const begin = 200;
  const radius = (angle: number) => outer - (perTurnMm * (angle - begin)) / 360;
  const place = (angle: number, half: 0 | 180) =>
    at(
      middle.x + radius(angle) * Math.cos((angle + half) * degrees),
      middle.y + radius(angle) * Math.sin((angle + half) * degrees),
    );
  const inner = begin + (360 * (outer - 8)) / perTurnMm;
  // The way out leaves the curl on its lower left side, where it already heads for the next trough.
  const leave = begin + ((155 - 180 - begin + 720) % 360);
  const arm = (from: number, to: number, half: 0 | 180) =>
    drawn((angle) => place(angle, half), from, to, Math.ceil(Math.abs(to - from) / 30));
  const [wayIn, wayOut] = [place(begin, 0), place(leave, 180)];
  const [a, b] = [place(inner, 0), place(inner, 180)];
  return joined(
    through([
      [x, 0, 0],
      [wayIn.x, wayIn.y, begin + 90],
    ]),
    arm(begin, inner, 0),
    through([
      [a.x, a.y, inner + 90],
      [middle.x, middle.y],
      [b.x, b.y, inner + 90],
    ]),
    arm(inner, leave, 180),
    through([
      [wayOut.x, wayOut.y, leave + 90],
      [toX, 0, 0],
    ]),
  );
}

export const breakers: MotifDrawing = {
  name: 'breakers',
  title: 'Breakers',
  creator: 'Pearl Driftwood',
  description: 'Curling crests that reach over the next repeat.',
  flavour: inches,
  stroke: joined(
    breaker(0, at(56, -52), 27, 76),
    breaker(76, at(122, -40), 21, 134),
    breaker(134, at(182, -46), 24, 196),
  ),
};
