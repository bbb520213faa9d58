/** Graphs of straight pieces. */
import { type Graph, pieceOf } from '../../src/network/graph.js';

export type At = readonly [number, number];

/** Straight pieces between these points. */
export function graphOf(points: readonly At[], edges: readonly (readonly [number, number])[]): Graph {
  const pieces = edges.map(([a, b]) => pieceOf(a, b, Float64Array.of(...points[a], ...points[b])));
  return { nodes: points.map(([x, y]) => ({ x, y })), pieces };
}

export const rad = (degrees: number) => (degrees * Math.PI) / 180;
