/**
 * From meetings of two passes to places: meetings nearer than 0.05 mm to one another (also by way of others) are
 * one place, which lies at the clearest of them, the one of the largest angle, so that places lie 0.05 mm apart and
 * more.
 */
import type { Crossing } from '../../shared/study.js';
import type { Meetings } from './meetings.js';
import { PointGrid } from './point-grid.js';
import type { SegmentIndex } from './segment-index.js';

const placeMm = 0.05;
/** Along the line, two meetings in one place that are nearer than this are on the same pass, mm. */
const samePassMm = 2 * placeMm;
/** So many meetings in one cell of the grid link all there is around; more need not be looked at. */
const enoughInOneCell = 64;

export function placesOf(meetings: Meetings, index: SegmentIndex): Crossing[] {
  return groupsOf(meetings).map((group) => placeOf(group, meetings, index));
}

/** Meetings by place, as lists of their numbers, in the order in which places were first met. */
function groupsOf({ count, x, y }: Meetings): number[][] {
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
      const [a, b] = [rootOf(near), rootOf(k)];
      parents[Math.max(a, b)] = Math.min(a, b);
    });
    grid.add(x[k], y[k]);
  }
  const groups: number[][] = [];
  const groupOfRoot = new Map<number, number[]>();
  for (let k = 0; k < count; k++) {
    const root = rootOf(k);
    const group = groupOfRoot.get(root);
    if (group) {
      group.push(k);
      continue;
    }
    const begun = [k];
    groupOfRoot.set(root, begun);
    groups.push(begun);
  }
  return groups;
}

function placeOf(group: readonly number[], meetings: Meetings, index: SegmentIndex): Crossing {
  const { x, y, angleDeg } = meetings;
  if (group.length === 1) {
    const [k] = group;
    return { at: { x: x[k], y: y[k] }, angleDeg: angleDeg[k], passes: 2 };
  }
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
function passesThrough(group: readonly number[], meetings: Meetings, index: SegmentIndex): number {
  const visits = group.flatMap((k) => [
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
  const { runMm, strokeOf } = index;
  return {
    stroke: strokeOf[segment],
    alongMm: runMm[segment] + share * (runMm[segment + 1] - runMm[segment]),
  };
}
