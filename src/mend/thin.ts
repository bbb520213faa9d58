/**
 * Thin: fewer points, the same line.
 *
 * Method: D. Douglas and T. Peucker, "Algorithms for the reduction of the number of points required to represent a
 * digitized line or its caricature", Cartographica 10 (1973): keep the point farthest from the chord, and do the
 * same on both sides of it, until all points lie within the tolerance of their chord. Distances are taken to the
 * chord as a segment, so that a line that turns back keeps its turn.
 *
 * Thinning what was thinned finds the same farthest points again, so it ends there.
 */
import type { Mend } from '../../shared/mend.js';
import { lengthOf, type Polyline, pointCount } from '../../shared/polyline.js';
import { sayIn } from '../../shared/say.js';
import { pointToSegment } from '../../shared/segment.js';
import { outcome } from './outcome.js';

/** No dropped point lies farther than this from the line without it, mm. */
export const thinMm = 0.02;
/** Coordinates on the grid of files make exact ties; what floats add to them must not decide. */
const roundingMm = 1e-9;

export const thin: Mend = {
  name: 'thin',
  safe: true,
  what: 'Drops points that the line does not need.',
  apply(motif, setup) {
    const strokes = motif.strokes.map((line) => thinned(line, thinMm));
    const before = motif.strokes.reduce((sum, line) => sum + pointCount(line), 0);
    const after = strokes.reduce((sum, line) => sum + pointCount(line), 0);
    if (after === before) return null;
    const say = sayIn(setup.unit);
    const length = (lines: readonly Polyline[]) => lines.reduce((sum, line) => sum + lengthOf(line), 0);
    const flattenMm = Math.round((motif.flattenMm + thinMm) * 1e6) / 1e6;
    return outcome({ ...motif, flattenMm }, strokes, {
      mend: 'thin',
      places: [],
      addedMm: length(strokes) - length(motif.strokes),
      movedMm: thinMm,
      message: `Dropped ${say.count(before - after, 'point')} of ${before.toLocaleString('en-US')} that the line does not need; it stays the same to ${say.length(thinMm)}.`,
      added: [],
    });
  },
};

/** The line without the points that lie within `toleranceMm` of it without them. First and last point stay. */
export function thinned(line: Polyline, toleranceMm: number): Polyline {
  const count = pointCount(line);
  const keep = new Uint8Array(count);
  keep[0] = 1;
  keep[count - 1] = 1;
  const spans = [0, count - 1];
  while (spans.length > 0) {
    const last = spans.pop()!;
    const first = spans.pop()!;
    const farthest = farthestFrom(line, first, last, toleranceMm);
    if (farthest < 0) continue;
    keep[farthest] = 1;
    spans.push(first, farthest, farthest, last);
  }
  const out = line.filter((_, i) => keep[i >> 1] === 1);
  return lengthOf(out) > 0 ? out : line;
}

/** The point between two others that lies farthest from their chord, or -1 where none passes the tolerance. */
function farthestFrom(line: Polyline, first: number, last: number, toleranceMm: number): number {
  const [ax, ay] = [line[2 * first], line[2 * first + 1]];
  const [bx, by] = [line[2 * last], line[2 * last + 1]];
  let farthest = -1;
  let mostMm = toleranceMm + roundingMm;
  for (let i = first + 1; i < last; i++) {
    const mm = pointToSegment(line[2 * i], line[2 * i + 1], ax, ay, bx, by);
    if (mm > mostMm + roundingMm) {
      farthest = i;
      mostMm = mm;
    }
  }
  return farthest;
}
