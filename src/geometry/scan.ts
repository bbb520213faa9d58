/** A scan that goes where the line traced from it goes. */
import type { Point } from '../../shared/plane.js';
import type { PaleScan, Scan } from '../../shared/scan.js';

/** A map that puts the middle of the picture farther than this, in its widths, from the middle of its corners bends it. */
const bentShare = 1e-3;

/** Its places and corners where `to` takes them; without its picture where that would have to be bent. */
export function scanMoved(scan: Scan, to: (at: Point) => Point): Scan {
  return {
    ...scan,
    uncovered: scan.uncovered.map(to),
    offInk: scan.offInk.map(to),
    pale: scan.pale && paleMoved(scan.pale, to),
  };
}

/** The same picture `times` as large. */
export function scanScaled(scan: Scan, times: number): Scan {
  return { ...scanMoved(scan, ({ x, y }) => ({ x: x * times, y: y * times })), penMm: scan.penMm * times };
}

function paleMoved(pale: PaleScan, to: (at: Point) => Point): PaleScan | null {
  const [topLeft, topRight, bottomLeft] = [pale.topLeft, pale.topRight, pale.bottomLeft].map(to);
  const width = Math.hypot(topRight.x - topLeft.x, topRight.y - topLeft.y);
  // An affine map is settled by three corners: any fourth place must come out where they say.
  for (const [u, v] of [
    [0.25, 0.25],
    [0.5, 0.5],
    [0.75, 0.25],
    [1, 1],
  ]) {
    const is = to(placeIn(pale, u, v));
    const said = placeIn({ topLeft, topRight, bottomLeft }, u, v);
    if (Math.hypot(is.x - said.x, is.y - said.y) > bentShare * width) return null;
  }
  return { ...pale, topLeft, topRight, bottomLeft };
}

function placeIn(
  { topLeft, topRight, bottomLeft }: Omit<PaleScan, 'href'>,
  across: number,
  down: number,
): Point {
  return {
    x: topLeft.x + across * (topRight.x - topLeft.x) + down * (bottomLeft.x - topLeft.x),
    y: topLeft.y + across * (topRight.y - topLeft.y) + down * (bottomLeft.y - topLeft.y),
  };
}
