/** From the edges of the ink to the lines that the pen drew, and what is no part of the drawing. */
import type { IntakeNote } from '../../../shared/artwork.js';
import type { Box, Point, Polyline } from '../../../shared/plane.js';
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
/** Smaller than this across, in pens, ink is a speck. */
const speckPens = 2;
/** Holes smaller than this are grain of the paper. */
const holePx2 = 4;
/** The line is smoothed over this, in pens: what is finer is grain of the picture. */
const smoothPens = 0.25;
/** So near to the edge of the picture, a line runs off it. */
const nearEdgePx = 3;

export function traced(rings: readonly Polyline[], width: number, height: number): Traced {
  const whole = rings.filter((ring) => Math.abs(areaOf(ring)) >= holePx2);
  const first = centreOf(whole, { step: stepPx, blur: blurPx, smoothPens });
  const penPx = penOf(whole, width, height) ?? first.pen;
  const notes = new Map<string, Point[]>();
  const note = (what: string, at: Point) => notes.set(what, [...(notes.get(what) ?? []), at]);
  const kept: Polyline[] = [];
  const beyond: Box[] = [];
  for (const ring of whole) {
    const box = boundsOf([ring]);
    if (areaOf(ring) < 0) kept.push(ring);
    else if (isWide(ring, box, penPx, width, height)) {
      beyond.push(box);
      note('dark edge of the picture', firstPoint(ring));
    } else if (Math.max(box.maxX - box.minX, box.maxY - box.minY) < speckPens * penPx)
      note('speck', firstPoint(ring));
    else kept.push(ring);
  }
  const { strokes, pen } =
    kept.length === whole.length ? first : centreOf(kept, { step: stepPx, blur: blurPx, smoothPens });
  const lines = strokes.filter((line) => {
    if (lengthOf(line) < speckPens * pen) return false;
    if (!isRuled(line, width, height)) return true;
    note('ruled line', firstPoint(line));
    return false;
  });
  return {
    strokes: lines,
    penPx: pen,
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

/** The width of the pen from all ink but what touches the edge of the picture: area over half the border. */
function penOf(rings: readonly Polyline[], width: number, height: number): number | null {
  let [area, border] = [0, 0];
  for (const ring of rings) {
    if (touchesEdge(boundsOf([ring]), width, height)) continue;
    area += areaOf(ring);
    border += lengthOf(ring);
  }
  return border > 0 && area > 0 ? (2 * area) / border : null;
}

function touchesEdge({ minX, minY, maxX, maxY }: Box, width: number, height: number): boolean {
  return minX < nearEdgePx || minY < nearEdgePx || maxX > width - nearEdgePx || maxY > height - nearEdgePx;
}

/** Ink along the edge of the picture that is no pen's: much wider than one. */
function isWide(ring: Polyline, box: Box, penPx: number, width: number, height: number): boolean {
  return touchesEdge(box, width, height) && (2 * areaOf(ring)) / lengthOf(ring) > 3 * penPx;
}

/** A straight line from edge to edge of the picture. */
function isRuled(line: Polyline, width: number, height: number): boolean {
  const [a, b] = [firstPoint(line), lastPoint(line)];
  const isOut = ({ x, y }: Point) =>
    touchesEdge({ minX: x - 8, minY: y - 8, maxX: x + 8, maxY: y + 8 }, width, height);
  const chord = Math.hypot(b.x - a.x, b.y - a.y);
  return isOut(a) && isOut(b) && chord > 0.9 * Math.min(width, height) && lengthOf(line) < 1.01 * chord;
}
