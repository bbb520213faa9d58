/** Links between parts: where they can be seen, and held against every way to link a few parts. */
import { describe, expect, test, vi } from 'vitest';
import { distance } from '../../src/geometry/point.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { type Graph, oddNodes, partsOf, toggle, withNodesAt } from '../../src/network/graph.js';
import { networkOf } from '../../src/network/network.js';
import { partsOfGraph } from '../../src/network/parts.js';
import { isClear } from '../../src/route/clear.js';
import { linkParts, searchedParts } from '../../src/route/links.js';
import { randomFrom } from '../mend/drawings.js';
import { distances, leastPairs, leastRepeated } from '../mend/optimum.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

const line = (...xy: number[]) => Float64Array.from(xy);
const graphOfLines = (...lines: Float64Array[]) => networkOf(lines, 1000).graph;
const nodeAt = ({ nodes }: Graph, x: number, y: number) =>
  nodes.findIndex((node) => node.x === x && node.y === y);

const plainly = ({ nodes, pieces }: Graph) => ({
  nodes,
  edges: pieces.map(({ from, to, lengthMm }) => [from, to, lengthMm] as const),
});

describe('links', () => {
  const linksOf = (graph: Graph, start: number, end: number) => {
    const { graph: linked, firstLink } = linkParts(graph, start, end, 2);
    return linked.pieces.slice(firstLink).map(({ line: link }) => [...link].join(' '));
  };

  test('of one part: none', () => {
    const graph = graphOfLines(line(0, 0, 50, 0), line(20, -10, 20, 10));
    expect(linkParts(graph, 0, 1, 2)).toEqual({ graph, firstLink: 4 });
  });

  test('of lines in a row: end to end', () => {
    const graph = graphOfLines(line(0, 0, 30, 0), line(34, 3, 60, 0), line(63, 4, 90, 0));
    const [start, end] = [nodeAt(graph, 0, 0), nodeAt(graph, 90, 0)];
    expect(linksOf(graph, start, end).sort()).toEqual(['30 0 34 3', '60 0 63 4']);
  });

  // Bars 10 mm high and 4 mm apart. Linked at the bottom all along, each bar in between would be stitched twice, 10 mm
  // and two links of 4 mm at weight 2; top and bottom in turn nothing is.
  test('of bars: top and bottom in turn', () => {
    const graph = graphOfLines(...[0, 4, 8, 12].map((x) => line(x, 0, x, 10)));
    expect(linksOf(graph, nodeAt(graph, 0, 0), nodeAt(graph, 12, 0)).sort()).toEqual([
      '0 10 4 10',
      '4 0 8 0',
      '8 10 12 10',
    ]);
    expect(linksOf(graph, nodeAt(graph, 0, 10), nodeAt(graph, 12, 10)).sort()).toEqual([
      '0 0 4 0',
      '4 10 8 10',
      '8 0 12 0',
    ]);
  });

  // A ring off the line hangs by the shortest link, from the middle of the line to the corner of a square.
  test('of a part beside the way: the shortest', () => {
    const graph = graphOfLines(line(0, 0, 100, 0), line(50, 6, 55, 11, 50, 16, 45, 11, 50, 6));
    const [start, end] = [nodeAt(graph, 0, 0), nodeAt(graph, 100, 0)];
    expect(linksOf(graph, start, end)).toEqual(['50 6 50 0']);
  });

  // Bars 10 mm high, 4 mm apart and each a hair nearer to the next at its foot: the least spanning tree links foot to
  // foot, which leaves each bar but the last to be stitched twice. Up to `searchedParts` a better chain is looked for.
  test('of many parts: the least that holds them together', () => {
    const linkedMm = (count: number) => {
      const bars = Array.from({ length: count }, (_, i) => line(4 * i, 0, 4 * i, 10 + (i % 2) / 100));
      const graph = graphOfLines(...bars);
      const links = linksOf(graph, nodeAt(graph, 0, 0), nodeAt(graph, 4 * count - 4, 0));
      expect(links).toHaveLength(count - 1);
      return links.map((link) => link.split(' ').map(Number)).filter(([, ay, , by]) => ay > 0 || by > 0)
        .length;
    };
    expect(searchedParts).toBe(24);
    expect(linkedMm(24)).toBe(12);
    expect(linkedMm(25)).toBeLessThan(12);
  });
});

