/**
 * Which points a line can do without.
 *
 * Method: D. Douglas and T. Peucker, "Algorithms for the reduction of the number of points required to represent a
 * digitized line or its caricature", Cartographica 10 (1973): keep the point farthest from the chord, and do the
 * same on both sides of it, until all points lie within the tolerance of their chord. Distances are taken to the
 * chord as a segment, so that a line that turns back keeps its turn.
 */
import type { Polyline } from '../../shared/plane.js';
import { pointToSegment } from './segment.js';

/** Coordinates on the grid of files make exact ties; what floats add to them must not decide. */
const roundingMm = 1e-9;

/**
 * Marks in `keep`, one entry a point, those between points `from` and `to` (kept themselves) that the line needs if
 * no point left out may lie farther than `toleranceMm` from the line without it.
 */
export function markNeeded(
  line: Polyline,
  from: number,
  to: number,
  toleranceMm: number,
  keep: Uint8Array,
): void {
  keep[from] = 1;
  keep[to] = 1;
  const spans = [from, to];
  while (spans.length > 0) {
    const last = spans.pop()!;
    const first = spans.pop()!;
    const farthest = farthestFrom(line, first, last, toleranceMm);
    if (farthest < 0) continue;
    keep[farthest] = 1;
    spans.push(first, farthest, farthest, last);
  }
}

/** Marks, one entry a point, what the line needs as a whole, weighed from its ends inwards. */
export function neededOfWhole(line: Polyline, toleranceMm: number): Uint8Array {
  const keep = new Uint8Array(line.length >> 1);
  markNeeded(line, 0, keep.length - 1, toleranceMm, keep);
  return keep;
}

/** Points are weighed in groups of so many, which keeps the work linear and costs one point a group. */
const groupSize = 64;

/** Marks, one entry a point, what a line needs if no point left out may lie farther than `toleranceMm` from the rest. */
export function neededPoints(line: Polyline, toleranceMm: number): Uint8Array {
  const keep = new Uint8Array(line.length >> 1);
  const last = keep.length - 1;
  for (let from = 0; from < last; from += groupSize)
    markNeeded(line, from, Math.min(from + groupSize, last), toleranceMm, keep);
  return keep;
}

/** The line with the points it needs; no point left out lies farther than `toleranceMm` from it. */
export function thinnedLine(line: Polyline, toleranceMm: number): Polyline {
  const keep = neededPoints(line, toleranceMm);
  return line.filter((_, i) => keep[i >> 1] === 1);
}

/**
 * The point between two others that lies farthest from their chord, or -1 where none passes the tolerance. Of several that
 * lie as far (the teeth of a comb) the one over the chord's middle, so that it halves the work.
 */
function farthestFrom(line: Polyline, first: number, last: number, toleranceMm: number): number {
  const ax = line[2 * first];
  const ay = line[2 * first + 1];
  const bx = line[2 * last];
  const by = line[2 * last + 1];
  let farthest = -1;
  let mostMm = toleranceMm + roundingMm;
  let leastAside = 0;
  for (let i = first + 1; i < last; i++) {
    const x = line[2 * i];
    const y = line[2 * i + 1];
    const mm = pointToSegment(x, y, ax, ay, bx, by);
    if (mm < mostMm - roundingMm || (farthest < 0 && mm <= mostMm + roundingMm)) continue;
    const aside = Math.abs((x - (ax + bx) / 2) * (bx - ax) + (y - (ay + by) / 2) * (by - ay));
    if (mm <= mostMm + roundingMm && aside >= leastAside - roundingMm) continue;
    farthest = i;
    mostMm = mm;
    leastAside = aside;
  }
  return farthest;
}
