/**
 * From meetings of two passes to places: meetings nearer than 0.05 mm to one another (also by way of others) are
 * one place, which lies at the clearest of them, the one of the largest angle, so that places lie 0.05 mm apart and
 * more.
 */
import type { Crossing } from '../../../shared/study.js';
import { Groups } from '../../near/groups.js';
import { PointGrid } from '../../near/point-grid.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import type { Meetings } from '../../network/meetings.js';

const placeMm = 0.05;
/** Along the line, two meetings in one place that are nearer than this are on the same pass, mm. */
const samePassMm = 2 * placeMm;
/** So many meetings in one cell of the grid link all there is around; more need not be looked at. */
const enoughInOneCell = 64;

export function placesOf(meetings: Meetings, index: SegmentIndex): Crossing[] {
  return groupsOf(meetings)
    .members()
    .map((group) => (group.length === 1 ? placeOfOne(group[0], meetings) : placeOf(group, meetings, index)));
}

function groupsOf(meetings: Meetings): Groups {
  const groups = new Groups(meetings.count);
  const grid = new PointGrid(placeMm, enoughInOneCell, meetings.count);
  for (let k = 0; k < meetings.count; k++) {
    const [x, y] = [meetings.x(k), meetings.y(k)];
    grid.visitNear(x, y, (near) => groups.join(near, k));
    grid.add(x, y);
  }
  return groups;
}

function placeOfOne(k: number, meetings: Meetings): Crossing {
  return { at: { x: meetings.x(k), y: meetings.y(k) }, angleDeg: meetings.angleDeg(k), passes: 2 };
}

function placeOf(group: readonly number[], meetings: Meetings, index: SegmentIndex): Crossing {
  const byAngle = [...group].sort((a, b) => meetings.angleDeg(a) - meetings.angleDeg(b));
  const clearest = byAngle[byAngle.length - 1];
  return {
    at: { x: meetings.x(clearest), y: meetings.y(clearest) },
    angleDeg: meetings.angleDeg(byAngle[0]),
    passes: passesThrough(group, meetings, index),
  };
}

/** How many stretches of the line meet in one place. */
function passesThrough(group: readonly number[], meetings: Meetings, index: SegmentIndex): number {
  const visits = group.flatMap((k) =>
    [0, 1].map((which) => ({
      stroke: index.strokeOf[meetings.segment(k, which)],
      alongMm: meetings.alongMm(k, which),
    })),
  );
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
