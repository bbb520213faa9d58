/**
 * How near two rows of a stack come: the least distance between any segment of the one and any of the other. Exact, but
 * for lines drawn in very many steps, which are looked at with fewer points (`strokesLookedAt`).
 */
import type { Layout } from '../../shared/layout.js';
import type { Point } from '../../shared/plane.js';
import type { RowDistance } from '../../shared/rows.js';
import { nearestToSegment, segmentToSegment } from '../geometry/segment.js';
import { kindsOfSeam, type Placement, placementOf } from './layout.js';
import type { Row } from './row.js';
import { type Answer, type Question, RowPair } from './row-pair.js';

/** How near any two rows of the stack come, 0 where they meet or cross, and where, on the motif as drawn. */
export function rowDistance(row: Row, layout: Layout, spacingMm: number): RowDistance {
  let leastMm = Infinity;
  let at: Point = { x: Number.NaN, y: Number.NaN };
  for (let apart = 1; leastMm > 0 && apart * spacingMm - row.heightMm < leastMm; apart++) {
    const downMm = apart * spacingMm;
    for (let index = 0; index < kindsOfSeam(layout); index++) {
      const answer = RowPair.whole(row, layout, index, apart).ask(nearness(downMm), -leastMm);
      if (answer === null) continue;
      leastMm = -answer.most;
      at = placeOnMotif(placementOf(row, layout, 0, index), downMm, answer);
    }
  }
  return { spacingMm, leastMm, at };
}

/** How near two segments come, taken from nothing, when one row lies `downMm` below the other. */
function nearness(downMm: number): Question {
  return {
    atMost: (gapMm, fromMm, toMm) => {
      const apartMm = Math.max(fromMm - downMm, downMm - toMm, 0);
      return -Math.sqrt(gapMm * gapMm + apartMm * apartMm);
    },
    of: (a, b) => -segmentToSegment(a[0], a[1], a[2], a[3], b[0], b[1] + downMm, b[2], b[3] + downMm),
  };
}

/** Where the rows come nearest, on the upper one. */
function placeOnMotif({ signX, signY, dx, dy }: Placement, downMm: number, { upper, lower }: Answer): Point {
  const [ax, ay, bx, by] = upper;
  const [cx, cy, ex, ey] = lower;
  const { x, y } = nearestToSegment(ax, ay, bx, by, cx, cy + downMm, ex, ey + downMm);
  return { x: signX * (x - dx), y: signY * (y - dy) };
}
