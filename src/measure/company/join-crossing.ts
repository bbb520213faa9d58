/**
 * Whether the row crosses itself right at a join: one repeat's line comes in, the next one's goes on, and a pass of
 * either repeat runs through between them.
 *
 * The four ways away from the join are looked at a short way out. They cross where the two of the pass lie on either
 * side of the row's line, well apart from it; where they do not, the pass touches it there, as a ring does that the
 * line starts from.
 */
import type { Point } from '../../../shared/plane.js';
import type { Repeat } from '../../../shared/study.js';
import { lengthOf, placeAlong } from '../../geometry/polyline.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { passesNear } from '../../network/contacts.js';
import { retraceMm } from './retraces.js';

/** How far out the ways are looked at, mm. */
const outMm = 1;
/** Ways that leave within this of each other run along each other, degrees. */
const apartDeg = 5;

/** Where this repeat's line ends and the next one's begins, and from where to where of the motif that is. */
export interface RowJoin {
  readonly repeat: Pick<Repeat, 'dx' | 'dy'>;
  readonly join: Point;
}

/** Of one stroke. */
export function crossesAtJoin(index: SegmentIndex, { repeat, join }: RowJoin): boolean {
  const [line] = index.strokes;
  const lengthMm = lengthOf(line);
  const start = { x: join.x - repeat.dx, y: join.y - repeat.dy };
  const endsLast = Math.hypot(line[0] - start.x, line[1] - start.y) <= retraceMm;
  const way = (alongMm: number, from: Point) => {
    const at = placeAlong(line, index.runMm, alongMm);
    return Math.atan2(at.y - from.y, at.x - from.x);
  };
  const back = way(endsLast ? lengthMm - outMm : outMm, join);
  const on = way(endsLast ? outMm : lengthMm - outMm, start);
  const isCrossed = (from: Point) =>
    passesNear(index, from, retraceMm).some(({ alongMm: mm }) => {
      if (mm < 2 * outMm || mm > lengthMm - 2 * outMm) return false;
      const sides = [way(mm - outMm, from), way(mm + outMm, from)];
      const [one, other] = sides.map((angle) => within(angle - back) < within(on - back));
      const isClear = sides.every((angle) => [back, on].every((arm) => apart(angle, arm) > apartDeg));
      return isClear && one !== other;
    });
  return isCrossed(join) || isCrossed(start);
}

/** From 0 to a full turn. */
function within(angle: number): number {
  const turn = 2 * Math.PI;
  return ((angle % turn) + turn) % turn;
}

function apart(a: number, b: number): number {
  const between = within(a - b);
  return (Math.min(between, 2 * Math.PI - between) * 180) / Math.PI;
}
