/** From the edges of the ink to the lines that the pen drew, and what is no part of the drawing. */
import type { IntakeNote } from '../../../shared/artwork.js';
import type { Box, Point, Polyline } from '../../../shared/plane.js';
import { axisOf } from '../../centre/axis.js';
import { borderOf } from '../../centre/border.js';
import { centreOf } from '../../centre/index.js';
import { boundsOf, firstPoint, lastPoint, lengthOf } from '../../geometry/polyline.js';

export interface Traced {
  readonly strokes: readonly Polyline[];
  readonly penPx: number;
  readonly notes: readonly IntakeNote[];
}

/** Points along the edges. */
const stepPx = 1.2;
/** How far an edge may be off. */
const blurPx = 0.12;
/** What pixels and blur add to the square of a pen's width at the threshold: so from 1.5 to 10 pixels, drawn by resvg. */
const blurredPx2 = 4.6;
/** Smaller than this across, in pens, ink is a speck. */
const speckPens = 2;
/** Holes smaller than this are grain of the paper. */
const holePx2 = 4;
/** The line is smoothed over this: what is finer is grain of the picture. */
const smoothPx = 1.5;
/** Ink longer than this along the edge of the picture, in pens, is no line that runs off it. */
const alongPens = 8;
/** So near to the edge of the picture, a line runs off it. */
const nearEdgePx = 3;

/** Shorter borders tell little of how wide the pen is. */
const lineBorderPx = 60;
export function traced(rings: readonly Polyline[], width: number, height: number): Traced {
  const whole = rings.filter((ring) => Math.abs(areaOf(ring)) >= holePx2);
  const long = whole.filter((ring) => lengthOf(ring) >= lineBorderPx);
  const penPx = long.length === 0 ? 0 : 2 * axisOf(borderOf(long, stepPx)).medianRadius;
  const notes = new Map<string, Point[]>();
  const note = (what: string, at: Point) => notes.set(what, [...(notes.get(what) ?? []), at]);
  const kept: Polyline[] = [];
  for (const ring of whole) {
    const box = boundsOf([ring]);
    if (areaOf(ring) < 0) kept.push(ring);
    else if (isBeyond(ring, box, penPx, width, height)) {
      note('dark edge of the picture', firstPoint(ring));
    } else if (Math.max(box.maxX - box.minX, box.maxY - box.minY) < speckPens * penPx)
      note('speck', firstPoint(ring));
    else kept.push(ring);
  }
  const { strokes, pen } = centreOf(kept, { step: stepPx, blur: blurPx, smoothOver: smoothPx });
  const lines = strokes.filter((line) => {
    if (lengthOf(line) < speckPens * pen) return false;
    if (!isRuled(line, width, height)) return true;
    note('ruled line', firstPoint(line));
    return false;
  });
  return {
    strokes: lines,
    penPx: Math.sqrt(Math.max(0, pen * pen - blurredPx2)),
    notes: [...notes].map(([what, places]) => ({
      kind: 'other',
      what,
      count: places.length,
      places: places.slice(0, 20),
    })),
  };
}

/** The area a ring runs round, px²; negative round a hole. */
function areaOf(ring: Polyline): number {
  let twice = 0;
  for (let i = 2; i < ring.length; i += 2) twice += ring[i - 2] * ring[i + 1] - ring[i] * ring[i - 1];
  return twice / 2;
}

function touchesEdge({ minX, minY, maxX, maxY }: Box, width: number, height: number): boolean {
  return minX < nearEdgePx || minY < nearEdgePx || maxX > width - nearEdgePx || maxY > height - nearEdgePx;
}

/** Ink that lies along the edge of the picture, as the dark beyond a sheet does; a line that runs off crosses it. */
function isBeyond(ring: Polyline, box: Box, penPx: number, width: number, height: number): boolean {
  if (!touchesEdge(box, width, height)) return false;
  let alongPx = 0;
  for (let i = 2; i < ring.length; i += 2) {
    const [x, y] = [ring[i], ring[i + 1]];
    if (touchesEdge({ minX: x, minY: y, maxX: x, maxY: y }, width, height))
      alongPx += Math.hypot(x - ring[i - 2], y - ring[i - 1]);
  }
  return alongPx > alongPens * penPx;
}

/** A straight line from edge to edge of the picture. */
function isRuled(line: Polyline, width: number, height: number): boolean {
  const [a, b] = [firstPoint(line), lastPoint(line)];
  const isOut = ({ x, y }: Point) =>
    touchesEdge({ minX: x - 8, minY: y - 8, maxX: x + 8, maxY: y + 8 }, width, height);
  const chord = Math.hypot(b.x - a.x, b.y - a.y);
  return isOut(a) && isOut(b) && chord > 0.9 * Math.min(width, height) && lengthOf(line) < 1.01 * chord;
}
