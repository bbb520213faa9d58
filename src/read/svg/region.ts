/**
 * The inside of a clip: shapes as polygons, and whether a line lies within them. Good to a hundredth of a millimetre
 * or so, which is all that is asked: whether a clip takes away any of a line worth telling of.
 */
import type { Box } from '../../../shared/plane.js';
import { Op, opSize, type Subpath } from '../../../shared/subpath.js';
import { emptyBox, extend } from '../../geometry/box.js';
import { pointToSegment } from '../../geometry/segment.js';

/** A line this little outside is not cut. */
const slackMm = 0.05;
const stepsACurve = 8;

/** Something that may cut lines. */
export interface Cut {
  /** In plain words: "clip 'page'". */
  readonly what: string;
  /** Null where its shape cannot be known: it then counts as cutting. */
  readonly region: Region | null;
}

export class Region {
  private readonly polygons: readonly Float64Array[];
  private readonly boxes: readonly Box[];
  /** How many corners all its polygons have: what testing one point costs. */
  readonly corners: number;

  constructor(shapes: readonly Subpath[]) {
    this.polygons = shapes.map(sampled);
    this.boxes = this.polygons.map(boxOf);
    this.corners = this.polygons.reduce((sum, polygon) => sum + polygon.length / 2, 0);
  }

  /** Whether all of `points` (x and y in turn) lie inside. */
  holds(points: Float64Array): boolean {
    const box = boxOf(points);
    if (this.polygons.some((polygon, i) => within(box, this.boxes[i]) && isUpright(polygon, this.boxes[i])))
      return true;
    for (let i = 0; i < points.length; i += 2) {
      if (!this.polygons.some((polygon) => isInside(points[i], points[i + 1], polygon))) return false;
    }
    return true;
  }
}

function within(inner: Box, outer: Box): boolean {
  return (
    inner.minX >= outer.minX - slackMm &&
    inner.minY >= outer.minY - slackMm &&
    inner.maxX <= outer.maxX + slackMm &&
    inner.maxY <= outer.maxY + slackMm
  );
}

function boxOf(points: Float64Array): Box {
  const box = emptyBox();
  for (let i = 0; i < points.length; i += 2) extend(box, points[i], points[i + 1]);
  return box;
}

/** Whether the polygon is its own box: every corner of it lies in a corner of the box, and none is left out. */
function isUpright(polygon: Float64Array, box: Box): boolean {
  let corners = 0;
  for (let i = 0; i < polygon.length; i += 2) {
    const [x, y] = [polygon[i], polygon[i + 1]];
    if ((x !== box.minX && x !== box.maxX) || (y !== box.minY && y !== box.maxY)) return false;
    corners |= 1 << ((x === box.maxX ? 1 : 0) + (y === box.maxY ? 2 : 0));
  }
  return corners === 0b1111;
}

/** Inside by the non-zero rule, or on the edge. */
function isInside(x: number, y: number, polygon: Float64Array): boolean {
  let winding = 0;
  const { length } = polygon;
  for (let i = 0, j = length - 2; i < length; j = i, i += 2) {
    const [ax, ay, bx, by] = [polygon[j], polygon[j + 1], polygon[i], polygon[i + 1]];
    if (pointToSegment(x, y, ax, ay, bx, by) <= slackMm) return true;
    if (ay <= y !== by <= y) {
      const side = (bx - ax) * (y - ay) - (x - ax) * (by - ay);
      if (ay <= y && side > 0) winding++;
      if (by <= y && side < 0) winding--;
    }
  }
  return winding !== 0;
}

/** Points along a line: the ends of its segments, and some between along curves. */
export function sampled({ ops, coords }: Subpath): Float64Array {
  const points: number[] = [coords[0], coords[1]];
  let i = 2;
  for (const op of ops) {
    const [x0, y0] = [coords[i - 2], coords[i - 1]];
    const end = i + opSize[op] - 2;
    for (let step = 1; op !== Op.line && step < stepsACurve; step++) {
      const t = step / stepsACurve;
      const s = 1 - t;
      for (const axis of [0, 1]) {
        const c = (k: number) => coords[i + 2 * k + axis];
        const from = axis === 0 ? x0 : y0;
        if (op === Op.quadratic) points.push(s * s * from + 2 * s * t * c(0) + t * t * c(1));
        else if (op === Op.cubic)
          points.push(s * s * s * from + 3 * s * s * t * c(0) + 3 * s * t * t * c(1) + t * t * t * c(2));
        else {
          const angle = coords[i + 6] + t * coords[i + 7];
          points.push(c(0) + Math.cos(angle) * c(1) + Math.sin(angle) * c(2));
        }
      }
    }
    points.push(coords[end], coords[end + 1]);
    i += opSize[op];
  }
  return Float64Array.from(points);
}
