/** Distances between points and straight segments, all in closed form. */
import type { Point } from '../../shared/plane.js';

/** Where on the segment a-b, as a share 0 to 1 from a, the place nearest to (px, py) lies. */
export function nearestShare(px: number, py: number, ax: number, ay: number, bx: number, by: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  const squared = dx * dx + dy * dy;
  if (squared === 0) return 0;
  const share = ((px - ax) * dx + (py - ay) * dy) / squared;
  return Math.max(0, Math.min(share, 1));
}

/** The place on the segment a-b that is nearest to a point. */
export function nearestOnSegment({ x, y }: Point, a: Point, b: Point): Point {
  const share = nearestShare(x, y, a.x, a.y, b.x, b.y);
  return { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) };
}

export function pointToSegment(
  px: number,
  py: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): number {
  return Math.sqrt(squaredToSegment(px, py, ax, ay, bx, by));
}

/** The same distance squared, for inner loops: it is enough to compare by, and costs a tenth. */
export function squaredToSegment(
  px: number,
  py: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): number {
  const share = nearestShare(px, py, ax, ay, bx, by);
  const x = px - ax - share * (bx - ax);
  const y = py - ay - share * (by - ay);
  return x * x + y * y;
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

/** The place on segment a-b that is nearest to segment c-d: where they meet, else at an end of one of them. */
export function nearestToSegment(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): Point {
  const meet = segmentCrossing(ax, ay, bx, by, cx, cy, dx, dy);
  if (meet) return meet;
  const shares = [0, 1, nearestShare(cx, cy, ax, ay, bx, by), nearestShare(dx, dy, ax, ay, bx, by)];
  const places = shares.map((share) => ({ x: ax + share * (bx - ax), y: ay + share * (by - ay) }));
  const off = places.map(({ x, y }) => pointToSegment(x, y, cx, cy, dx, dy));
  return places[off.indexOf(Math.min(...off))];
}

/** The share of the step (dx, dy) from (x, y) at which it leaves the circle round the origin; 0 where it has left before. */
export function exitShare(x: number, y: number, dx: number, dy: number, radius: number): number {
  const squared = dx * dx + dy * dy;
  const half = x * dx + y * dy;
  const root = half * half - squared * (x * x + y * y - radius * radius);
  return Math.max(0, (Math.sqrt(Math.max(0, root)) - half) / squared);
}

/**
 * The part of segment a-b that lies within `withinMm` of segment c-d, as shares 0 to 1 from a, written to `out`;
 * false where there is none. What lies within a distance of a segment is a rectangle with a half disc at each end;
 * it has no dents, so that a straight line runs in it for one stretch: from the first to the last place at which
 * it lies in the rectangle or in one of the two discs.
 */
export function sharesWithin(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
  withinMm: number,
  out: Float64Array,
): boolean {
  const ux = bx - ax;
  const uy = by - ay;
  const squared = ux * ux + uy * uy;
  if (squared === 0) {
    out[0] = 0;
    out[1] = 1;
    return pointToSegment(ax, ay, cx, cy, dx, dy) <= withinMm;
  }
  let low = Infinity;
  let high = -Infinity;
  const vx = dx - cx;
  const vy = dy - cy;
  const width = Math.sqrt(vx * vx + vy * vy);
  for (let end = 0; end < (width > 0 ? 2 : 1); end++) {
    const px = ax - cx - end * vx;
    const py = ay - cy - end * vy;
    const half = px * ux + py * uy;
    const under = half * half - squared * (px * px + py * py - withinMm * withinMm);
    if (under < 0) continue;
    const root = Math.sqrt(under);
    low = Math.min(low, (-half - root) / squared);
    high = Math.max(high, (-half + root) / squared);
  }
  if (width > 0) {
    const along0 = ((ax - cx) * vx + (ay - cy) * vy) / width;
    const across0 = ((ax - cx) * vy - (ay - cy) * vx) / width;
    const along = (ux * vx + uy * vy) / width;
    const across = (ux * vy - uy * vx) / width;
    let from = -Infinity;
    let to = Infinity;
    if (along !== 0) {
      const t0 = -along0 / along;
      const t1 = (width - along0) / along;
      from = Math.min(t0, t1);
      to = Math.max(t0, t1);
    } else if (along0 < 0 || along0 > width) to = -Infinity;
    if (across !== 0) {
      const t0 = (-withinMm - across0) / across;
      const t1 = (withinMm - across0) / across;
      from = Math.max(from, Math.min(t0, t1));
      to = Math.min(to, Math.max(t0, t1));
    } else if (Math.abs(across0) > withinMm) to = -Infinity;
    if (from <= to) {
      low = Math.min(low, from);
      high = Math.max(high, to);
    }
  }
  out[0] = Math.max(0, low);
  out[1] = Math.min(1, high);
  return out[0] <= out[1];
}
