/**
 * Another place to cut the row: every upright line meets the endless row of repeats somewhere; where it meets it only
 * once, the row can be cut there, and the repeat lies between that line and the next, one repeat on.
 *
 * A place x is met as often as x, x plus one repeat, x plus two, … are met by the motif's own line. So the reach of
 * each segment is wrapped round one repeat, and a sweep over its ends counts how many segments reach over each x. Where
 * one segment goes on from another nothing changes; an upright one is met at many places at once, and parts windows.
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

/** Where a stretch begins or ends, wrapped round one repeat; an upright one lies at a single place: 0. */
interface Event {
  readonly x: number;
  readonly step: 1 | -1 | 0;
}

/** The place in the middle of the widest window in which upright lines meet the row of repeats once, or null. */
export function onlyMeeting(line: Polyline): Cut | null {
  const period = Math.abs(lastPoint(line).x - firstPoint(line).x);
  if (!(period > leastWindowMm)) return null;
  const events: Event[] = [];
  let always = 0;
  for (let i = 0; i + 1 < pointCount(line); i++) {
    const [low, high] = [line[2 * i], line[2 * i + 2]].sort((a, b) => a - b);
    const from = wrap(low, period);
    const to = wrap(high, period);
    // A repeated point is no stretch.
    if (low < high) events.push({ x: from, step: 1 }, { x: to, step: -1 });
    else if (line[2 * i + 1] !== line[2 * i + 3]) events.push({ x: from, step: 0 });
    always += Math.floor((high - low) / period);
    if (from > to) always++;
  }
  const window = widestOnce(events, always, period);
  if (!window || window.widthMm < leastWindowMm) return null;
  return meetingAt(line, wrap(window.fromMm + window.widthMm / 2, period), period);
}

function wrap(x: number, period: number): number {
  const rest = x % period;
  return rest < 0 ? rest + period : rest;
}

interface Window {
  readonly fromMm: number;
  readonly widthMm: number;
}

/** Stretches that begin before the repeat's edge and end beyond it are open from the start: `always` counts them. */
function widestOnce(events: readonly Event[], always: number, period: number): Window | null {
  const windows: Window[] = [];
  let count = always;
  let since = 0;
  const close = (x: number) => {
    if (count === 1 && x > since) windows.push({ fromMm: since, widthMm: x - since });
    since = x;
  };
  for (const [x, step] of changesOf(events)) {
    close(x);
    count += step;
  }
  close(period);
  const [first] = windows;
  const last = windows[windows.length - 1];
  // A window that runs over the edge of the repeat is one.
  const edgeIsPassed = !changesOf(events).has(0);
  if (windows.length > 1 && edgeIsPassed && first.fromMm === 0 && last.fromMm + last.widthMm === period)
    windows.push({ fromMm: last.fromMm, widthMm: last.widthMm + first.widthMm });
  return windows.reduce<Window | null>(
    (widest, window) => (widest === null || window.widthMm > widest.widthMm ? window : widest),
    null,
  );
}

/** By place, from left to right, how many more stretches there are to its right; none where one follows on another. */
function changesOf(events: readonly Event[]): Map<number, number> {
  const changes = new Map<number, number>();
  const uprights = new Set<number>();
  for (const { x, step } of events) {
    changes.set(x, (changes.get(x) ?? 0) + step);
    if (step === 0) uprights.add(x);
  }
  return new Map([...changes].filter(([x, step]) => step !== 0 || uprights.has(x)).sort(([a], [b]) => a - b));
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
