/**
 * Piles: places through which many passes of the line run, so that thread heaps up.
 *
 * A place is a disc about a point of the line; `passes.ts` says what a pass through it is.
 *
 * The deepest places are found segment by segment: on a segment the part that lies within the radius of another one
 * is known in closed form, and between the ends of all these parts the number of passes stays the same.
 */
import type { Point } from '../../../shared/plane.js';
import type { AtLeast, Pile } from '../../../shared/study.js';
import { sharesWithin } from '../../geometry/segment.js';
import { PointGrid } from '../../near/point-grid.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { thinnedIndex } from '../../near/thinned-index.js';
import { mostPasses, passesAt } from './passes.js';

/** Lines drawn with too many points are looked at with fewer, true to this share of the radius. */
const thinShare = 0.04;
/** More parts than this on one segment are not looked at one by one; the places between the ends of some are. */
const mostParts = 48;
/** Segments of a chain whose neighbours are gathered together. */
const together = 8;
/** Parts times segments looked at, all told; where there are more, the line is one pile, and enough of it is known. */
const mostWork = 20_000_000;

/** Places through which `passes` or more passes run within `radiusMm`, most first; two radii apart and more. */
export function pilesOf(full: SegmentIndex, radiusMm: number, passes: number): AtLeast<Pile> {
  const index = thinnedIndex(full, thinShare * radiusMm);
  const found: Found[] = [];
  const neighbours: number[] = [];
  let work = 0;
  let more = false;
  for (let chain = 0; chain < index.chainStarts.length; chain++) {
    more = work >= mostWork;
    if (more) break;
    neighbours.length = 0;
    let segments = 0;
    index.visitChainsNear(chain, radiusMm, (d) => {
      neighbours.push(d);
      segments += index.chainEnds[d] - index.chainStarts[d];
    });
    // No more passes run near than there are segments.
    if (segments < passes) continue;
    neighbours.sort((a, b) => a - b);
    const end = index.chainEnds[chain];
    for (let from = index.chainStarts[chain]; from < end; from += together) {
      const to = Math.min(from + together, end);
      const around = segmentsNear(index, neighbours, from, to, radiusMm);
      if (mostPasses(index, around, radiusMm, 0) < passes) continue;
      for (let segment = from; segment < to; segment++) {
        const near = around.filter((s) => index.apartMm(segment, s) <= radiusMm);
        if (mostPasses(index, near, radiusMm, radiusMm) < passes) continue;
        work += near.length * Math.min(near.length, mostParts);
        const pile = deepestOn(index, segment, near, radiusMm, passes);
        if (pile) found.push(pile);
      }
    }
  }
  const { piles, all } = mostFirst(found, 2 * radiusMm);
  return { places: piles, more: more || !all };
}

/** Segments of the chains that come near the stretch from one segment up to another of a chain, in the order of the line. */
function segmentsNear(
  index: SegmentIndex,
  chains: readonly number[],
  from: number,
  to: number,
  withinMm: number,
): number[] {
  const { points } = index;
  const i = 2 * from;
  const j = 2 * to;
  const left = Math.min(points[i], points[j]) - withinMm;
  const right = Math.max(points[i], points[j]) + withinMm;
  const top = Math.min(points[i + 1], points[j + 1]) - withinMm;
  const bottom = Math.max(points[i + 1], points[j + 1]) + withinMm;
  const found: number[] = [];
  const find = (segment: number) => found.push(segment);
  for (const chain of chains) index.visitInChain(chain, left, top, right, bottom, find);
  return found;
}

const shares = new Float64Array(2);

/** A pile, and how far from the place the farthest of the passes runs, mm. */
interface Found extends Pile {
  readonly spreadMm: number;
  /** False where only some of the places on the segment were looked at. */
  readonly all: boolean;
}

/** The place on a segment through which most passes run, in the middle of its stretch; null where too few do. */
function deepestOn(
  index: SegmentIndex,
  segment: number,
  near: readonly number[],
  radiusMm: number,
  passes: number,
): Found | null {
  const { parts, all } = partsOn(index, segment, near, radiusMm);
  let most = 0;
  let counted = 0;
  let from = 0;
  let to = 0;
  let cut = 0;
  // The segment lies near itself: the last of these ends is its own.
  for (let begin = 0, end = 0; end < parts; ) {
    const start = cut;
    const here = begin - end;
    cut = begin < parts && begins[begin] <= ends[end] ? begins[begin++] : ends[end++];
    if (all && here < Math.max(most, passes)) continue;
    const middle = (start + cut) / 2;
    const { x, y } = placeOn(index, segment, middle);
    const count = passesAt(index, near, x, y, radiusMm).passes;
    if (count > most) {
      most = count;
      counted = middle;
      from = start;
    } else if (count < most || to !== start) continue;
    to = cut;
  }
  if (most < passes) return null;
  const told = (share: number) => {
    const at = placeOn(index, segment, share);
    return { at, ...passesAt(index, near, at.x, at.y, radiusMm), all };
  };
  const inMiddle = told((from + to) / 2);
  // Where a pass dallies, fewer may run between two places of as many.
  return inMiddle.passes === most ? inMiddle : told(counted);
}

function placeOn({ points }: SegmentIndex, segment: number, share: number): Point {
  const i = 2 * segment;
  return {
    x: points[i] + share * (points[i + 2] - points[i]),
    y: points[i + 1] + share * (points[i + 3] - points[i + 1]),
  };
}

/** Where parts of the segment looked at that lie near others begin and end, as shares of it, each in order. */
const begins = new Float64Array(mostParts);
const ends = new Float64Array(mostParts);

/** Notes the parts of a segment that lie within `radiusMm` of the others, and tells how many. */
function partsOn(
  { points }: SegmentIndex,
  segment: number,
  near: readonly number[],
  radiusMm: number,
): { parts: number; all: boolean } {
  const i = 2 * segment;
  const every = Math.ceil(near.length / mostParts);
  let parts = 0;
  for (let n = 0; n < near.length; n += every) {
    const j = 2 * near[n];
    const isNear = sharesWithin(
      points[i],
      points[i + 1],
      points[i + 2],
      points[i + 3],
      points[j],
      points[j + 1],
      points[j + 2],
      points[j + 3],
      radiusMm,
      shares,
    );
    // By rounding, what is as far off as can be may not be.
    if (!isNear) continue;
    begins[parts] = shares[0];
    ends[parts++] = shares[1];
  }
  begins.subarray(0, parts).sort();
  ends.subarray(0, parts).sort();
  return { parts, all: every === 1 };
}

/** Of places nearer to each other than `apartMm` the one of most passes, and of those the narrowest. */
function mostFirst(found: readonly Found[], apartMm: number): { piles: Pile[]; all: boolean } {
  const kept: Pile[] = [];
  let all = true;
  const taken = new PointGrid(apartMm);
  const worstFirst = [...found].sort((a, b) => b.passes - a.passes || a.spreadMm - b.spreadMm);
  for (const { at, passes, all: isAll } of worstFirst) {
    let isNew = true;
    taken.visitNear(at.x, at.y, () => {
      isNew = false;
    });
    if (!isNew) continue;
    taken.add(at.x, at.y);
    kept.push({ at, passes });
    all &&= isAll;
  }
  return { piles: kept, all };
}
