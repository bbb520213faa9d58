/** How near lines are to each other by jsts (a port of the JTS topology suite), as an outside authority. */
// @ts-nocheck jsts ships no types for its modules.
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import 'jsts/org/locationtech/jts/monkey.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import type { Polyline } from '../../shared/plane.js';
import { pointsOf } from '../../src/geometry/polyline.js';

const factory = new GeometryFactory();

function lineString(line: Polyline) {
  return factory.createLineString([...pointsOf(line)].map(({ x, y }) => new Coordinate(x, y)));
}

/** Least distance between two lines, mm. */
export function leastDistance(a: Polyline, b: Polyline): number {
  return DistanceOp.distance(lineString(a), lineString(b));
}

/** Length of the parts of `line` that lie within `withinMm` of `other`, mm; right to a thousandth of `withinMm`. */
export function lengthWithin(line: Polyline, other: Polyline, withinMm: number): number {
  const near = BufferOp.bufferOp(lineString(other), withinMm, 32);
  return OverlayOp.intersection(lineString(line), near).getLength();
}
