/**
 * Is the line drawn as the outline of a pen stroke? Drawing programs turn a fat line into the shape it covers, and
 * the edge of that shape is no line to stitch: it runs along both sides of the line that was meant.
 *
 * Such an edge is closed, and seen from nearly every place of it the other side of the pen lies straight across, on
 * the inner side, at the same distance: the width of the pen. It does not matter whether both sides are one closed
 * line, as of a line with two ends, or two or more, as of a ring or a line that crosses itself. A line that honestly
 * runs out and back is not closed, or comes back at a distance that changes, or on top of itself (a retrace); and a
 * closed line that fills a ground evenly, row by row, has neighbours on both sides.
 *
 * Looked at are places at even steps along the line. Strokes that see one another across the pen are judged together,
 * others apart, so that an outline beside a filled shape is one.
 *
 * Limits: pens wider than 4 mm, or than a fortieth of the line, are not told from shapes; nor are pens whose width
 * changes much. A closed line drawn twice, one a few millimetres inside the other, is taken for an outline.
 */

import type { Point } from '../../../shared/plane.js';
import type { Outline } from '../../../shared/study.js';
import { isClosed, placeAlong } from '../../geometry/polyline.js';
import { nearestShare } from '../../geometry/segment.js';
import { Groups } from '../../near/groups.js';
import type { SegmentIndex } from '../../near/segment-index.js';

const widestMm = 4;
const widestShare = 1 / 40;
/** Nearer sides are one line stitched twice, mm. */
const narrowestMm = 0.1;
const placesLooked = 400;
/** Of the places, so many see the other side at the width of the pen; the rest are ends, corners and crossings. */
const leastShare = 0.8;
/** Of the places, so many at most see a neighbour as near on their outer side. */
const mostOutside = 0.3;
/** How far the width may change, as a share: a band drawn by moving a wave straight down is narrower on its slopes. */
const widthTolerance = 0.25;
/** How far the pens of two shapes may differ. */
const penTolerance = 0.2;
/** How far a segment's end may lie from where the stroke began for it to be closed, mm. */
const closedMm = 0.05;
/** "Straight across" and "along", as cosines: 20 and 30 degrees off. */
const acrossCosine = 0.35;
const alongCosine = 0.87;

/** The width of the pen, and a place where both sides are seen; null where the line is no outline. */
export function outlineOf(index: SegmentIndex): Outline | null {
  if (index.strokes.length === 0 || !index.strokes.every((line) => isClosed(line, closedMm))) return null;
  const lengthMm = index.strokes.reduce((sum, _, stroke) => sum + index.strokeLengthMm(stroke), 0);
  const reachMm = Math.min(widestMm, widestShare * lengthMm);
  const views = viewsAlong(index, lengthMm / placesLooked, reachMm);
  const outlines = shapesIn(index.strokes.length, views).flatMap((strokes) => {
    const outline = outlineSeen(views.filter(({ stroke }) => strokes.has(stroke)));
    // Of a shape of its own, too, the pen is but a small share: a little ring is no stroke of a pen.
    const shapeMm = [...strokes].reduce((sum, stroke) => sum + index.strokeLengthMm(stroke), 0);
    return outline && outline.penMm <= widestShare * shapeMm ? [{ ...outline, strokes: [...strokes] }] : [];
  });
  if (outlines.length === 0) return null;
  const { penMm, at } = outlines[0];
  const strokes = outlines
    .filter((each) => Math.abs(each.penMm - penMm) <= penTolerance * penMm)
    .flatMap((each) => each.strokes);
  return { penMm, at, strokes };
}

/** Strokes that see one another across the pen are one shape. */
function shapesIn(count: number, views: readonly View[]): Set<number>[] {
  const shapes = new Groups(count);
  for (const { stroke, innerStroke } of views) if (innerStroke >= 0) shapes.join(innerStroke, stroke);
  return shapes.members().map((strokes) => new Set(strokes));
}

