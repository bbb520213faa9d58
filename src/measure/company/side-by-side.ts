/**
 * Runs: stretches of the line that go side by side with another stretch, the ground on which retraces and crowding
 * are judged.
 *
 * Think of a map on which each pair of places of the line is a point (s, t), both lengths walked. The pairs nearer
 * to each other than `withinMm` make a pattern there: a band along the diagonal, since every place is near itself;
 * small islands, where passes cross; and long slanting islands, where two stretches go side by side, rising where
 * they go the same way, falling where they go opposite ways. A run is one island. For two straight segments the
 * part of each that lies within a distance of the other is known in closed form (`sharesWithin`), so islands are
 * put together from exact pieces: nothing is sampled, and how densely the line is drawn does not matter.
 *
 * Left out are pairs of segments that are not nearly parallel, and the band along the diagonal, `apartMm` wide:
 * places merely next to each other along the line. Where the line folds back on itself, an island ends there.
 */
import { sharesWithin } from '../../geometry/segment.js';
import { nearChains } from '../../near/near-chains.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { type Run, RunLinker } from './run-linker.js';
import { directionFinder } from './stroke-direction.js';

export interface SideBySide {
  /** mm */
  readonly withinMm: number;
  /** Places nearer to each other than this along the line do not count, mm. */
  readonly apartMm: number;
  /** Segments that differ more in direction (either way round) do not count, degrees. */
  readonly turnDeg: number;
  /** Runs shorter than this are not given, mm. */
  readonly leastMm: number;
}

/** The runs; with `more`, those of the line up to some place. */
export function runsSideBySide(
  index: SegmentIndex,
  wanted: SideBySide,
): { readonly runs: Run[]; readonly more: boolean } {
  const linker = new RunLinker(Math.max(wanted.withinMm, 0.5));
  const parts = new Float64Array(4);
  const direction = directionFinder(index);
  const mostSine = Math.sin((wanted.turnDeg * Math.PI) / 180);
  const all = visitNearSegments(index, wanted.withinMm, wanted.apartMm, (i, j) => {
    if (linker.isFull || !(Math.abs(direction.sine(i, j)) <= mostSine)) return;
    if (!nearParts(index, i, j, wanted.withinMm, wanted.apartMm, parts)) return;
    linker.add(i, j, index, parts);
  });
  return { runs: linker.runs(wanted.leastMm), more: !all || linker.isFull };
}

/**
 * Calls `visit` with the pairs of segments i < j whose boxes come within `withinMm` of each other and that are not
 * wholly within `apartMm` of each other along the line; i never falls, and j rises while i stays. False where there
 * are too many to visit all.
 */
function visitNearSegments(
  index: SegmentIndex,
  withinMm: number,
  apartMm: number,
  visit: (i: number, j: number) => void,
): boolean {
  const { points, chainStarts, chainEnds, chainBoxes, strokeOf, runMm } = index;
  const { starts, others, more } = nearChains(index, withinMm);
  for (let c = 0; c < chainStarts.length; c++) {
    if (starts[c] === starts[c + 1]) continue;
    for (let i = chainStarts[c]; i < chainEnds[c]; i++) {
      const minX = Math.min(points[2 * i], points[2 * i + 2]) - withinMm;
      const maxX = Math.max(points[2 * i], points[2 * i + 2]) + withinMm;
      const minY = Math.min(points[2 * i + 1], points[2 * i + 3]) - withinMm;
      const maxY = Math.max(points[2 * i + 1], points[2 * i + 3]) + withinMm;
      const alongFrom = runMm[i] + apartMm;
      for (let n = starts[c]; n < starts[c + 1]; n++) {
        const d = others[n];
        const b = 4 * d;
        if (chainBoxes[b] > maxX || chainBoxes[b + 2] < minX) continue;
        if (chainBoxes[b + 1] > maxY || chainBoxes[b + 3] < minY) continue;
        const end = chainEnds[d];
        const sameStroke = strokeOf[i] === strokeOf[chainStarts[d]];
        for (let j = chainStarts[d]; j < end; j++) {
          const x0 = points[2 * j];
          const x1 = points[2 * j + 2];
          if ((x0 > maxX && x1 > maxX) || (x0 < minX && x1 < minX)) continue;
          const y0 = points[2 * j + 1];
          const y1 = points[2 * j + 3];
          if ((y0 > maxY && y1 > maxY) || (y0 < minY && y1 < minY)) continue;
          if (sameStroke && runMm[j + 1] <= alongFrom) continue;
          visit(i, j);
        }
      }
    }
  }
  return !more;
}

/**
 * Where segments i < j lie within `withinMm` of each other: writes from and to along i's stroke, then along j's,
 * mm; false where nowhere. Cut back so that the two stay `apartMm` apart along the line.
 */
export function nearParts(
  index: SegmentIndex,
  i: number,
  j: number,
  withinMm: number,
  apartMm: number,
  out: Float64Array,
): boolean {
  if (!partNear(index, i, j, withinMm, out, 0) || !partNear(index, j, i, withinMm, out, 2)) return false;
  if (index.strokeOf[i] !== index.strokeOf[j]) return true;
  if (out[2] - out[1] < apartMm) {
    const middle = (out[1] + out[2]) / 2;
    out[1] = Math.min(out[1], middle - apartMm / 2);
    out[2] = Math.max(out[2], middle + apartMm / 2);
  }
  return out[0] <= out[1] && out[2] <= out[3];
}

const shares = new Float64Array(2);

function partNear(
  { points, runMm }: SegmentIndex,
  i: number,
  j: number,
  withinMm: number,
  out: Float64Array,
  at: number,
): boolean {
  const a = 2 * i;
  const c = 2 * j;
  const near = sharesWithin(
    points[a],
    points[a + 1],
    points[a + 2],
    points[a + 3],
    points[c],
    points[c + 1],
    points[c + 2],
    points[c + 3],
    withinMm,
    shares,
  );
  const lengthMm = runMm[i + 1] - runMm[i];
  out[at] = runMm[i] + shares[0] * lengthMm;
  out[at + 1] = runMm[i] + shares[1] * lengthMm;
  return near;
}

/**
 * Where the line folds back on itself in this run, as a length along its stroke, mm: where the run ends at the band
 * of places next to each other along the line, at its middle; null where it ends nowhere there.
 */
export function foldOf(index: SegmentIndex, run: Run, withinMm: number, apartMm: number): number | null {
  let nearestMm = Infinity;
  let foldMm = 0;
  const parts = new Float64Array(4);
  for (let k = 0; k < run.first.length; k++) {
    if (index.strokeOf[run.first[k]] !== index.strokeOf[run.second[k]]) return null;
    if (!nearParts(index, run.first[k], run.second[k], withinMm, apartMm, parts)) continue;
    if (parts[2] - parts[1] >= nearestMm) continue;
    nearestMm = parts[2] - parts[1];
    foldMm = (parts[1] + parts[2]) / 2;
  }
  return nearestMm <= 1.001 * apartMm ? foldMm : null;
}
