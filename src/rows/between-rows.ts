/**
 * How near two rows of a stack come: the least distance between any segment of the one and any of the other. Exact, but
 * for lines drawn in very many steps, which are looked at with fewer points (`strokesLookedAt`).
 */
import type { Layout } from '../../shared/layout.js';
import type { Point } from '../../shared/plane.js';
import type { RowDistance } from '../../shared/rows.js';
import { nearestToSegment, segmentToSegment } from '../geometry/segment.js';
import { kindsOfSeam, placementOf } from './layout.js';
import type { Row } from './row.js';
import { type Answer, type Question, RowPair } from './row-pair.js';

/** How near any two rows of the stack come, 0 where they meet or cross, and where, on the motif as drawn. */
export function rowDistance(row: Row, layout: Layout, spacingMm: number): RowDistance {
  let leastMm = Infinity;
  let at: Point = { x: row.box.minX, y: row.box.minY };
  for (let apart = 1; apart * spacingMm - row.heightMm < leastMm; apart++) {
    for (let index = 0; index < kindsOfSeam(layout); index++) {
      const answer = RowPair.whole(row, layout, index, apart).ask(nearness(apart * spacingMm), -leastMm);
      if (answer === null) continue;
      leastMm = -answer.most;
      at = placeOnMotif(row, layout, index, apart, apart * spacingMm, answer);
    }
    if (leastMm === 0) break;
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

/** Where the rows come nearest, told on whichever of the two lies as drawn. */
function placeOnMotif(
  row: Row,
  layout: Layout,
  index: number,
  apart: number,
  downMm: number,
  { upper, lower, shiftMm }: Answer,
): Point {
  const [ax, ay, bx, by] = upper;
  const [cx, cy, dx, dy] = lower;
  const tellsUpper = index % 2 === 0;
  const { x, y } = tellsUpper
    ? nearestToSegment(ax, ay, bx, by, cx, cy + downMm, dx, dy + downMm)
    : nearestToSegment(cx, cy, dx, dy, ax, ay - downMm, bx, by - downMm);
  const place = placementOf(row, layout, 0, tellsUpper ? index : index + apart);
  return {
    x: place.signX * (x - place.dx - (tellsUpper ? 0 : shiftMm)),
    y: place.signY * (y - place.dy),
  };
}
