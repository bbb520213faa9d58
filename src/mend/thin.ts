/**
 * Thin: fewer points, the same line.
 *
 * Which points are needed is found by the method of Douglas and Peucker (`src/geometry/thinning.ts`).
 *
 * Thinning what was thinned finds the same farthest points again, so it ends there.
 */
import { grouped } from '../../shared/grouped.js';
import type { Mend } from '../../shared/mend.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { sayIn } from '../../shared/say.js';
import { lengthOf, pointCount, totalLength } from '../geometry/polyline.js';
import { pointToSegment } from '../geometry/segment.js';
import { neededOfWhole } from '../geometry/thinning.js';
import { thinMm } from '../measure/stitching/short-steps.js';
import { outcome } from './outcome.js';

export const thin: Mend = {
  name: 'thin',
  safe: true,
  what: 'Drops points that the line does not need.',
  apply(motif, setup) {
    const strokes = motif.strokes.map((line) => thinned(line, thinMm));
    const dropped = motif.strokes.map((line, k) => droppedFrom(line, strokes[k]));
    const before = motif.strokes.reduce((sum, line) => sum + pointCount(line), 0);
    const after = strokes.reduce((sum, line) => sum + pointCount(line), 0);
    if (after === before) return null;
    const say = sayIn(setup.unit);
    const flattenMm = Math.round((motif.flattenMm + thinMm) * 1e6) / 1e6;
    return outcome({ ...motif, flattenMm }, strokes, {
      mend: 'thin',
      places: dropped.flatMap(({ places }) => places),
      addedMm: totalLength(strokes) - totalLength(motif.strokes),
      movedMm: dropped.reduce((most, { farthestMm }) => Math.max(most, farthestMm), 0),
      message: `Dropped ${say.count(before - after, 'point')} of ${grouped(before)} that the line does not need; it stays the same to ${say.length(thinMm)}.`,
      added: [],
    });
  },
};

/** The points of `line` that `rest`, its other points, does without, and how far from it the farthest of them lies. */
function droppedFrom(line: Polyline, rest: Polyline): { places: Point[]; farthestMm: number } {
  const places: Point[] = [];
  let farthestMm = 0;
  let next = 0;
  for (let i = 0; i < line.length; i += 2) {
    if (line[i] === rest[next] && line[i + 1] === rest[next + 1]) {
      next += 2;
      continue;
    }
    const ahead = Math.min(next, rest.length - 2);
    const [ax, ay, bx, by] = rest.subarray(ahead - 2, ahead + 2);
    farthestMm = Math.max(farthestMm, pointToSegment(line[i], line[i + 1], ax, ay, bx, by));
    places.push({ x: line[i], y: line[i + 1] });
  }
  return { places, farthestMm };
}

/** The line without the points that lie within `toleranceMm` of it without them. First and last point stay. */
export function thinned(line: Polyline, toleranceMm: number): Polyline {
  const keep = neededOfWhole(line, toleranceMm);
  const out = line.filter((_, i) => keep[i >> 1] === 1);
  return lengthOf(out) > 0 ? out : line;
}
