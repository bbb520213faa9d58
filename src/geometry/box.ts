import type { Box, Point } from '../../shared/plane.js';

export function emptyBox(): Box {
  return { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
}

export function isEmpty(box: Box): boolean {
  return !(box.minX <= box.maxX && box.minY <= box.maxY);
}

/** Grows `box` in place so that it holds (x, y). */
export function extend(box: Box, x: number, y: number): void {
  if (x < box.minX) box.minX = x;
  if (x > box.maxX) box.maxX = x;
  if (y < box.minY) box.minY = y;
  if (y > box.maxY) box.maxY = y;
}

/** Grows `box` in place so that it holds `other`; an empty one adds nothing. */
export function extendByBox(box: Box, other: Box): void {
  if (other.minX < box.minX) box.minX = other.minX;
  if (other.maxX > box.maxX) box.maxX = other.maxX;
  if (other.minY < box.minY) box.minY = other.minY;
  if (other.maxY > box.maxY) box.maxY = other.maxY;
}

export function diagonal(box: Box): number {
  return isEmpty(box) ? 0 : Math.hypot(box.maxX - box.minX, box.maxY - box.minY);
}

export function centre(box: Box): Point {
  return { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
}
