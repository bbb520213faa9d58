/** A line bent a little over its first and last quarter. */
import type { Point, Polyline } from '../../shared/plane.js';
import { nearestAlong, pointCount, runningLengths } from '../geometry/polyline.js';

const quarter = 1 / 4;
/** Straight segments in the eased quarters are divided into steps of at most this, mm, so that they bend. */
const stepMm = 1;

/**
 * The line with its start moved down by `startMm` and its end by `endMm`, eased to nothing over a quarter of its
 * length each. Direction and curvature at the ends and the quarters hardly change: the ease is the cubic that is level
 * at both ends (smoothstep).
 */
export function eased(line: Polyline, startMm: number, endMm: number): Polyline {
  const fine = withSteps(line);
  const run = runningLengths(fine);
  const length = run[run.length - 1];
  const out = fine.slice();
  run.forEach((along, i) => {
    out[2 * i + 1] += startMm * fade(along / length) + endMm * fade(1 - along / length);
  });
  return out;
}

/** What easing does to a place on or near the line. */
export function easeOf(line: Polyline, startMm: number, endMm: number): (at: Point) => Point {
  const run = runningLengths(line);
  const length = run[run.length - 1];
  return (at) => {
    const share = nearestAlong(line, run, at) / length;
    return { x: at.x, y: at.y + startMm * fade(share) + endMm * fade(1 - share) };
  };
}

/** 1 at share 0, falling to 0 at a quarter. */
function fade(share: number): number {
  const t = Math.min(share / quarter, 1);
  return 1 - t * t * (3 - 2 * t);
}

function withSteps(line: Polyline): Polyline {
  const run = runningLengths(line);
  const length = run[run.length - 1];
  const flat = [line[0], line[1]];
  for (let i = 1; i < pointCount(line); i++) {
    const inside = run[i - 1] > quarter * length && run[i] < (1 - quarter) * length;
    const steps = inside ? 1 : Math.ceil((run[i] - run[i - 1]) / stepMm);
    for (let s = 1; s < steps; s++) {
      const share = s / steps;
      flat.push(
        line[2 * i - 2] + share * (line[2 * i] - line[2 * i - 2]),
        line[2 * i - 1] + share * (line[2 * i + 1] - line[2 * i - 1]),
      );
    }
    flat.push(line[2 * i], line[2 * i + 1]);
  }
  return Float64Array.from(flat);
}
