import type { Point } from '../../shared/plane.js';

/** The acute angle between two ways, degrees. */
export function acuteDeg(ux: number, uy: number, vx: number, vy: number): number {
  return (Math.atan2(Math.abs(ux * vy - uy * vx), Math.abs(ux * vx + uy * vy)) * 180) / Math.PI;
}

/** `Math.hypot`, which fears no overflow, takes several times as long; millimetres of cloth are no such numbers. */
export function distanceBetween(ax: number, ay: number, bx: number, by: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  return Math.sqrt(dx * dx + dy * dy);
}

export function distance(a: Point, b: Point): number {
  return distanceBetween(a.x, a.y, b.x, b.y);
}

export function midpoint(a: Point, b: Point): Point {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

/**
 * The angle in degrees, 0 to 180, by which a walker turns who arrives along (ax, ay) and leaves along (bx, by).
 * A zero vector turns by nothing.
 */
export function turnDeg(ax: number, ay: number, bx: number, by: number): number {
  return (Math.abs(Math.atan2(ax * by - ay * bx, ax * bx + ay * by)) * 180) / Math.PI;
}

/** The centre of the circle through (0, 0), (bx, by) and (cx, cy); not finite where these lie on one line. */
export function circumcentre(bx: number, by: number, cx: number, cy: number): Point {
  const bb = bx * bx + by * by;
  const cc = cx * cx + cy * cy;
  const twice = 2 * (bx * cy - by * cx);
  return { x: (cy * bb - by * cc) / twice, y: (bx * cc - cx * bb) / twice };
}
