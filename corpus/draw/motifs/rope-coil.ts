import { inches } from '../flavours.js';
import { drawn } from '../formula.js';
import { at, flipped, joined, shifted } from '../stroke.js';
import type { MotifDrawing } from './motif-drawing.js';

const pitchMm = 18;
const turns = 7;

/** Loops of a rolling wheel, the wheel growing and shrinking again. */
const coil = drawn(
  (angle) => {
    const share = angle / (2 * Math.PI * turns);
    const radius = 8.5 + 14 * Math.sin(Math.PI * share) ** 2;
    return at((pitchMm * angle) / (2 * Math.PI) + radius * Math.sin(angle), -radius * (1 - Math.cos(angle)));
  },
  0,
  2 * Math.PI * turns,
  turns * 8,
);

export const ropeCoil: MotifDrawing = {
  name: 'rope-coil',
  title: 'Rope Coil',
  creator: 'Barnaby Tidewater',
  description: 'A coil above the line and a coil below it.',
  flavour: inches,
  stroke: joined(coil, shifted(flipped(coil, 0), pitchMm * turns, 0)),
};
