/**
 * Spare line: what one line stitches over again without need.
 *
 * The line is taken apart into its graph, in which stretches that lie on one another are one piece. The shortest line
 * from the same start to the same end through every piece repeats only what it must (the route mend explains how).
 */

import type { Polyline } from '../../shared/plane.js';
import { lengthOf } from '../geometry/polyline.js';
import type { Network } from '../network/network.js';
import { routeOf } from './plan.js';

/** Less is not worth changing the line for, mm. */
export const leastSpareMm = 1;

export interface Spare {
  /** The line without it. */
  readonly line: Polyline;
  readonly spareMm: number;
  /** The farthest any point moves, mm. */
  readonly movedMm: number;
}

/** What can be left out of a line, of which the network is; null where it is not worth it. */
export function spareOf(line: Polyline, { graph, ends }: Network): Spare | null {
  if (graph.pieces.length === 0) return null;
  const found = routeOf(graph, { between: ends[0], linkWeight: Infinity });
  const spareMm = lengthOf(line) - lengthOf(found.line);
  return spareMm < leastSpareMm ? null : { line: found.line, spareMm, movedMm: found.movedMm };
}
