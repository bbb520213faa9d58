/**
 * From the steps of a walk to the line it stitches. Where the walk goes on along the line as it was drawn, nothing
 * changes. Where it switches to another line, both are bent to meet at the node, by no more than the touch distance.
 */

import type { Point, Polyline } from '../../shared/plane.js';
import { distance } from '../geometry/point.js';
import { chained, firstPoint, lastPoint, pointAt, pointCount, reversed } from '../geometry/polyline.js';
import type { Graph } from '../network/graph.js';
import type { Step } from './tour.js';

export interface Walked {
  readonly line: Polyline;
  /** The farthest an end was moved to meet another line, mm. */
  readonly movedMm: number;
}

const sameMm = 1e-9;

/** The line of these steps. A piece that was drawn twice is taken as it was drawn each time. */
export function walkedLine({ nodes, pieces }: Graph, steps: readonly Step[]): Walked {
  const walked = new Set<number>();
  const passes = steps.map(({ piece, back }) => {
    const { line, copy } = pieces[piece];
    const pass = walked.has(piece) && copy ? copy : line;
    walked.add(piece);
    return back ? reversed(pass) : pass;
  });
  let movedMm = 0;
  for (let i = 1; i < passes.length; i++) {
    const [end, start] = [lastPoint(passes[i - 1]), firstPoint(passes[i])];
    if (distance(end, start) <= sameMm) continue;
    const { piece, back } = steps[i];
    const meeting = nodes[back ? pieces[piece].to : pieces[piece].from];
    movedMm = Math.max(movedMm, distance(end, meeting), distance(start, meeting));
    passes[i - 1] = reversed(withStartAt(reversed(passes[i - 1]), meeting));
    passes[i] = withStartAt(passes[i], meeting);
  }
  return { line: chained(passes, sameMm), movedMm };
}

/** The line with its first point moved to `at`; points nearer to it than it was moved by would make a hook. */
function withStartAt(line: Polyline, at: Point): Polyline {
  const clearMm = distance(firstPoint(line), at);
  let next = 1;
  while (next + 1 < pointCount(line) && distance(pointAt(line, next), at) <= clearMm) next++;
  const out = new Float64Array(line.length - 2 * (next - 1));
  out.set([at.x, at.y]);
  out.set(line.subarray(2 * next), 2);
  return out;
}
