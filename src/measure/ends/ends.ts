/** Where the line starts and ends, how it runs there, and the repeat that follows from it. */
import type { Box, Point, Polyline } from '../../../shared/plane.js';
import type { End, Repeat } from '../../../shared/study.js';
import { turnDeg } from '../../geometry/point.js';
import { firstPoint, lastPoint, reversed } from '../../geometry/polyline.js';
import { repeatAlong } from '../../size/repeat.js';
import type { Chain } from './breaks.js';
import { type Direction, endDirection, startDirection } from './tangent.js';

/** First and last point of the line in its own direction; of many strokes, of the chain that the breaks make. */
export function endsOf(strokes: readonly Polyline[], { entries }: Chain, box: Box): { start: End; end: End } {
  const entered = (end: number) => (end & 1 ? reversed(strokes[end >> 1]) : strokes[end >> 1]);
  const first = entered(entries[0]);
  const last = entered(entries[entries.length - 1]);
  return {
    start: endAt(firstPoint(first), startDirection(first), box),
    end: endAt(lastPoint(last), endDirection(last), box),
  };
}

function endAt(at: Point, { dx, dy }: Direction, box: Box): End {
  return {
    at,
    dx,
    dy,
    leftMm: at.x - box.minX,
    rightMm: box.maxX - at.x,
    topMm: at.y - box.minY,
    bottomMm: box.maxY - at.y,
  };
}

/** From one repeat to the next, left to right; assumed to be the width where the line does not lead across. */
export function repeatOf(start: End, end: End, isOneStroke: boolean, widthMm: number): Repeat {
  const between = Float64Array.of(start.at.x, start.at.y, end.at.x, end.at.y);
  const across = isOneStroke ? repeatAlong(between, widthMm) : null;
  return across ? { ...across, assumed: false } : { dx: widthMm, dy: 0, assumed: true };
}

/** Degrees by which the line turns from the end of one repeat into the start of the next. */
export function joinTurn(start: End, end: End): number {
  return turnDeg(end.dx, end.dy, start.dx, start.dy);
}
