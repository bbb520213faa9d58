/**
 * From meetings of two passes to places: meetings nearer than 0.05 mm to one another (also by way of others) are
 * one place, which lies at the clearest of them, the one of the largest angle, so that places lie 0.05 mm apart and
 * more.
 */
import type { Crossing } from '../../../shared/study.js';
import { PointGrid } from '../../near/point-grid.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import type { Meetings } from './meetings.js';

const placeMm = 0.05;
/** Along the line, two meetings in one place that are nearer than this are on the same pass, mm. */
const samePassMm = 2 * placeMm;
/** So many meetings in one cell of the grid link all there is around; more need not be looked at. */
const enoughInOneCell = 64;

export function placesOf(meetings: Meetings, index: SegmentIndex): Crossing[] {
  const { members, starts } = groupsOf(meetings);
  const places: Crossing[] = [];
  for (let g = 0; g + 1 < starts.length; g++) {
    const isOne = starts[g + 1] - starts[g] === 1;
    places.push(
      isOne
        ? placeOfOne(members[starts[g]], meetings)
        : placeOf(members.subarray(starts[g], starts[g + 1]), meetings, index),
    );
  }
  return places;
}

/** Meetings by place: group g has the `members` from starts[g] up to starts[g + 1], exclusive. */
function groupsOf(meetings: Meetings): { members: Uint32Array; starts: Uint32Array } {
  const { count } = meetings;
  const roots = rootsOf(meetings);
  // A root is the lowest number of its group, so groups are numbered in the order in which places were first met.
  const groups = new Uint32Array(count);
  let groupCount = 0;
  for (let k = 0; k < count; k++) groups[k] = roots[k] === k ? groupCount++ : groups[roots[k]];
  const starts = new Uint32Array(groupCount + 1);
  for (let k = 0; k < count; k++) starts[groups[k] + 1]++;
  for (let g = 0; g < groupCount; g++) starts[g + 1] += starts[g];
  const filled = starts.slice(0, groupCount);
  const members = new Uint32Array(count);
  for (let k = 0; k < count; k++) members[filled[groups[k]]++] = k;
  return { members, starts };
}

/** For each meeting the lowest number among those it is linked with. */
function rootsOf({ count, x, y }: Meetings): Uint32Array {
  const parents = Uint32Array.from({ length: count }, (_, k) => k);
  const rootOf = (k: number): number => {
    while (parents[k] !== k) {
      parents[k] = parents[parents[k]];
      k = parents[k];
    }
    return k;
  };
  const grid = new PointGrid(placeMm, enoughInOneCell);
  for (let k = 0; k < count; k++) {
    grid.visitNear(x[k], y[k], (near) => {
      const a = rootOf(near);
      const b = rootOf(k);
      parents[Math.max(a, b)] = Math.min(a, b);
    });
    grid.add(x[k], y[k]);
  }
  return parents.map((_, k) => rootOf(k));
}

function placeOfOne(k: number, { x, y, angleDeg }: Meetings): Crossing {
  return { at: { x: x[k], y: y[k] }, angleDeg: angleDeg[k], passes: 2 };
}

function placeOf(group: Uint32Array, meetings: Meetings, index: SegmentIndex): Crossing {
  const { x, y, angleDeg } = meetings;
  let clearest = group[0];
  let sharpest = group[0];
  for (const k of group) {
    if (angleDeg[k] > angleDeg[clearest]) clearest = k;
    if (angleDeg[k] < angleDeg[sharpest]) sharpest = k;
  }
  return {
    at: { x: x[clearest], y: y[clearest] },
    angleDeg: angleDeg[sharpest],
    passes: passesThrough(group, meetings, index),
  };
}

/** How many stretches of the line meet in one place. */
function passesThrough(group: Uint32Array, meetings: Meetings, index: SegmentIndex): number {
  const visits = Array.from(group).flatMap((k) => [
    visitOf(index, meetings.segment[k], meetings.share[k]),
    visitOf(index, meetings.otherSegment[k], meetings.otherShare[k]),
  ]);
  visits.sort((a, b) => a.stroke - b.stroke || a.alongMm - b.alongMm);
  let passes = 0;
  let first = visits[0];
  visits.forEach((visit, i) => {
    const before = visits[i - 1];
    if (before?.stroke !== visit.stroke) {
      passes++;
      first = visit;
    } else if (visit.alongMm - before.alongMm > samePassMm) {
      passes++;
    }
    const isLast = visits[i + 1]?.stroke !== visit.stroke;
    const around = index.strokeLengthMm(visit.stroke) - visit.alongMm + first.alongMm;
    const wentOn = visit.alongMm - first.alongMm > samePassMm;
    if (isLast && wentOn && index.closed[visit.stroke] && around <= samePassMm) passes--;
  });
  return Math.max(2, passes);
}

function visitOf(index: SegmentIndex, segment: number, share: number) {
  return { stroke: index.strokeOf[segment], alongMm: index.alongMm(segment, share) };
}