/** Bars, forks and squares, one in each cell of 40 mm, each turned anyhow. */
function randomParts(random: () => number, cells: readonly (readonly [number, number])[]): Graph {
  const shapes = [
    [[-12, 0, 12, 0]],
    [[-12, 0, 0, 4, 12, 0]],
    [
      [-12, 0, 12, 0],
      [2, 0, 2, 9],
    ],
    [[-7, -7, 7, -7, 7, 7, -7, 7, -7, -7]],
  ];
  const lines = cells.flatMap(([column, row]) => {
    const angle = 2 * Math.PI * random();
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    const [x, y] = [40 * column + 10 * random(), 40 * row + 10 * random()];
    return shapes[Math.floor(shapes.length * random())].map((xy) =>
      Float64Array.from(xy, (_, i) => {
        const [u, v] = [xy[i & ~1], xy[i | 1]];
        return i % 2 === 0 ? x + u * cos - v * sin : y + u * sin + v * cos;
      }),
    );
  });
  return graphOfLines(...lines);
}

/**
 * The least of links, at their weight, and of line stitched twice, the way back over links among it, by trying every
 * chain of parts from the start's to the end's. Links go between loose ends and the nearest places of two parts.
 */
function leastLinked(drawing: Graph, start: number, end: number, weight: number): number {
  const whole = partsOfGraph(drawing);
  const pairs = whole.flatMap((a, i) =>
    whole.slice(i + 1).map((b, j) => ({ i, j: i + 1 + j, ...a.linkTo(b) })),
  );
  const { graph, at } = withNodesAt(
    drawing,
    pairs.flatMap(({ from, to }) => [from, to]),
  );
  const { part, count } = partsOf(graph);
  const odd = oddNodes(graph);
  const far = distances(plainly(graph));
  const index = new SegmentIndex(graph.pieces.map((piece) => piece.line));
  const ends = Array.from({ length: count }, (_, p) =>
    [...new Set([...odd, ...at])].filter((node) => part[node] === p),
  );
  const retraceMm = (p: number, enter: number, leave: number) => {
    const places = new Set([...odd].filter((node) => part[node] === p));
    toggle(places, enter);
    toggle(places, leave);
    return leastPairs([...places], (a, b) => far[a][b]);
  };
  /** What is not in the chain: there and back, by the shortest links. */
  const hungMm = (chain: readonly number[]) => {
    let sum = 0;
    const held = new Set(chain);
    while (held.size < count) {
      const [next] = pairs
        .filter(({ i, j }) => held.has(i) !== held.has(j))
        .sort((p, q) => p.lengthMm - q.lengthMm);
      const p = held.has(next.i) ? next.j : next.i;
      sum += (1 + weight) * next.lengthMm + retraceMm(p, start, start);
      held.add(p);
    }
    return sum;
  };
  let least = Infinity;
  const goOn = (chain: readonly number[], entry: number, sofar: number) => {
    const here = chain[chain.length - 1];
    if (here === part[end]) {
      least = Math.min(least, sofar + retraceMm(here, entry, end) + hungMm(chain));
      return;
    }
    for (let p = 0; p < count; p++) {
      if (chain.includes(p)) continue;
      for (const a of ends[here])
        for (const b of ends[p]) {
          const [from, to] = [graph.nodes[a], graph.nodes[b]];
          const now = sofar + weight * distance(from, to);
          if (now >= least || !isClear(index, from, to)) continue;
          goOn([...chain, p], b, now + retraceMm(here, entry, a));
        }
    }
  };
  goOn([part[start]], start, 0);
  return least;
}

test.each([
  ['three in a row', 80, 80, [0, 1, 2].map((x) => [x, 0] as const)],
  ['four in a square', 80, 63, [0, 1, 2, 3].map((i) => [i & 1, i >> 1] as const)],
  ['a row of two over one of three', 20, 17, [0, 1, 2, 3, 4].map((i) => [i % 3, Math.floor(i / 3)] as const)],
])(
  'of %s, %d times: linked, never at less than the least of all ways, and %d times at that',
  (_, times, atLeast, cells) => {
    const random = randomFrom(cells.length);
    let least = 0;
    for (let round = 0; round < times; round++) {
      const graph = randomParts(random, cells);
      const nodes = [...graph.nodes.keys()].sort((a, b) => graph.nodes[a].x - graph.nodes[b].x);
      const [start, end] = [nodes[0], nodes[nodes.length - 1]];
      const weight = [1, 2, 5][round % 3];
      const { graph: linked, firstLink } = linkParts(graph, start, end, weight);
      const links = linked.pieces.slice(firstLink);
      expect(links).toHaveLength(cells.length - 1);
      expect(partsOf(linked).count).toBe(1);
      const costMm =
        weight * links.reduce((sum, { lengthMm }) => sum + lengthMm, 0) +
        leastRepeated(plainly(linked), start, end);
      const leastMm = leastLinked(graph, start, end, weight);
      expect(costMm).toBeGreaterThan(leastMm - 1e-6);
      if (costMm < leastMm + 1e-6) least++;
    }
    // Which chain to take is searched for step by step, and no more than eight links are looked at between two parts.
    expect(least).toBeGreaterThanOrEqual(atLeast);
  },
);