function outlineSeen(views: readonly View[]): Pick<Outline, 'penMm' | 'at'> | null {
  const across = views.filter(({ innerMm }) => innerMm < Infinity);
  // Of many short strokes none may be long enough for a look.
  if (across.length === 0 || across.length < leastShare * views.length) return null;
  const penMm = across.map(({ innerMm }) => innerMm).sort((a, b) => a - b)[across.length >> 1];
  const even = across.filter(({ innerMm }) => Math.abs(innerMm - penMm) <= widthTolerance * penMm);
  const outside = views.filter(({ outerMm }) => outerMm <= 1.5 * penMm);
  if (even.length < leastShare * views.length || outside.length > mostOutside * views.length) return null;
  return { penMm, at: even[0].at };
}

/** What is seen from a place straight across on either side: distance of the nearest line, or Infinity. */
interface View {
  readonly at: Point;
  readonly stroke: number;
  readonly innerMm: number;
  /** The stroke seen on the inner side; -1 where there is none. */
  readonly innerStroke: number;
  readonly outerMm: number;
}

/** Views at even steps. The inner side of a stroke is the one on which more is seen. */
function viewsAlong(index: SegmentIndex, stepMm: number, reachMm: number): View[] {
  return index.strokes.flatMap((_, stroke) => {
    const views = sidesAlong(index, stroke, stepMm, reachMm);
    const seen = (side: 'leftMm' | 'rightMm') => views.filter((view) => view[side] < Infinity).length;
    const isLeft = seen('leftMm') >= seen('rightMm');
    return views.map(({ at, leftMm, rightMm, leftStroke, rightStroke }) =>
      isLeft
        ? { at, stroke, innerMm: leftMm, outerMm: rightMm, innerStroke: leftStroke }
        : { at, stroke, innerMm: rightMm, outerMm: leftMm, innerStroke: rightStroke },
    );
  });
}

function sidesAlong(index: SegmentIndex, stroke: number, stepMm: number, reachMm: number) {
  const line = index.strokes[stroke];
  const first = index.firstPoints[stroke];
  const run = index.runMm.subarray(first, index.firstPoints[stroke + 1]);
  const views = [];
  let segment = 0;
  for (let alongMm = stepMm / 2; alongMm < run[run.length - 1]; alongMm += stepMm) {
    while (run[segment + 1] < alongMm) segment++;
    const at = placeAlong(line, run, alongMm);
    views.push({ at, ...sidesAt(index, first + segment, at, reachMm) });
  }
  return views;
}

/** Distances of the nearest line straight across from a place on a segment, to its left and to its right. */
function sidesAt(index: SegmentIndex, segment: number, { x, y }: Point, reachMm: number) {
  const { points } = index;
  const [ux, uy] = direction(points, segment);
  let leftMm = Infinity;
  let rightMm = Infinity;
  let leftStroke = -1;
  let rightStroke = -1;
  index.visitNearPoint(x, y, reachMm, (s, distanceMm) => {
    if (distanceMm < narrowestMm) return;
    const [vx, vy] = direction(points, s);
    if (Math.abs(ux * vx + uy * vy) < alongCosine) return;
    const [ax, ay, bx, by] = [points[2 * s], points[2 * s + 1], points[2 * s + 2], points[2 * s + 3]];
    const share = nearestShare(x, y, ax, ay, bx, by);
    const dx = ax + share * (bx - ax) - x;
    const dy = ay + share * (by - ay) - y;
    if (Math.abs(ux * dx + uy * dy) > acrossCosine * distanceMm) return;
    const isLeft = ux * dy - uy * dx < 0;
    if (distanceMm >= (isLeft ? leftMm : rightMm)) return;
    if (isLeft) [leftMm, leftStroke] = [distanceMm, index.strokeOf[s]];
    else [rightMm, rightStroke] = [distanceMm, index.strokeOf[s]];
  });
  return { leftMm, rightMm, leftStroke, rightStroke };
}

function direction(points: Float64Array, segment: number): readonly [number, number] {
  const dx = points[2 * segment + 2] - points[2 * segment];
  const dy = points[2 * segment + 3] - points[2 * segment + 1];
  const length = Math.sqrt(dx * dx + dy * dy);
  return [dx / length, dy / length];
}
