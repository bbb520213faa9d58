/**
 * Ends that overshoot: a stroke drawn a little past the one that it ends on. Stitched there and back that is a spur
 * shorter than a stitch, which no machine sews as it is drawn, so it is cut off where the strokes cross.
 *
 * An end is cut where its stroke last crosses, less than a stitch before, unless the stroke is no longer than that to the
 * other side either: then it is a thorn, drawn for its own sake. Nor is one where the row may begin or end.
 */
import type { Point, Polyline } from '../../shared/plane.js';
import { type Setup, stitchLengthMm } from '../../shared/setup.js';
import { boundsOf, placeAlong, runningLengths, stretchOf } from '../geometry/polyline.js';
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
  const from = drawn.map(() => leastMm);
  const to = drawn.map(() => leastMm);
  for (const { a, b, kind } of contactsOf(new SegmentIndex(drawn), touchMm, setup.limits.crossings)) {
    if (kind !== 'crossing') continue;
    for (const { line, alongMm } of [a, b]) {
      const leftMm = lengths[line] - alongMm;
      if (leftMm > leastMm) from[line] = Math.min(from[line], alongMm);
      if (alongMm > leastMm) to[line] = Math.min(to[line], leftMm);
    }
  }
  const places: Point[] = [];
  const cutAt = (line: number, tipMm: number, overMm: number) => {
    const { x } = placeAlong(drawn[line], runs[line], tipMm);
    const isOver = overMm > touchMm && overMm < leastMm && x - minX > leastMm && maxX - x > leastMm;
    if (!isOver) return tipMm;
    const atMm = Math.abs(tipMm - overMm);
    places.push(placeAlong(drawn[line], runs[line], atMm));
    return atMm;
  };
  const strokes = drawn.map((stroke, line) => {
    const fromMm = cutAt(line, 0, from[line]);
    const toMm = cutAt(line, lengths[line], to[line]);
    return fromMm === 0 && toMm === lengths[line] ? stroke : stretchOf(stroke, runs[line], fromMm, toMm);
  });
  return { strokes, places };
}
