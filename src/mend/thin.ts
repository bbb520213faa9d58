/**
 * Thin: fewer points, the same line.
 *
 * Which points are needed is found by the method of Douglas and Peucker (`shared/thinning.ts`).
 *
 * Thinning what was thinned finds the same farthest points again, so it ends there.
 */
import { grouped } from '../../shared/grouped.js';
import type { Mend } from '../../shared/mend.js';
import { lengthOf, type Polyline, pointCount } from '../../shared/polyline.js';
import { sayIn } from '../../shared/say.js';
import { markNeeded } from '../../shared/thinning.js';
import { outcome } from './outcome.js';

/** No dropped point lies farther than this from the line without it, mm. */
export const thinMm = 0.02;

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
      message: `Dropped ${say.count(before - after, 'point')} of ${grouped(before)} that the line does not need; it stays the same to ${say.length(thinMm)}.`,
      added: [],
    });
  },
};

/** The line without the points that lie within `toleranceMm` of it without them. First and last point stay. */
export function thinned(line: Polyline, toleranceMm: number): Polyline {
  const count = pointCount(line);
  const keep = new Uint8Array(count);
  markNeeded(line, 0, count - 1, toleranceMm, keep);
  const out = line.filter((_, i) => keep[i >> 1] === 1);
  return lengthOf(out) > 0 ? out : line;
}
