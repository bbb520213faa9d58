/** From the edges of the ink to the lines that the pen drew, and what is no part of the drawing. */
import type { Box, Point, Polyline } from '../../../shared/plane.js';
import { axisOf } from '../../centre/axis.js';
import { borderOf } from '../../centre/border.js';
import { type Centre, centreOf } from '../../centre/index.js';
import { boundsOf, firstPoint, lastPoint, lengthOf, signedArea } from '../../geometry/polyline.js';

export interface Traced {
  readonly strokes: readonly Polyline[];
  /** Width of the ink, and what it was under and over for a twentieth of the line each. */
  readonly penPx: number;
  readonly widthsPx: Centre['widths'];
  /** What is no part of the line: straight lines from edge to edge, a place on each speck, circles in filled shapes. */
  readonly ruled: readonly Polyline[];
  readonly specks: readonly Point[];
  readonly shapes: Centre['shapes'];
}

/** Points along the edges. */
const stepPx = 1.2;
/** How far an edge may be off. */
const blurPx = 0.12;
/** Smaller than this across, in pens, ink is a speck. */
const speckPens = 2;
/** No pen is wider. */
const widestPx = 60;
/** Holes smaller than this are grain of the paper. */
const holePx2 = 4;
/** The line is smoothed over this: what is finer is grain of the picture. */
const smoothPx = 1.5;
/** So near to the edge of the picture, a line runs off it. */
const nearEdgePx = 3;

/** Shorter borders tell little of how wide the pen is. */
const lineBorderPx = 60;
/** To tell specks, the pen's width needs not be known better than points this far apart tell. */
const coarsePx = 3;

export function traced(rings: readonly Polyline[], width: number, height: number): Traced {
  const whole = rings.filter((ring) => Math.abs(signedArea(ring)) >= holePx2);
  const across = (ring: Polyline) => {
    const box = boundsOf([ring]);
    return Math.max(box.maxX - box.minX, box.maxY - box.minY);
  };
  const small = whole.filter((ring) => signedArea(ring) > 0 && across(ring) < speckPens * widestPx);
  const speckPx = small.length === 0 ? 0 : speckPens * roughPen(whole);
  const specks = new Set(small.filter((ring) => across(ring) < speckPx));
  const kept = whole.filter((ring) => !specks.has(ring));
  const { strokes, pen, widths, shapes } = centreOf(kept, {
    step: stepPx,
    blur: blurPx,
    smoothOver: smoothPx,
  });
  const ruled = strokes.filter((line) => isRuled(line, width, height));
  return {
    strokes: strokes.filter((line) => lengthOf(line) >= speckPens * pen && !ruled.includes(line)),
    penPx: pen,
    widthsPx: widths,
    ruled,
    specks: [...specks].map(firstPoint),
    shapes,
  };
}

function roughPen(rings: readonly Polyline[]): number {
  const long = rings.filter((ring) => lengthOf(ring) >= lineBorderPx);
  return long.length === 0 ? 0 : 2 * axisOf(borderOf(long, coarsePx)).medianRadius;
}

function touchesEdge({ minX, minY, maxX, maxY }: Box, width: number, height: number): boolean {
  return minX < nearEdgePx || minY < nearEdgePx || maxX > width - nearEdgePx || maxY > height - nearEdgePx;
}

/** A straight line from edge to edge of the picture. */
function isRuled(line: Polyline, width: number, height: number): boolean {
  const [a, b] = [firstPoint(line), lastPoint(line)];
  const isOut = ({ x, y }: Point) =>
    touchesEdge({ minX: x - 8, minY: y - 8, maxX: x + 8, maxY: y + 8 }, width, height);
  const chord = Math.hypot(b.x - a.x, b.y - a.y);
  return isOut(a) && isOut(b) && chord > 0.9 * Math.min(width, height) && lengthOf(line) < 1.01 * chord;
}
