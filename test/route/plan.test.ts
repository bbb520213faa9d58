/** The whole route: ends, links and retracing chosen together, held against all choices and against what can be seen. */
import { describe, expect, test, vi } from 'vitest';
import type { Point, Polyline } from '../../shared/plane.js';
import { distance } from '../../src/geometry/point.js';
import { firstPoint, lastPoint, lengthOf } from '../../src/geometry/polyline.js';
import { type Graph, oddNodes, toggle } from '../../src/network/graph.js';
import { networkOf } from '../../src/network/network.js';
import { type Route, routeOf } from '../../src/route/plan.js';
import { endPairs } from '../../src/route/row-ends.js';
import { connectedStrokes, line, randomFrom } from '../mend/drawings.js';
import { distances, isClearCut, leastPairs, leastRepeated, noded } from '../mend/optimum.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

const graphOfLines = (...lines: Polyline[]) => networkOf(lines, 1e6).graph;
const total = (lines: readonly Polyline[]) => lines.reduce((sum, each) => sum + lengthOf(each), 0);

/** For each pair of ends: what it costs by itself, and with the least that a line between them stitches twice. */
function everyPair(drawing: Graph) {
  const { graph, pairs } = endPairs(drawing);
  const edges = graph.pieces.map(({ from, to, lengthMm }) => [from, to, lengthMm] as const);
  const far = distances({ nodes: graph.nodes, edges });
  return pairs.map(({ start, end, priceMm }) => {
    const odd = oddNodes(graph);
    toggle(odd, start);
    toggle(odd, end);
    const retraceMm = leastPairs([...odd], (a, b) => far[a][b]);
    return { start: graph.nodes[start], end: graph.nodes[end], priceMm, mm: priceMm + retraceMm };
  });
}

