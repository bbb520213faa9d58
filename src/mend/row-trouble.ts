/**
 * What is wrong with a line, or with a drawing, as a row, as mm of line, so that routes can be weighed by it: repeats
 * that run into each other would have to be led apart.
 */
import oppositeEdges from '../../rules/opposite-edges.js';
import repeatCollision from '../../rules/repeat-collision.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { limitsOf } from '../../shared/rule.js';
import type { Setup } from '../../shared/setup.js';
import { boundsOf } from '../geometry/polyline.js';
import { repeatMeetingOf } from '../measure/company/repeat-meeting.js';
import { studyOf } from '../measure/index.js';
import { SegmentIndex } from '../near/segment-index.js';
import { touchMm } from '../network/network.js';
import { motifOf } from '../size/motif-of.js';

/**
 * What one place where they cross weighs, beside the way out to the edges, mm; it grows with the square of the places,
 * since repeats that cross at many are laid over one another, which no one would stitch.
 */
const collisionMm = 20;

/** What is wrong with a line as a row, as mm of line: repeats that run into each other would have to be led apart. */
export function troubleOf(line: Polyline, setup: Setup): number {
  const { nearMm } = limitsOf(repeatCollision, setup);
  const { start, end, repeat, repeatMeeting } = studyOf(motifOf([line]), setup);
  const meeting = repeat.assumed ? null : repeatMeeting(nearMm);
  if (!meeting || (meeting.crossings.length === 0 && meeting.leastMm >= nearMm)) return 0;
  const insetMm = Math.min(start.leftMm, start.rightMm) + Math.min(end.leftMm, end.rightMm);
  // Repeats as far apart as the motif is wide only touch along their edges.
  const places =
    insetMm < limitsOf(oppositeEdges, setup).insideMm ? 1 : Math.max(1, meeting.crossings.length);
  return collisionMm * places ** 2 + insetMm;
}

/** The same for a drawing whose repeats are to join at two places; where they only come near each other is not looked at. */
export function rowTroubleOf(lines: readonly Polyline[], setup: Setup): (start: Point, end: Point) => number {
  const { minX, maxX } = boundsOf(lines);
  const index = new SegmentIndex(lines);
  return (start, end) => {
    const repeat = { dx: end.x - start.x, dy: end.y - start.y };
    const overMm = maxX - minX - repeat.dx;
    if (!(repeat.dx > 0 && overMm > 0)) return 0;
    const { overhangingRepeats } = setup.limits;
    const { crossings } = repeatMeetingOf(index, { repeat, join: end }, touchMm, overhangingRepeats);
    return crossings.length === 0 ? 0 : collisionMm * crossings.length ** 2 + overMm;
  };
}
