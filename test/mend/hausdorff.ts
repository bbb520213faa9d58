/** The distance between two drawings by jsts (a port of the JTS topology suite). */
// @ts-nocheck jsts ships no types for its modules.
import DiscreteHausdorffDistance from 'jsts/org/locationtech/jts/algorithm/distance/DiscreteHausdorffDistance.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import type { Polyline } from '../../shared/plane.js';
import { pointsOf } from '../../src/geometry/polyline.js';

const factory = new GeometryFactory();

/** How far any place of one lies from the other at most, mm; looked at at the corners and halfway along each segment. */
export function hausdorff(a: readonly Polyline[], b: readonly Polyline[]): number {
  return DiscreteHausdorffDistance.distance(drawing(a), drawing(b), 0.5);
}

function drawing(lines: readonly Polyline[]) {
  const strings = lines.map((line) =>
    factory.createLineString([...pointsOf(line)].map(({ x, y }) => new Coordinate(x, y))),
  );
  return factory.createMultiLineString(strings);
}
