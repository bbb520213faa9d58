/** Distances between points and straight segments, all in closed form. */
import type { Point } from './point.js';

/** Where on the segment a-b, as a share 0 to 1 from a, the place nearest to (px, py) lies. */
export function nearestShare(px: number, py: number, ax: number, ay: number, bx: number, by: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  const squared = dx * dx + dy * dy;
  if (squared === 0) return 0;
  const share = ((px - ax) * dx + (py - ay) * dy) / squared;
  return Math.max(0, Math.min(share, 1));
}

export function pointToSegment(
  px: number,
  py: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): number {
  const share = nearestShare(px, py, ax, ay, bx, by);
  return Math.hypot(px - ax - share * (bx - ax), py - ay - share * (by - ay));
}

/**
 * The least distance between segments a-b and c-d, 0 where they meet. Where they do not meet it is reached at an
 * end of one of them.
 */
export function segmentToSegment(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): number {
  if (segmentCrossing(ax, ay, bx, by, cx, cy, dx, dy)) return 0;
  return Math.min(
    pointToSegment(ax, ay, cx, cy, dx, dy),
    pointToSegment(bx, by, cx, cy, dx, dy),
    pointToSegment(cx, cy, ax, ay, bx, by),
    pointToSegment(dx, dy, ax, ay, bx, by),
  );
}

/** The one place where two segments that are not parallel meet, ends included, or null. */
export function segmentCrossing(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): Point | null {
  const ux = bx - ax;
  const uy = by - ay;
  const vx = dx - cx;
  const vy = dy - cy;
  const cross = ux * vy - uy * vx;
  if (cross === 0) return null;
  const s = ((cx - ax) * vy - (cy - ay) * vx) / cross;
  const t = ((cx - ax) * uy - (cy - ay) * ux) / cross;
  if (s < 0 || s > 1 || t < 0 || t > 1) return null;
  return { x: ax + s * ux, y: ay + s * uy };
}
