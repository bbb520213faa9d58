/** How far lines lie from one another, by jsts (a port of the JTS topology suite), looked at every half millimetre. */
// @ts-nocheck jsts ships no types for its modules.

import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import IndexedFacetDistance from 'jsts/org/locationtech/jts/operation/distance/IndexedFacetDistance.js';
import type { Polyline } from '../../shared/plane.js';
import { placeAlong, pointsOf, runningLengths } from '../../src/geometry/polyline.js';

const factory = new GeometryFactory();
const stepMm = 0.5;

/** The distances of places of `lines` from the nearest of `others`, mm, least first. */
export function distances(lines: readonly Polyline[], others: readonly Polyline[]): number[] {
  const index = new IndexedFacetDistance(
    factory.createMultiLineString(
      others.map((line) =>
        factory.createLineString([...pointsOf(line)].map(({ x, y }) => new Coordinate(x, y))),
      ),
    ),
  );
  const all: number[] = [];
  for (const line of lines) {
    const run = runningLengths(line);
    for (let at = 0; at < run[run.length - 1]; at += stepMm) {
      const { x, y } = placeAlong(line, run, at);
      all.push(index.distance(factory.createPoint(new Coordinate(x, y))));
    }
  }
  return all.sort((a, b) => a - b);
}

/** The farthest any place of either lies from the other, mm. */
export function farthest(a: readonly Polyline[], b: readonly Polyline[]): number {
  return Math.max(distances(a, b).at(-1) ?? 0, distances(b, a).at(-1) ?? 0);
}
