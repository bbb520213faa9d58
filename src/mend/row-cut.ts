/**
 * Another place to cut the row: every upright line meets the endless row of repeats somewhere; where it meets it only
 * once, the row can be cut there, and the repeat lies between that line and the next, one repeat on.
 *
 * A place x is met as often as x, x plus one repeat, x plus two, … are met by the motif's own line. So the reach of
 * each segment is wrapped round one repeat, and a sweep over its ends counts how many segments reach over each x.
 */
import type { Point, Polyline } from '../../shared/plane.js';
import {
  chained,
  firstPoint,
  lastPoint,
  moved,
  nearestAlong,
  pointCount,
  runningLengths,
  stretchOf,
} from '../geometry/polyline.js';

/** Cuts in a narrower window than this would hardly clear the line beside them, mm. */
const leastWindowMm = 0.2;

export interface Cut {
  readonly at: Point;
  readonly alongMm: number;
}

/** The place in the middle of the widest window in which upright lines meet the row of repeats once, or null. */
export function onlyMeeting(line: Polyline): Cut | null {
  const period = Math.abs(lastPoint(line).x - firstPoint(line).x);
  if (!(period > leastWindowMm)) return null;
  const events: { x: number; step: 1 | -1 }[] = [];
  let always = 0;
  for (let i = 0; i + 1 < pointCount(line); i++) {
    const [low, high] = [line[2 * i], line[2 * i + 2]].sort((a, b) => a - b);
    always += Math.floor((high - low) / period);
    const from = wrap(low, period);
    const to = wrap(high, period);
    if (from > to) always++;
    events.push({ x: from, step: 1 }, { x: to, step: -1 });
  }
  const window = widestOnce(events, always, period);
  if (!window || window.widthMm < leastWindowMm) return null;
  return meetingAt(line, wrap(window.fromMm + window.widthMm / 2, period), period);
}

function wrap(x: number, period: number): number {
  const rest = x % period;
  return rest < 0 ? rest + period : rest;
}

function widestOnce(events: { x: number; step: 1 | -1 }[], always: number, period: number) {
  events.sort((p, q) => p.x - q.x || q.step - p.step);
  const stretches: { fromMm: number; widthMm: number }[] = [];
  let count = always;
  // Segments that begin before the repeat's edge and end beyond it are open from the start; `always` counts them.
  let since = 0;
  let open = count === 1;
  for (const { x, step } of events) {
    count += step;
    const once = count === 1;
    if (open && !once && x > since) stretches.push({ fromMm: since, widthMm: x - since });
    if (once && !open) since = x;
    open = once;
  }
  if (open && period > since) stretches.push({ fromMm: since, widthMm: period - since });
  const [first] = stretches;
  const last = stretches[stretches.length - 1];
  // A window that runs over the edge of the repeat is one.
  if (stretches.length > 1 && first.fromMm === 0 && last.fromMm + last.widthMm === period)
    stretches.push({ fromMm: last.fromMm, widthMm: last.widthMm + first.widthMm });
  return stretches.reduce<(typeof stretches)[number] | null>(
    (widest, stretch) => (widest === null || stretch.widthMm > widest.widthMm ? stretch : widest),
    null,
  );
}

function meetingAt(line: Polyline, x: number, period: number): Cut | null {
  const run = runningLengths(line);
  for (let i = 0; i + 1 < pointCount(line); i++) {
    const [ax, ay, bx, by] = line.subarray(2 * i, 2 * i + 4);
    if (ax === bx) continue;
    const turns = Math.ceil((Math.min(ax, bx) - x) / period);
    const here = x + turns * period;
    if (here > Math.max(ax, bx)) continue;
    const share = (here - ax) / (bx - ax);
    return { at: { x: here, y: ay + share * (by - ay) }, alongMm: run[i] + share * (run[i + 1] - run[i]) };
  }
  return null;
}

/** One repeat of the row, from this place to the next of its kind. */
export function cutAt(line: Polyline, alongMm: number): Polyline {
  const run = runningLengths(line);
  const [start, end] = [firstPoint(line), lastPoint(line)];
  const before = stretchOf(line, run, 0, alongMm);
  const after = stretchOf(line, run, alongMm, run[run.length - 1]);
  return chained([after, moved(before, end.x - start.x, end.y - start.y)], 1e-9);
}

/** Where a place of the line lies after `cutAt`: what came before the cut is now one repeat on. */
export function placeAfterCut(line: Polyline, alongMm: number): (at: Point) => Point {
  const run = runningLengths(line);
  const [start, end] = [firstPoint(line), lastPoint(line)];
  return (at) =>
    nearestAlong(line, run, at) < alongMm ? { x: at.x + end.x - start.x, y: at.y + end.y - start.y } : at;
}
