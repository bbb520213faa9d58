import { plain } from '../flavours.js';
import { arcTo, at, repeated, type Segment, type Stroke } from '../stroke.js';
import type { MotifDrawing } from './motif-drawing.js';

/**
 * Half circles into the middle and out again. The upper ones stand about x = 0, the lower ones about 2 u; all are
 * 2 u apart, and the last ends where the next spiral begins. `rings` is odd.
 */
function doubleSpiral(rings: number, u: number): Stroke {
  const segments: Segment[] = [];
  let x = -rings * u;
  for (let i = 0; i <= rings; i++) {
    const above = i % 2 === 0;
    const middle = above ? 0 : 2 * u;
    const clockwise = above === x < middle;
    const radius = Math.abs(middle - x);
    x = 2 * middle - x;
    segments.push(arcTo(radius, clockwise, x, 0));
  }
  return { from: at(-rings * u, 0), segments };
}

export const ripples: MotifDrawing = {
  name: 'ripples',
  title: 'Ripples',
  creator: 'Pearl Driftwood',
  description: 'Rings of half circles, in to the middle and out again.',
  flavour: plain,
  stroke: repeated(doubleSpiral(7, 5), 3, 80),
};
