/**
 * The jsts noder (a port of the JTS topology suite) as an outside authority on crossings: it cuts lines at every
 * place where they meet, so a place where four pieces end is a crossing, in drawings without touches and overlaps.
 */
// @ts-nocheck jsts ships no types for its modules.
import ArrayList from 'jsts/java/util/ArrayList.js';
import RobustLineIntersector from 'jsts/org/locationtech/jts/algorithm/RobustLineIntersector.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import IntersectionAdder from 'jsts/org/locationtech/jts/noding/IntersectionAdder.js';
import MCIndexNoder from 'jsts/org/locationtech/jts/noding/MCIndexNoder.js';
import NodedSegmentString from 'jsts/org/locationtech/jts/noding/NodedSegmentString.js';
import type { Point, Polyline } from '../../shared/plane.js';

/** The lines cut where they meet, as a list of pieces of coordinates. */
export function noded(lines: readonly Polyline[]): { x: number; y: number }[][] {
  return Array.from(nodedPieces(stringsOf(lines)).toArray(), (piece) => piece.getCoordinates());
}

/** What the noder takes; made beforehand where only the noding is timed. */
export function stringsOf(lines: readonly Polyline[]) {
  const strings = new ArrayList();
  for (const line of lines) {
    const coordinates = Array.from(
      { length: line.length / 2 },
      (_, i) => new Coordinate(line[2 * i], line[2 * i + 1]),
    );
    strings.add(new NodedSegmentString(coordinates, null));
  }
  return strings;
}

export function nodedPieces(strings) {
  const noder = new MCIndexNoder(new IntersectionAdder(new RobustLineIntersector()));
  noder.computeNodes(strings);
  return noder.getNodedSubstrings();
}

/** Places where four or more pieces end. */
export function nodesOf(lines: readonly Polyline[]): Point[] {
  const nodes = new Map<string, { at: Point; pieces: number }>();
  for (const piece of noded(lines)) {
    for (const { x, y } of [piece[0], piece[piece.length - 1]]) {
      const key = `${x} ${y}`;
      const node = nodes.get(key) ?? { at: { x, y }, pieces: 0 };
      node.pieces++;
      nodes.set(key, node);
    }
  }
  return [...nodes.values()].filter(({ pieces }) => pieces >= 4).map(({ at }) => at);
}
