/** The whole route: ends, links and retracing chosen together, held against all choices and against what can be seen. */
import { describe, expect, test, vi } from 'vitest';
import type { Point, Polyline } from '../../shared/plane.js';
import { distance } from '../../src/geometry/point.js';
import { firstPoint, lastPoint, lengthOf } from '../../src/geometry/polyline.js';
import { type Graph, oddNodes, toggle } from '../../src/network/graph.js';
import { networkOf } from '../../src/network/network.js';
import { type RouteWishes, routeOf } from '../../src/route/plan.js';
import { endPairs } from '../../src/route/row-ends.js';
import { connectedStrokes, line, randomFrom } from '../mend/drawings.js';
import { distances, isClearCut, leastPairs, noded } from '../mend/optimum.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

const graphOfLines = (...lines: Polyline[]) => networkOf(lines, 1e6).graph;
const total = (lines: readonly Polyline[]) => lines.reduce((sum, each) => sum + lengthOf(each), 0);

/** For each pair of ends: what it costs by itself, and the least that a line between them stitches twice. */
function everyPair(drawing: Graph) {
  const { graph, pairs } = endPairs(drawing);
  const edges = graph.pieces.map(({ from, to, lengthMm }) => [from, to, lengthMm] as const);
  const far = distances({ nodes: graph.nodes, edges });
  return pairs.map(({ start, end, priceMm }) => {
    const odd = oddNodes(graph);
    toggle(odd, start);
    toggle(odd, end);
    const retraceMm = leastPairs([...odd], (a, b) => far[a][b]);
    return { start: graph.nodes[start], end: graph.nodes[end], priceMm, retraceMm };
  });
}

describe('of 150 random drawings in one part, with no new line within them,', () => {
  const random = randomFrom(3);
  const drawings: Graph[] = [];
  while (drawings.length < 150) {
    const strokes = connectedStrokes(random, 1 + Math.floor(4 * random()));
    if (isClearCut(noded(strokes), 0.4)) drawings.push(graphOfLines(...strokes));
  }
  /** The cost of the route, and of the cheapest pair of ends; `rowMm` is what is wrong with a row. */
  const costs = (
    drawing: Graph,
    rowMm: (start: Point, end: Point) => number,
    wishes?: Partial<RouteWishes>,
  ) => {
    const route = routeOf(drawing, { linkWeight: Infinity, ...wishes });
    const [start, end] = [firstPoint(route.line), lastPoint(route.line)];
    const pairs = everyPair(drawing).map((pair) => {
      return { ...pair, mm: pair.priceMm + pair.retraceMm + rowMm(pair.start, pair.end) };
    });
    const chosen = pairs.filter((p) => distance(p.start, start) < 1e-6 && distance(p.end, end) < 1e-6);
    expect(lengthOf(route.line)).toBeCloseTo(total(drawing.pieces.map((p) => p.line)) + route.retracedMm, 4);
    return {
      ofRoute: Math.min(...chosen.map(({ priceMm }) => priceMm)) + route.retracedMm + rowMm(start, end),
      least: Math.min(...pairs.map(({ mm }) => mm)),
    };
  };

  test('no pair of ends costs less', () => {
    for (const drawing of drawings) {
      const { ofRoute, least } = costs(drawing, () => 0);
      expect(ofRoute).toBeCloseTo(least, 2);
    }
  });

  test('nor where it matters to the row where they lie', () => {
    const rowMm = (start: Point, end: Point) => 3 * Math.abs(start.y + end.y - 50);
    for (const drawing of drawings) {
      const { ofRoute, least } = costs(drawing, rowMm, { weighRow: () => rowMm });
      expect(ofRoute).toBeCloseTo(least, 2);
    }
  });
});

// Closed: 40 mm high on its left, with a tip on its right that is 5 mm from level with its top or with its foot.
test.each([
  [0, 5],
  [40, 35],
])('a closed line is cut where it is nearest to level, at %d and %d mm', (left, right) => {
  const closed = graphOfLines(line(0, 0, 100, right, 0, 40, 0, 0));
  for (const linkWeight of [2, Infinity]) {
    const { line: found } = routeOf(closed, { linkWeight });
    expect([firstPoint(found), lastPoint(found)]).toEqual([
      { x: 0, y: left },
      { x: 100, y: right },
    ]);
  }
});
