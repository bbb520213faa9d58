import { points } from '../flavours.js';
import { drawn } from '../formula.js';
import { at } from '../stroke.js';
import type { MotifDrawing } from './motif-drawing.js';

const links = 9;
const width = 240;
const sagMm = 16;

/** Oval links along a chain that hangs and rises; the first and last are shorter, clear of the next repeat. */
const chain = drawn(
  (angle) => {
    const share = angle / (2 * Math.PI * links);
    const along = 13 + 7 * Math.min(1, 2.5 * Math.sin(Math.PI * share) ** 2);
    const [u, v] = [along * Math.sin(angle), -13.5 * (1 - Math.cos(angle))];
    const slope = Math.atan(((2 * Math.PI * sagMm) / width) * Math.cos(2 * Math.PI * share));
    const [cos, sin] = [Math.cos(slope), Math.sin(slope)];
    return at(width * share + u * cos - v * sin, sagMm * Math.sin(2 * Math.PI * share) + u * sin + v * cos);
  },
  0,
  2 * Math.PI * links,
  links * 8,
);

export const anchorChain: MotifDrawing = {
  name: 'anchor-chain',
  title: 'Anchor Chain',
  creator: 'Barnaby Tidewater',
  description: 'Links through links along a hanging chain.',
  flavour: points,
  stroke: chain,
};