describe('of 100 random drawings in one part, with no new line within them,', () => {
  const random = randomFrom(3);
  const drawings: Graph[] = [];
  while (drawings.length < 100) {
    const strokes = connectedStrokes(random, 1 + Math.floor(4 * random()));
    if (isClearCut(noded(strokes), 0.4)) drawings.push(graphOfLines(...strokes));
  }
  /** What a line between the ends of this one costs. */
  const costOf = (route: Route, pairs: ReturnType<typeof everyPair>) => {
    const [start, end] = [firstPoint(route.line), lastPoint(route.line)];
    const here = pairs.filter((p) => distance(p.start, start) < 1e-6 && distance(p.end, end) < 1e-6);
    return Math.min(...here.map(({ priceMm }) => priceMm)) + route.retracedMm;
  };

  test('no pair of ends costs less', () => {
    for (const drawing of drawings) {
      const pairs = everyPair(drawing);
      const route = routeOf(drawing, { linkWeight: Infinity });
      expect(costOf(route, pairs)).toBeCloseTo(Math.min(...pairs.map(({ mm }) => mm)), 2);
      const drawn = total(drawing.pieces.map(({ line: piece }) => piece));
      expect(lengthOf(route.line)).toBeCloseTo(drawn + route.retracedMm, 4);
      expect(route).toMatchObject({ exact: true, atLeastMm: route.retracedMm, movedMm: 0 });
      expect(total(route.retraced)).toBeCloseTo(route.retracedMm, 6);
      expect([route.links, route.shortcuts, route.leads, route.linkedMm]).toEqual([[], [], [], 0]);
    }
  });

  test('nor where it matters to a row where they lie', () => {
    const rowMm = (start: Point, end: Point) => 3 * Math.abs(start.y + end.y - 50);
    for (const drawing of drawings) {
      const pairs = everyPair(drawing);
      const weighRow = (lines: readonly Polyline[]) => {
        expect(total(lines)).toBeCloseTo(total(drawing.pieces.map(({ line: piece }) => piece)), 6);
        return rowMm;
      };
      const route = routeOf(drawing, { linkWeight: Infinity, weighRow });
      const found = costOf(route, pairs) + rowMm(firstPoint(route.line), lastPoint(route.line));
      expect(found).toBeCloseTo(Math.min(...pairs.map(({ start, end, mm }) => mm + rowMm(start, end))), 2);
    }
  });

  test('between places that are given it is the least by trying all pairings', () => {
    for (const drawing of drawings) {
      const [start, end] = [0, drawing.nodes.length - 1];
      const edges = drawing.pieces.map(({ from, to, lengthMm }) => [from, to, lengthMm] as const);
      const route = routeOf(drawing, { linkWeight: Infinity, between: [start, end] });
      expect(distance(firstPoint(route.line), drawing.nodes[start])).toBeLessThan(1e-6);
      expect(distance(lastPoint(route.line), drawing.nodes[end])).toBeLessThan(1e-6);
      expect(route.retracedMm).toBeCloseTo(leastRepeated({ nodes: drawing.nodes, edges }, start, end), 6);
    }
  });

  // The cheapest six become lines.
  test('a line that comes out badly gives way to the next, up to the sixth', () => {
    let looked = 0;
    for (const drawing of drawings) {
      const pairs = everyPair(drawing);
      const cheapest = pairs.map(({ mm }) => mm).sort((a, b) => a - b);
      if (cheapest.length < 3) continue;
      looked++;
      const lines = Math.min(cheapest.length, 6);
      const bad = new Set<string>();
      const found = Array.from({ length: lines + 1 }, () => {
        const route = routeOf(drawing, { linkWeight: Infinity, weigh: (l) => (bad.has(l.join()) ? 1e6 : 0) });
        bad.add(route.line.join());
        return costOf(route, pairs);
      });
      for (const [k, mm] of found.entries()) expect(mm).toBeCloseTo(cheapest[k % lines], 2);
    }
    expect(looked).toBeGreaterThan(20);
  });

  test('what is wrong with a row is not counted again with its line', () => {
    for (const drawing of drawings) {
      const pairs = everyPair(drawing);
      const [first, second] = pairs.map(({ mm }) => mm).sort((a, b) => a - b);
      if (!(second - first > 0.1)) continue;
      const plain = routeOf(drawing, { linkWeight: Infinity }).line.join();
      const chosen = (worseMm: number) => {
        const weigh = (l: Polyline) => (l.join() === plain ? 50 + worseMm : 10);
        return costOf(routeOf(drawing, { linkWeight: Infinity, weigh, weighRow: () => () => 50 }), pairs);
      };
      expect(chosen((second - first) / 2)).toBeCloseTo(first, 2);
      expect(chosen(2 * (second - first))).toBeCloseTo(second, 2);
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

describe('what is said of a route', () => {
  test('what was drawn twice is stitched twice for nothing', () => {
    // A branch 30 mm high, drawn there and back; on a second one of 20 mm that was drawn once.
    const twice = [line(0, 0, 100, 0), line(40, 0, 40, 30), line(40, 30, 40, 0), line(70, 0, 70, 20)];
    const route = routeOf(graphOfLines(...twice), { linkWeight: Infinity });
    expect(route).toMatchObject({ exact: true, retracedMm: 20, atLeastMm: 20 });
    expect(route.retraced.map((each) => [...each].sort((a, b) => a - b))).toEqual([[0, 20, 70, 70]]);
    expect(lengthOf(route.line)).toBeCloseTo(100 + 2 * 30 + 2 * 20, 9);
  });

  // A square stands 5 mm above the line: there and back over the shortest link, and round it. And a post of 20 mm.
  test('links that are gone both ways are told, and their way back is stitched twice', () => {
    const square = line(50, 5, 55, 10, 50, 15, 45, 10, 50, 5);
    const route = routeOf(graphOfLines(line(0, 0, 100, 0), square, line(80, 0, 80, 20)), { linkWeight: 2 });
    expect(route).toMatchObject({ linksTwice: 1, linkedMm: 5, retracedMm: 25, shortcuts: [] });
    expect(total(route.retraced)).toBeCloseTo(20, 9);
    expect(route.links.map((each) => [...each].sort((a, b) => a - b))).toEqual([[0, 5, 50, 50]]);
  });

  // A post 30 mm high in the middle, and another 4 mm beside it: over the top it is 4 mm, at weight 2, instead of
  // twice 30.
  test('new line within a part is told by itself', () => {
    const posts = [line(0, 0, 100, 0), line(48, 0, 48, 30), line(52, 0, 52, 30)];
    const route = routeOf(graphOfLines(...posts), { linkWeight: 2 });
    // What lies between the feet is stitched twice.
    expect(route).toMatchObject({ retracedMm: 4, atLeastMm: 4, exact: true, links: [], linkedMm: 0 });
    expect(route.shortcuts.map((each) => [...each].sort((a, b) => a - b))).toEqual([[30, 30, 48, 52]]);
    expect(lengthOf(route.line)).toBeCloseTo(100 + 60 + 4 + 4, 9);
    // At a weight at which it is dearer than twice 30 mm.
    expect(routeOf(graphOfLines(...posts), { linkWeight: 16 })).toMatchObject({
      retracedMm: 60,
      shortcuts: [],
    });
  });

  // Squares on a corner, 10 mm wide and 20 mm from middle to middle.
  test('parts lie as far apart from repeat to repeat as within it', () => {
    const squares = [0, 20, 40].map((x) => line(x - 5, 0, x, -5, x + 5, 0, x, 5, x - 5, 0));
    const route = routeOf(graphOfLines(...squares), { linkWeight: 2 });
    const [start, end] = [firstPoint(route.line), lastPoint(route.line)];
    expect(end.x - start.x).toBeCloseTo(60, 9);
    expect(end.y).toBeCloseTo(start.y, 9);
    expect(route.leads.map((each) => [firstPoint(each), lastPoint(each)])).toMatchObject([
      [start, { x: -5 }],
      [{ x: 45 }, end],
    ]);
    expect(total(route.leads)).toBeCloseTo(10, 9);
    expect(route.linkedMm).toBeCloseTo(20, 9);
    expect(lengthOf(route.line)).toBeCloseTo(total(squares) + 10 + 20 + route.retracedMm, 6);
  });
});

// Looked at is one pair of ends in drawings as large as these.
test('a comb of 70 teeth: each tooth twice but the outermost, which are start and end', () => {
  const teeth = Array.from({ length: 70 }, (_, i) => line(10 * i, 0, 10 * i, 15));
  const route = routeOf(graphOfLines(line(0, 0, 690, 0), ...teeth), { linkWeight: Infinity });
  expect(route.retracedMm).toBeCloseTo(68 * 15, 6);
  expect([firstPoint(route.line), lastPoint(route.line)]).toEqual([
    { x: 0, y: 15 },
    { x: 690, y: 15 },
  ]);
});

test('ten bars: top and bottom in turn, from a loose end to a loose end', () => {
  const bars = Array.from({ length: 10 }, (_, i) => line(10 * i, 0, 10 * i, 30));
  const route = routeOf(graphOfLines(...bars), { linkWeight: 2 });
  expect(route).toMatchObject({ retracedMm: 0, linksTwice: 0 });
  expect(route.linkedMm).toBeCloseTo(90, 9);
});

// Every place of a ladder but its corners is odd; the nearest to each is 1 mm away. Between any two rungs a line from
// left to right has to go back over one of the two rails.
test('with more odd places than are paired exactly the least is bounded from below', () => {
  const rungs = 1010;
  const sides = [0, 1].map((y) => line(0, y, 1.5 * (rungs - 1), y));
  const graph = graphOfLines(
    ...sides,
    ...Array.from({ length: rungs }, (_, i) => line(1.5 * i, 0, 1.5 * i, 1)),
  );
  const route = routeOf(graph, { linkWeight: 2 });
  expect(route.exact).toBe(false);
  expect(route.atLeastMm).toBeGreaterThan(rungs - 5);
  expect(route.retracedMm).toBeGreaterThanOrEqual(route.atLeastMm);
  expect(route.retracedMm).toBeLessThanOrEqual(1.5 * (rungs - 1));
});
