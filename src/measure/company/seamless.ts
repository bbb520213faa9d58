/**
 * Crossings of one repeat with the next that the motif has within itself as well: in a row of loops that overlap, the
 * last loop of a repeat crosses the first of the next just as all others cross their neighbours. Such a place is as it
 * was drawn, and nothing that needs mending.
 *
 * The row around the place, as far as `aroundShare` of the motif's height, is laid over the row around each crossing of
 * the motif's own: where all of it falls on line there, to what the eye tells apart, the two places look the same. Both
 * ways are not asked: line that is only there would be missing here, which is no collision.
 *
 * Nor is a place where a line that was drawn through the seam, as one of several echoed waves, goes on in the next repeat:
 * there the repeats only touch, each with its edge, and all line around leads away from that edge.
 */

import type { Point } from '../../../shared/plane.js';
import type { Repeat, RepeatMeeting } from '../../../shared/study.js';
import { distanceBetween } from '../../geometry/point.js';
import { boundsOf } from '../../geometry/polyline.js';
import type { SegmentIndex } from '../../near/segment-index.js';

const aroundShare = 1 / 4;
const leastAroundMm = 5;
/** Drawn by hand, no two places are the same to a hair; as much is let pass in ends that are to be level, mm. */
const alikeMm = 0.5;
/** The line around a place is held against others in steps of its reach over this. */
const stepsAround = 10;
/** Around a place on the edge so much is looked at, mm; a line along the edge leads away from it by less than this share. */
const throughMm = 2;
const throughShare = 1 / 4;
/** More places than this are no seam that was drawn. */
const mostPlaces = 40;
/** Own crossings that are tried for each. */
const mostOwn = 200;

/** The meeting without the places that look like one of `own`, the motif's crossings. */
export function withoutSeamless(
  meeting: RepeatMeeting,
  index: SegmentIndex,
  { dx, dy }: Pick<Repeat, 'dx' | 'dy'>,
  own: () => readonly Point[],
): RepeatMeeting {
  const { crossings, lyingMm } = meeting;
  if (crossings.length === 0 || crossings.length > mostPlaces || lyingMm > 0) return meeting;
  const box = boundsOf(index.strokes);
  const over = Math.ceil((box.maxX - box.minX) / dx);
  const repeats = Array.from({ length: 2 * over + 1 }, (_, k) => k - over);
  const aroundMm = Math.max(leastAroundMm, aroundShare * (box.maxY - box.minY));
  const isOnRow = (x: number, y: number) =>
    repeats.some((k) => {
      let near = false;
      index.visitNearPoint(x - k * dx, y - k * dy, alikeMm, () => {
        near = true;
      });
      return near;
    });
  const isThrough = (at: Point) =>
    at.x > box.maxX - alikeMm &&
    at.x - dx < box.minX + alikeMm &&
    rowAround(index, at, repeats, dx, dy, throughMm).every(
      ({ x, y }) => Math.abs(x - at.x) >= throughShare * distanceBetween(x, y, at.x, at.y),
    );
  const others = own().slice(0, mostOwn);
  const left = crossings.filter((at) => {
    if (isThrough(at)) return false;
    const around = rowAround(index, at, repeats, dx, dy, aroundMm);
    return !others.some((other) =>
      around.every(({ x, y }) => isOnRow(x - at.x + other.x, y - at.y + other.y)),
    );
  });
  // How near repeats come beside the places that were drawn is not known; they do not cross.
  return left.length === 0
    ? { ...meeting, crossings: [], leastMm: Infinity }
    : { ...meeting, crossings: left, at: left[0] };
}

/** Places of the row within reach of `at`, in steps along its line. */
function rowAround(
  index: SegmentIndex,
  at: Point,
  repeats: readonly number[],
  dx: number,
  dy: number,
  aroundMm: number,
): Point[] {
  const { points, runMm } = index;
  const stepMm = aroundMm / stepsAround;
  const found: Point[] = [];
  for (const k of repeats) {
    const here = { x: at.x - k * dx, y: at.y - k * dy };
    index.visitNearPoint(here.x, here.y, aroundMm, (s) => {
      const ax = points[2 * s];
      const ay = points[2 * s + 1];
      const bx = points[2 * s + 2];
      const by = points[2 * s + 3];
      for (let n = Math.ceil(runMm[s] / stepMm); n * stepMm < runMm[s + 1]; n++) {
        const share = (n * stepMm - runMm[s]) / (runMm[s + 1] - runMm[s]);
        const x = ax + share * (bx - ax);
        const y = ay + share * (by - ay);
        if (distanceBetween(x, y, here.x, here.y) <= aroundMm) found.push({ x: x + k * dx, y: y + k * dy });
      }
    });
  }
  return found;
}
