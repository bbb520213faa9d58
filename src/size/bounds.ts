/**
 * The exact box of lines and curves. Ends first: they are on the curve. Then only the curves whose control points
 * reach beyond what is known so far need their extremes worked out, a few in a thousand.
 */
import type { Box } from '../../shared/plane.js';
import { Op, opSize, type Subpath } from '../../shared/subpath.js';
import { emptyBox, extend } from '../geometry/box.js';
import { arcPlace, split } from './curve.js';
import { extremesOf } from './extremes.js';

export function curveBounds(paths: readonly Subpath[]): Box {
  const box = emptyBox();
  for (const path of paths) extendByEnds(box, path);
  for (const path of paths) extendByBulges(box, path);
  return box;
}

function extendByEnds(box: Box, { ops, coords }: Subpath): void {
  extend(box, coords[0], coords[1]);
  let at = 2;
  for (const op of ops) {
    at += opSize[op];
    extend(box, coords[at - 2], coords[at - 1]);
  }
}

function extendByBulges(box: Box, { ops, coords }: Subpath): void {
  let at = 2;
  for (const op of ops) {
    if (op !== Op.line && reaches(box, op, coords, at)) {
      const [x, y] = [coords[at - 2], coords[at - 1]];
      for (const place of extremesOf(op, x, y, coords, at)) {
        extend(box, ...placeOn(op, coords, at, place));
      }
    }
    at += opSize[op];
  }
}

/** Whether the curve whose numbers begin at `coords[at]` may reach the edge of `box` or beyond it. */
export function reaches(box: Box, op: number, coords: Float64Array, at: number): boolean {
  if (op === Op.arc) {
    const [x, y, ux, uy, vx, vy] = coords.subarray(at, at + 6);
    const [dx, dy] = [Math.hypot(ux, vx), Math.hypot(uy, vy)];
    return !(x - dx > box.minX && x + dx < box.maxX && y - dy > box.minY && y + dy < box.maxY);
  }
  for (let i = at; i < at + opSize[op] - 2; i += 2) {
    const x = coords[i];
    const y = coords[i + 1];
    if (!(x > box.minX && x < box.maxX && y > box.minY && y < box.maxY)) return true;
  }
  return false;
}

function placeOn(op: number, coords: Float64Array, at: number, place: number): [number, number] {
  if (op === Op.arc) return arcPlace(coords, at, place);
  const [, rest] = split(coords.subarray(at - 2, at + opSize[op]), place);
  return [rest[0], rest[1]];
}
