/**
 * Ends that overshoot: a stroke drawn a little past the one that it ends on. Stitched there and back that is a spur
 * shorter than a stitch, which no machine sews as it is drawn, so it is cut off where the strokes cross.
 *
 * An end is cut where its stroke last crosses, less than a stitch before, and nothing meets it from there on. It stays
 * where the stroke is no longer than that to the other side either: then it is a thorn, drawn for its own sake; and where
 * the row may begin or end.
 */
import type { Point, Polyline } from '../../shared/plane.js';
import { type Setup, stitchLengthMm } from '../../shared/setup.js';
import {
  boundsOf,
  firstPoint,
  lastPoint,
  placeAlong,
  runningLengths,
  stretchOf,
} from '../geometry/polyline.js';
import { SegmentIndex } from '../near/segment-index.js';
import { contactsOf } from '../network/contacts.js';
import { touchMm } from '../network/network.js';

export interface Cut {
  readonly strokes: readonly Polyline[];
  /** Where ends were cut off. */
  readonly places: readonly Point[];
}

export function withoutOvershoots(drawn: readonly Polyline[], setup: Setup): Cut {
  const leastMm = stitchLengthMm(setup);
  const { minX, maxX } = boundsOf(drawn);
  const runs = drawn.map(runningLengths);
  const lengths = runs.map((run) => run[run.length - 1]);
  const contacts = contactsOf(new SegmentIndex(drawn), touchMm, setup.limits.crossings);
  // How far before its ends each stroke last crosses, and last meets an end, its own or another's.
  const crossed = drawn.map(() => [Infinity, Infinity]);
  const ended = drawn.map(() => [Infinity, Infinity]);
  for (const { a, b, kind } of contacts) {
    if (kind === 'touch') continue;
    for (const { line, alongMm } of [a, b]) {
      const last = (kind === 'crossing' ? crossed : ended)[line];
      last[0] = Math.min(last[0], alongMm);
      last[1] = Math.min(last[1], lengths[line] - alongMm);
    }
  }
  const places: Point[] = [];
  const strokes = drawn.map((stroke, line) => {
    const length = lengths[line];
    const [fromMm, toMm] = [0, 1].map((end) => {
      const overMm = crossed[line][end];
      const { x } = end === 0 ? firstPoint(stroke) : lastPoint(stroke);
      const isOver =
        overMm > touchMm &&
        overMm < leastMm &&
        length - overMm > leastMm &&
        ended[line][end] > overMm - touchMm &&
        x - minX > leastMm &&
        maxX - x > leastMm;
      const atMm = isOver ? overMm : 0;
      const alongMm = end === 0 ? atMm : length - atMm;
      if (isOver) places.push(placeAlong(stroke, runs[line], alongMm));
      return alongMm;
    });
    return fromMm === 0 && toMm === length ? stroke : stretchOf(stroke, runs[line], fromMm, toMm);
  });
  return { strokes, places };
}
