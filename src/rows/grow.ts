/**
 * Grows an empty circle, moving it as it grows, until the lines around it hold it: a local maximum of the distance to
 * the nearest line.
 *
 * Method: seen from the circle, each line around it is a wall at right angles to the way to its nearest place. Among
 * straight walls the best move within a small reach is found exactly, by growing: first away from the nearest wall,
 * then along the bisector of two, until three hold the circle or two face each other. The distance to a segment is
 * convex, so that the walls promise less room than there is, never more, and each move makes the true circle larger;
 * where a bend hidden behind a nearer wall spoils that, the reach is cut. Near the end the step is Newton's, and
 * the error falls with its square.
 */
import { distanceToStack, eachNear, type Stack } from './stack.js';

export interface EmptyCircle {
  readonly x: number;
  readonly y: number;
  readonly radiusMm: number;
}

/** A move that gains less is the last, mm. */
const precisionMm = 2e-4;
/** Of the lines in one direction only the nearest is a wall. */
const sectors = 32;

function sectorOf(dx: number, dy: number): number {
  const turn = Math.atan2(dy, dx) / (2 * Math.PI) + 0.5;
  return Math.min(sectors - 1, Math.floor(turn * sectors));
}

/**
 * The circle grown from (x, y); its first moves reach as far as `reachMm`. It is given up, as far as it has come, where
 * it gets larger than `mostMm`, and in a stack of one row where its centre gets above or below the row.
 */
export function grownCircle(
  stack: Stack,
  startX: number,
  startY: number,
  reachMm: number,
  mostMm = Infinity,
): EmptyCircle {
  let x = startX;
  let y = startY;
  let radiusMm = distanceToStack(stack, x, y);
  let reach = reachMm;
  // Each move gains as much as the precision, or the reach is cut: it ends.
  while (reach > precisionMm) {
    const move = bestMove(wallsAround(stack, x, y, radiusMm + 2 * reach), reach);
    const size = Math.hypot(move.x, move.y);
    if (size < precisionMm) break;
    const grown = distanceToStack(stack, x + move.x, y + move.y);
    if (grown > radiusMm) {
      const gain = grown - radiusMm;
      x += move.x;
      y += move.y;
      radiusMm = grown;
      if (gain < precisionMm || radiusMm > mostMm) break;
      reach = Math.min(2 * size, Math.max(reachMm, radiusMm / 2));
      if (isOutside(stack, y)) break;
    } else reach /= 4;
  }
  return { x, y, radiusMm };
}

/**
 * True where the circle has left its row for the open, where it would grow without end: what holds a circle lies around it,
 * so that the centre of a pocket is never above or below its row.
 */
export function isOutside({ only, row }: Stack, y: number): boolean {
  return only !== null && (y <= row.box.minY || y >= row.box.maxY);
}

/** A straight line `distanceMm` away; (x, y) is the unit vector from it. */
interface Wall {
  readonly x: number;
  readonly y: number;
  readonly distanceMm: number;
}

function wallsAround(stack: Stack, x: number, y: number, withinMm: number): Wall[] {
  const nearest = new Float64Array(sectors).fill(Infinity);
  const feet = new Float64Array(2 * sectors);
  const see = (footX: number, footY: number, far: number) => {
    const sector = sectorOf(footX - x, footY - y);
    if (far >= nearest[sector]) return;
    nearest[sector] = far;
    feet[2 * sector] = footX;
    feet[2 * sector + 1] = footY;
  };
  // Behind the nearest wall of the one sector it lies in.
  const isHidden = (x0: number, y0: number, x1: number, y1: number, far: number) => {
    const sector = sectorOf(x0, y0);
    if (far < nearest[sector]) return false;
    return sector === sectorOf(x1, y0) && sector === sectorOf(x0, y1) && sector === sectorOf(x1, y1);
  };
  eachNear(stack, x, y, withinMm, see, isHidden);
  const walls: Wall[] = [];
  for (let i = 0; i < sectors; i++) {
    const far = nearest[i];
    if (far > 0 && far < Infinity) {
      walls.push({ x: (x - feet[2 * i]) / far, y: (y - feet[2 * i + 1]) / far, distanceMm: far });
    }
  }
  return walls;
}

/** The move, on a way at most `reach` long, that makes the least distance to these walls largest. */
function bestMove(walls: readonly Wall[], reach: number): { x: number; y: number } {
  const at = { x: 0, y: 0 };
  if (walls.length === 0) return at;
  // Walls that touch the circle now: one, then two.
  let held = [walls.reduce((a, b) => (a.distanceMm <= b.distanceMm ? a : b))];
  for (let left = reach; held.length < 3; ) {
    const way = widest(held);
    if (way === null) break;
    const { step, next } = nextWall(walls, held, at, way);
    at.x += Math.min(step, left) * way.x;
    at.y += Math.min(step, left) * way.y;
    // At least a little, so that walls met at once do not take turns for ever.
    left -= Math.max(step, precisionMm);
    if (next === null || left <= 0) break;
    held = stillHeld(held, next);
  }
  return at;
}

/** The direction in which the distance to the walls that are touched grows fastest, or null where it cannot grow. */
function widest(held: readonly Wall[]): { x: number; y: number; rate: number } | null {
  const [a, b] = held;
  if (b === undefined) return { x: a.x, y: a.y, rate: 1 };
  const x = a.x + b.x;
  const y = a.y + b.y;
  const size = Math.sqrt(x * x + y * y);
  // Two walls that face each other to a hundredth of a degree.
  if (size < 2e-4) return null;
  return { x: x / size, y: y / size, rate: size / 2 };
}

/** The first wall that is touched on the way, and after how far. */
function nextWall(
  walls: readonly Wall[],
  held: readonly Wall[],
  at: { x: number; y: number },
  way: { x: number; y: number; rate: number },
): { step: number; next: Wall | null } {
  const room = held[0].distanceMm + at.x * held[0].x + at.y * held[0].y;
  let step = Infinity;
  let next: Wall | null = null;
  for (const wall of walls) {
    if (held.includes(wall)) continue;
    const closing = way.rate - (wall.x * way.x + wall.y * way.y);
    if (closing <= 1e-12) continue;
    const when = Math.max(0, (wall.distanceMm + at.x * wall.x + at.y * wall.y - room) / closing);
    if (when < step) {
      step = when;
      next = wall;
    }
  }
  return { step, next };
}

/** The walls that go on touching a growing circle that has met one more; three where they hold it for good. */
function stillHeld(held: readonly Wall[], met: Wall): Wall[] {
  if (held.length === 1) return [held[0], met];
  const [a, b] = held;
  const pairs: [Wall, Wall, Wall][] = [
    [a, met, b],
    [b, met, a],
  ];
  for (const [one, two, rest] of pairs) {
    const way = widest([one, two]);
    if (way && rest.x * way.x + rest.y * way.y >= way.rate) return [one, two];
  }
  return [a, b, met];
}
