/**
 * Where the ink ends: marching squares (W. Lorensen and H. Cline, "Marching cubes", SIGGRAPH 1987, in the plane). Between
 * the centres of neighbouring pixels the edge lies where the darkness, taken as changing evenly, passes the
 * threshold: a border to a fraction of a pixel. Rings have the ink as `centre/border.ts` wants it.
 */
import type { Polyline } from '../../../shared/plane.js';
import { Refusal } from '../../../shared/refusal.js';

/** More border is no drawing of a line: at 300 dots to the inch it is that of 40 m. */
const mostSteps = 1_000_000;

/** @throws Refusal where there is too much of it. In pixels; the centre of the first pixel is (0.5, 0.5). Beyond the picture lies paper. */
export function edgesOf(dark: Uint8Array, width: number, height: number, threshold: number): Polyline[] {
  const at = (x: number, y: number) =>
    x < 0 || y < 0 || x >= width || y >= height ? 0 : dark[y * width + x];
  // An edge point lies on the side from one pixel's centre to the next one's: across (even) or down (odd).
  const wide = width + 2;
  const across = (x: number, y: number) => 2 * ((y + 1) * wide + x + 1);
  const down = (x: number, y: number) => across(x, y) + 1;
  const next = new Map<number, number>();
  // A level between two greys is passed by whole greys only.
  const least = Math.floor(threshold) + 1;
  for (let y = -1; y < height; y++) {
    let left = 0;
    const [above, below] = [y * width, (y + 1) * width];
    for (let x = -1; x < width; x++) {
      const isIn = x + 1 < width;
      const right =
        (isIn && y >= 0 && dark[above + x + 1] >= least ? 1 : 0) +
        (isIn && y + 1 < height && dark[below + x + 1] >= least ? 2 : 0);
      if (left === right && (left === 0 || left === 3)) continue;
      const [a, b, c, d] = [left & 1, right & 1, right >> 1, left >> 1];
      left = right;
      const corners = a + b + c + d;
      if (corners === 0 || corners === 4) continue;
      if (next.size > mostSteps)
        throw new Refusal(
          'It holds too many shapes for a drawing in one line, or the paper is too coarse: draw on plain paper, or raise --ink.',
        );
      const sides = [across(x, y), down(x + 1, y), across(x, y + 1), down(x, y)];
      const inks = [a, b, c, d];
      // A line enters where ink turns to paper along the cell's edge (clockwise), and leaves where paper turns to ink.
      const enter: number[] = [];
      const leave: number[] = [];
      for (let side = 0; side < 4; side++) {
        const [from, to] = [inks[side], inks[(side + 1) % 4]];
        if (from === 1 && to === 0) leave.push(side);
        else if (from === 0 && to === 1) enter.push(side);
      }
      if (enter.length === 1) next.set(sides[leave[0]], sides[enter[0]]);
      else {
        const middle = (at(x, y) + at(x + 1, y) + at(x, y + 1) + at(x + 1, y + 1)) / 4 > threshold;
        for (const side of leave) next.set(sides[side], sides[(side + (middle ? 1 : 3)) % 4]);
      }
    }
  }
  const place = (id: number, flat: number[]) => {
    const half = id >> 1;
    const x = (half % wide) - 1;
    const y = Math.floor(half / wide) - 1;
    const from = at(x, y);
    const to = id & 1 ? at(x, y + 1) : at(x + 1, y);
    const share = (threshold - from) / (to - from);
    flat.push(x + 0.5 + (id & 1 ? 0 : share), y + 0.5 + (id & 1 ? share : 0));
  };
  const rings: Polyline[] = [];
  for (const first of next.keys()) {
    if (!next.has(first)) continue;
    const flat: number[] = [];
    for (let id: number | undefined = first; id !== undefined; ) {
      place(id, flat);
      const after: number | undefined = next.get(id);
      next.delete(id);
      id = after;
    }
    rings.push(Float64Array.from(flat));
  }
  return rings;
}
