/** How far lines are apart, by jsts (a port of the JTS topology suite). */
// @ts-nocheck jsts ships no types for its modules.
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';
import type { Polyline } from '../../shared/plane.js';
import { pointsOf } from '../../src/geometry/polyline.js';

export function apartMm(a: Polyline, b: Polyline): number {
  const factory = new GeometryFactory();
  const [one, other] = [a, b].map((line) =>
    factory.createLineString([...pointsOf(line)].map(({ x, y }) => new Coordinate(x, y))),
  );
  return DistanceOp.distance(one, other);
}
