import { expect, test } from 'vitest';
import { type Graph, oddNodes, toggle } from '../../src/network/graph.js';
import { leastPairing } from '../../src/route/matching.js';
import { exactOdd, leastRetrace } from '../../src/route/retrace.js';
import { straightestTour } from '../../src/route/tour.js';
import { graphOf } from '../route/graphs.js';
import { randomFrom } from './drawings.js';
import { distances, leastPairs, leastRepeated } from './optimum.js';

function oddFor(graph: Graph, start: number, end: number): Set<number> {
  const odd = oddNodes(graph);
  toggle(odd, start);
  toggle(odd, end);
  return odd;
}

/** As the independent working-out wants it. */
function plainly({ nodes, pieces }: Graph) {
  return { nodes, edges: pieces.map(({ from, to, lengthMm }) => [from, to, lengthMm] as const) };
}

function isWalk(graph: Graph, passes: readonly number[], start: number, end: number): boolean {
  let at = start;
  const used: number[] = [];
  for (const { piece, back } of straightestTour(graph, passes, start, end).steps) {
    const { from, to } = graph.pieces[piece];
    if (at !== (back ? to : from)) return false;
    at = back ? from : to;
    used.push(piece);
  }
  return at === end && used.sort((a, b) => a - b).join() === [...passes].sort((a, b) => a - b).join();
}

test('pairs are least: 3,000 small graphs, dense and sparse, with and without ties, against all pairings', () => {
  const random = randomFrom(1);
  for (let round = 0; round < 3000; round++) {
    const count = 2 * (2 + Math.floor(4 * random()));
    const most = [3, 100, 1e6][round % 3];
    const weights = new Map<number, number>();
    const links = [];
    for (let a = 0; a < count; a++)
      for (let b = a + 1; b < count; b++) {
        if (random() < 0.3 * (round % 2)) continue;
        const weight = Math.floor(most * random());
        weights.set(a * count + b, weight);
        links.push({ a, b, weight });
      }
    const weightOf = (a: number, b: number) =>
      weights.get(Math.min(a, b) * count + Math.max(a, b)) ?? Infinity;
    const least = leastPairs([...Array(count).keys()], weightOf);
    if (least === Infinity) continue;
    const partner = leastPairing(count, links);
    const total = [...partner].reduce((sum, b, a) => sum + weightOf(a, b), 0) / 2;
    expect(total).toBe(least);
  }
});

/**
 * L. Euler, "Solutio problematis ad geometriam situs pertinentis" (1736): four pieces of land A (the island, five
 * bridges), B, C, D (three each); sewn with one bridge twice for an open line, two for a closed one.
 */
test('seven bridges: one is sewn twice for an open line, two for a closed one', () => {
  // Banks B and C, the island A, the land D to the east; each bridge by way of its own middle, all ways 2 long.
  const land: [number, number][] = [
    [0, 0],
    [0, 2],
    [0, -2],
    [2, 0],
  ];
  const bridges = [
    [0, 1],
    [0, 1],
    [0, 2],
    [0, 2],
    [0, 3],
    [1, 3],
    [2, 3],
  ] as const;
  const graph: Graph = {
    nodes: land.map(([x, y]) => ({ x, y })),
    pieces: bridges.map(([a, b]) => ({
      from: a,
      to: b,
      line: Float64Array.of(...land[a], ...land[b]),
      lengthMm: 2,
    })),
  };
  expect([...oddNodes(graph)].sort()).toEqual([0, 1, 2, 3]);
  const open = leastRetrace(graph, oddFor(graph, 1, 2));
  expect(open.pieces.length).toBe(1);
  const closed = leastRetrace(graph, oddFor(graph, 1, 1));
  expect(closed.pieces.length).toBe(2);
  expect(isWalk(graph, [...bridges.keys(), ...open.pieces], 1, 2)).toBe(true);
  expect(isWalk(graph, [...bridges.keys(), ...closed.pieces], 1, 1)).toBe(true);
});

