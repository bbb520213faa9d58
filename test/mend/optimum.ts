/**
 * The least retracing of a drawing, worked out a second time by other means: lines noded by jsts (a port of the JTS
 * topology suite), all shortest paths by Floyd and Warshall (Communications of the ACM 5, 1962), and the pairing of
 * odd places by trying every one (dynamic programming over subsets).
 */
// @ts-nocheck jsts ships no types for its modules.
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import UnaryUnionOp from 'jsts/org/locationtech/jts/operation/union/UnaryUnionOp.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { pointsOf } from '../../src/geometry/polyline.js';
import { pointToSegment } from '../../src/geometry/segment.js';

export interface Noded {
  readonly nodes: readonly Point[];
  readonly edges: readonly (readonly [from: number, to: number, lengthMm: number])[];
}

/** The drawing cut wherever lines meet; every corner is a node too. */
export function noded(lines: readonly Polyline[]): Noded {
  const factory = new GeometryFactory();
  const strings = lines.map((line) =>
    factory.createLineString([...pointsOf(line)].map(({ x, y }) => new Coordinate(x, y))),
  );
  const union = UnaryUnionOp.union(factory.createMultiLineString(strings));
  const nodes: Point[] = [];
  const number = new Map<string, number>();
  const nodeAt = ({ x, y }: Point) => {
    const key = `${x.toFixed(6)} ${y.toFixed(6)}`;
    if (!number.has(key)) number.set(key, nodes.push({ x, y }) - 1);
    return number.get(key);
  };
  const edges = [];
  for (let i = 0; i < union.getNumGeometries(); i++) {
    const points = union.getGeometryN(i).getCoordinates();
    for (let p = 1; p < points.length; p++) {
      const mm = Math.hypot(points[p].x - points[p - 1].x, points[p].y - points[p - 1].y);
      edges.push([nodeAt(points[p - 1]), nodeAt(points[p]), mm]);
    }
  }
  return { nodes, edges };
}

/** False where places are so near to each other, or to a line, that a touch could be taken for a crossing. */
export function isClearCut({ nodes, edges }: Noded, withinMm: number): boolean {
  for (let a = 0; a < nodes.length; a++)
    for (const [b, c] of edges) {
      if (a === b || a === c) continue;
      const { x, y } = nodes[a];
      if (pointToSegment(x, y, nodes[b].x, nodes[b].y, nodes[c].x, nodes[c].y) < withinMm) return false;
    }
  return true;
}

export function oddPlaces({ nodes, edges }: Noded): number[] {
  const degree = nodes.map(() => 0);
  for (const [a, b] of edges) {
    degree[a]++;
    degree[b]++;
  }
  return degree.flatMap((d, n) => (d % 2 === 1 ? [n] : []));
}

/** Least length to repeat for a line from `start` to `end`; Infinity where the drawing does not hang together. */
export function leastRepeated(graph: Noded, start: number, end: number): number {
  const odd = new Set(oddPlaces(graph));
  for (const n of [start, end]) if (!odd.delete(n)) odd.add(n);
  const far = distances(graph);
  return leastPairs([...odd], (a, b) => far[a][b]);
}

export function distances({ nodes, edges }: Noded): number[][] {
  const far = nodes.map((_, i) => nodes.map((_, j) => (i === j ? 0 : Infinity)));
  for (const [a, b, mm] of edges) {
    far[a][b] = Math.min(far[a][b], mm);
    far[b][a] = far[a][b];
  }
  for (let k = 0; k < nodes.length; k++)
    for (let i = 0; i < nodes.length; i++)
      for (let j = 0; j < nodes.length; j++) far[i][j] = Math.min(far[i][j], far[i][k] + far[k][j]);
  return far;
}

/** The least sum over all ways to pair `items`. */
export function leastPairs(items: readonly number[], distance: (a: number, b: number) => number): number {
  const full = 2 ** items.length - 1;
  const known = new Map<number, number>([[full, 0]]);
  const from = (taken: number): number => {
    const old = known.get(taken);
    if (old !== undefined) return old;
    let first = 0;
    while (taken & (1 << first)) first++;
    let best = Infinity;
    for (let second = first + 1; second < items.length; second++) {
      if (taken & (1 << second)) continue;
      const rest = from(taken | (1 << first) | (1 << second));
      best = Math.min(best, distance(items[first], items[second]) + rest);
    }
    known.set(taken, best);
    return best;
  };
  return from(0);
}