test('600 random graphs with up to 10 odd nodes: the least that trying every pairing finds, and it can be walked', () => {
  const random = randomFrom(2);
  const seen = new Set<number>();
  for (let round = 0; round < 600; round++) {
    const count = 6 + Math.floor(8 * random());
    const points = Array.from({ length: count }, () => [100 * random(), 100 * random()] as [number, number]);
    const edges: [number, number][] = points.slice(1).map((_, i) => [Math.floor((i + 1) * random()), i + 1]);
    for (let extra = Math.floor(count * random()); extra > 0; extra--)
      edges.push([Math.floor(count * random()), Math.floor(count * random())]);
    const graph = graphOf(
      points,
      edges.filter(([a, b]) => a !== b),
    );
    const [start, end] = [0, count - 1];
    const odd = oddFor(graph, start, end);
    if (odd.size > 10) continue;
    seen.add(odd.size);
    const found = leastRetrace(graph, odd);
    expect(found.exact).toBe(true);
    expect(found.lengthMm).toBeCloseTo(leastRepeated(plainly(graph), start, end), 6);
    expect(isWalk(graph, [...graph.pieces.keys(), ...found.pieces], start, end)).toBe(true);
  }
  for (const size of [4, 6, 8, 10]) expect(seen).toContain(size);
});

/**
 * A graph in which the least pairing needs a way through a third odd place (1 to 6 by way of 0), twenty times in a
 * chain. Its places to pair: all but 2.
 */
test('pairs whose way runs through another odd place are found among many', () => {
  const lengths = [
    [0, 1, 20.2],
    [1, 2, 73],
    [2, 3, 44.9],
    [0, 4, 24.2],
    [3, 5, 27.7],
    [0, 6, 34.5],
    [6, 3, 43.2],
    [4, 5, 65.5],
  ] as const;
  const count = 20;
  const graph = (times: number): Graph => {
    const line = Float64Array.of(0, 0, 0, 0);
    const pieces: Graph['pieces'][number][] = [];
    for (let k = 0; k < times; k++) {
      for (const [a, b, lengthMm] of lengths) pieces.push({ from: 7 * k + a, to: 7 * k + b, lengthMm, line });
      if (k > 0) pieces.push({ from: 7 * k - 5, to: 7 * k + 2, lengthMm: 1000, line });
    }
    return { nodes: Array.from({ length: 7 * times }, () => ({ x: 0, y: 0 })), pieces };
  };
  const places = [0, 1, 3, 4, 5, 6];
  const far = distances(plainly(graph(1)));
  const one = leastPairs(places, (a, b) => far[a][b]);
  const odd = new Set([...Array(count).keys()].flatMap((k) => places.map((place) => 7 * k + place)));
  expect(leastRetrace(graph(count), odd).lengthMm).toBeCloseTo(count * one, 9);
});

/** A ladder whose rungs are 1 long and `step` apart: every place on it but the four corners is odd. */
function ladder(rungs: number, step: number): Graph {
  const points: [number, number][] = [];
  const edges: [number, number][] = [];
  for (let i = 0; i < rungs; i++) {
    points.push([i * step, 0], [i * step, 1]);
    edges.push([2 * i, 2 * i + 1]);
    if (i > 0) edges.push([2 * i - 2, 2 * i], [2 * i - 1, 2 * i + 1]);
  }
  return graphOf(points, edges);
}

test('near-least beyond the exact limit: walkable, and as near as it says', () => {
  const rungs = exactOdd / 2 + 100;
  const graph = ladder(rungs, 1.5);
  const odd = oddNodes(graph);
  expect(odd.size).toBeGreaterThan(exactOdd);
  const least = ladderLeast(rungs);
  const found = leastRetrace(graph, odd);
  expect(found.exact).toBe(false);
  expect(found.atLeastMm).toBeLessThanOrEqual(least);
  expect(found.lengthMm).toBeGreaterThanOrEqual(least - 1e-6);
  expect(found.lengthMm).toBeLessThan(1.05 * least);
  expect(isWalk(graph, [...graph.pieces.keys(), ...found.pieces], 0, 0)).toBe(true);
});

/** By trying every pairing on short ladders: a rung more costs one rung more. */
function ladderLeast(rungs: number): number {
  const short = [4, 5, 6].map((n) => leastRepeated(plainly(ladder(n, 1.5)), 0, 0));
  expect(short[1] - short[0]).toBeCloseTo(1, 9);
  expect(short[2] - short[1]).toBeCloseTo(1, 9);
  return short[2] + (rungs - 6);
}
