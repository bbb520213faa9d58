/** Least retracing and pairing where the answer can be seen, and beyond what is paired exactly. */
import { describe, expect, test, vi } from 'vitest';
import { type Graph, oddNodes, toggle } from '../../src/network/graph.js';
import { leastPairing } from '../../src/route/matching.js';
import { exactOdd, leastRetrace, searchWork } from '../../src/route/retrace.js';
import { randomFrom } from '../mend/drawings.js';
import { distances, leastRepeated } from '../mend/optimum.js';
import { type At, graphOf } from './graphs.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

const plainly = ({ nodes, pieces }: Graph) => ({
  nodes,
  edges: pieces.map(({ from, to, lengthMm }) => [from, to, lengthMm] as const),
});

/** The places where the repeated pieces leave an odd number of passes: those that were asked for. */
function turnedOdd(graph: Graph, pieces: readonly number[]): number[] {
  const odd = new Set<number>();
  for (const piece of pieces) {
    toggle(odd, graph.pieces[piece].from);
    toggle(odd, graph.pieces[piece].to);
  }
  return [...odd].sort((a, b) => a - b);
}

const sorted = (places: Iterable<number>) => [...places].sort((a, b) => a - b);

// A tree has one way from place to place: a piece is repeated where an odd number of odd places lies beyond it.
test('of a tree: the pieces beyond which an odd number of odd places lies', () => {
  const tree = graphOf(
    [
      [0, 0],
      [10, 0],
      [20, 0],
      [20, 5],
      [10, 7],
      [10, 9],
    ],
    [
      [0, 1],
      [1, 2],
      [2, 3],
      [1, 4],
      [4, 5],
    ],
  );
  // Odd are 0, 1, 3 and 5, where one and three pieces end.
  expect(sorted(oddNodes(tree))).toEqual([0, 1, 3, 5]);
  const all = { pieces: [0, 1, 2, 3, 4], lengthMm: 34, atLeastMm: 34, exact: true };
  expect(leastRetrace(tree, oddNodes(tree))).toEqual(all);
  expect(leastRetrace(tree, new Set([1, 3]))).toEqual({
    pieces: [1, 2],
    lengthMm: 15,
    atLeastMm: 15,
    exact: true,
  });
  expect(leastRetrace(tree, new Set([0, 5]))).toMatchObject({ pieces: [0, 3, 4], lengthMm: 19 });
  expect(leastRetrace(tree, new Set())).toEqual({ pieces: [], lengthMm: 0, atLeastMm: 0, exact: true });
});

// Round a square of 10 with a twig of 3: from one corner to the opposite one either way is 20.
test('of a ring with a twig: along the shorter side, and the twig', () => {
  const ring = graphOf(
    [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
      [-3, 0],
    ],
    [
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 0],
      [0, 4],
    ],
  );
  expect(leastRetrace(ring, new Set([4, 1]))).toMatchObject({ pieces: [0, 4], lengthMm: 13, exact: true });
  expect(leastRetrace(ring, new Set([3, 1]))).toMatchObject({ lengthMm: 20 });
  expect(leastRetrace(ring, new Set([0, 1, 2, 3]))).toMatchObject({ lengthMm: 20 });
});

test('of parts that do not touch each by itself', () => {
  const two = graphOf(
    [
      [0, 0],
      [4, 0],
      [100, 0],
      [100, 6],
    ],
    [
      [0, 1],
      [2, 3],
    ],
  );
  expect(leastRetrace(two, new Set([0, 1, 2, 3]))).toMatchObject({ pieces: [0, 1], lengthMm: 10 });
});

test('of 200 dense graphs, where every odd place is next to every other: the least by trying all pairings', () => {
  const random = randomFrom(5);
  for (let round = 0; round < 200; round++) {
    const count = 6;
    const points = Array.from({ length: count }, (): At => [100 * random(), 100 * random()]);
    const edges: At[] = [];
    for (let a = 0; a < count; a++)
      for (let b = a + 1; b < count; b++) if (random() < 0.85) edges.push([a, b]);
    const graph = graphOf(points, edges);
    const odd = oddNodes(graph);
    for (const node of [0, 1]) toggle(odd, node);
    const least = leastRepeated(plainly(graph), 0, 1);
    if (least === Infinity) continue;
    const { pieces, lengthMm } = leastRetrace(graph, odd);
    expect(lengthMm).toBeCloseTo(least, 6);
    expect(lengthMm).toBeCloseTo(
      pieces.reduce((sum, piece) => sum + graph.pieces[piece].lengthMm, 0),
      9,
    );
    expect(turnedOdd(graph, pieces)).toEqual(sorted(odd));
  }
});

// Sparse, so that few places are next to each other: grids of 8 by 8 places with streets of any length. The least is the
// least pairing of all places by all distances.
test('of 30 grids with some thirty odd places: the least of all pairings', () => {
  const random = randomFrom(9);
  const side = 8;
  for (let round = 0; round < 30; round++) {
    const nodes = Array.from({ length: side * side }, () => ({ x: 0, y: 0 }));
    const line = Float64Array.of(0, 0, 0, 0);
    const street = (from: number, to: number) => ({
      from,
      to,
      line,
      lengthMm: 1 + Math.floor(50 * random()),
    });
    const pieces = [...nodes.keys()].flatMap((n) => [
      ...(n % side < side - 1 ? [street(n, n + 1)] : []),
      ...(n + side < nodes.length ? [street(n, n + side)] : []),
    ]);
    const graph = { nodes, pieces };
    const odd = new Set([...nodes.keys()].filter(() => random() < 0.5));
    if (odd.size % 2 === 1) toggle(odd, 0);
    const far = distances(plainly(graph));
    const places = [...odd];
    const all = places.flatMap((p, a) =>
      places.slice(a + 1).map((q, i) => ({ a, b: a + 1 + i, weight: far[p][q] })),
    );
    const least = leastPairing(places.length, all).reduce(
      (sum, b, a) => sum + far[places[a]][places[b]] / 2,
      0,
    );
    const { pieces: again, lengthMm, exact } = leastRetrace(graph, odd);
    expect(exact).toBe(true);
    expect(lengthMm).toBeCloseTo(least, 9);
    expect(turnedOdd(graph, again)).toEqual(sorted(odd));
  }
});

// A hub with more rays than places are paired exactly, each of two pieces: where the tips are odd, all of it; where the
// middles are, the inner halves.
test('of a tree of any size: exact', () => {
  const rays = exactOdd + 2;
  const points = Array.from({ length: rays }, (_, i): At[] => [
    [i, 1],
    [i, 3],
  ]);
  const edges = points.flatMap((_, i): At[] => [
    [0, 1 + 2 * i],
    [1 + 2 * i, 2 + 2 * i],
  ]);
  const star = graphOf([[0, 0], ...points.flat()], edges);
  const tips = new Set(points.map((_, i) => 2 + 2 * i));
  const middles = new Set(points.map((_, i) => 1 + 2 * i));
  expect(leastRetrace(star, tips)).toMatchObject({ exact: true, pieces: [...edges.keys()] });
  expect(leastRetrace(star, middles)).toMatchObject({
    exact: true,
    pieces: [...edges.keys()].filter((p) => p % 2 === 0),
  });
});

describe('more odd places than are paired exactly', () => {
  // Pairs of places 1 apart, the pairs 10 apart along a ring, numbered anyhow: each pair along its own piece. Half of the
  // sum of the distances to the nearest is that, too, so that the bound is the answer.
  const pairs = exactOdd / 2 + 200;
  const random = randomFrom(4);
  const order = Array.from({ length: 2 * pairs }, (_, i) => ({ i, key: random() }))
    .sort((a, b) => a.key - b.key)
    .map(({ i }) => i);
  const points: At[] = [];
  for (const [i, n] of order.entries()) points[n] = [11 * (i >> 1) + (i & 1), 0];
  const edges = order.map((n, i): At => [n, order[(i + 1) % order.length]]);
  const own = Array.from({ length: pairs }, (_, k) => 2 * k);
  const ring = graphOf(points, edges);
  test('are paired with their nearest, and the bound says so', () => {
    const { pieces, lengthMm, atLeastMm, exact } = leastRetrace(ring, new Set(points.keys()));
    expect(exact).toBe(false);
    expect(lengthMm).toBeCloseTo(pairs, 6);
    expect(atLeastMm).toBeCloseTo(pairs, 6);
    expect(pieces).toEqual(own);
  });
  test('and one more with a twig of 7 mm: that is bounded by itself', () => {
    // The twig stands in the middle between the first two pairs.
    const [middle, tip] = [points.length, points.length + 1];
    const split = edges.flatMap(([a, b], i): At[] =>
      i === 1
        ? [
            [a, middle],
            [middle, b],
          ]
        : [[a, b]],
    );
    const twig = graphOf([...points, [6, 0], [6, 7]], [...split, [middle, tip]]);
    const { lengthMm, atLeastMm, exact } = leastRetrace(twig, new Set(twig.nodes.keys()));
    expect(exact).toBe(false);
    expect(lengthMm).toBeCloseTo(pairs + 7, 6);
    expect(atLeastMm).toBeCloseTo(pairs + 7, 6);
  });
  test('up to the most they are paired exactly', () => {
    const places = order.slice(0, exactOdd);
    expect(leastRetrace(ring, new Set(places))).toMatchObject({
      exact: true,
      pieces: own.slice(0, exactOdd / 2),
    });
    expect(leastRetrace(ring, new Set(order.slice(0, exactOdd + 2)))).toMatchObject({ exact: false });
  });
  // A ladder, its rungs 1 mm long and 1.5 mm apart, its places numbered anyhow: all but the corners are odd, and the least
  // is every rung between them.
  test('are paired among those that lie beside them, however they are numbered', () => {
    const rungs = exactOdd / 2 + 100;
    const keys = Array.from({ length: 2 * rungs }, (_, i) => ({ i, key: random() }));
    const number = keys.sort((a, b) => a.key - b.key).map(({ i }) => i);
    const at: At[] = [];
    const bars: At[] = [];
    for (let k = 0; k < rungs; k++) {
      const [foot, top] = [number[2 * k], number[2 * k + 1]];
      at[foot] = [1.5 * k, 0];
      at[top] = [1.5 * k, 1];
      bars.push([foot, top]);
      if (k > 0) bars.push([number[2 * k - 2], foot], [number[2 * k - 1], top]);
    }
    const ladder = graphOf(at, bars);
    const { lengthMm, atLeastMm, exact } = leastRetrace(ladder, new Set(sorted(oddNodes(ladder))));
    expect(exact).toBe(false);
    expect(lengthMm).toBeCloseTo(rungs - 2, 6);
    expect(atLeastMm).toBeCloseTo(rungs - 2, 6);
  });
  // Stars of a hub and three arms of 1 mm, a loop at the tip of each, the hubs 50 mm apart: one arm pairs its tip with
  // its hub, and the other two go together, though the hub lies between them.
  test('are all paired, those too that find none beside them at first', () => {
    const stars = exactOdd / 4 + 10;
    const at: At[] = [];
    const streets: At[] = [];
    for (let k = 0; k < stars; k++) {
      at.push([50 * k, 0], [50 * k, 1], [50 * k, -1], [50 * k + 1, 0]);
      for (const arm of [1, 2, 3]) streets.push([4 * k, 4 * k + arm], [4 * k + arm, 4 * k + arm]);
      if (k > 0) streets.push([4 * k - 4, 4 * k]);
    }
    streets.push([4 * stars - 4, 0]);
    const graph = graphOf(at, streets);
    expect(oddNodes(graph).size).toBe(4 * stars);
    const { pieces, lengthMm, exact } = leastRetrace(graph, oddNodes(graph));
    expect(exact).toBe(false);
    expect(turnedOdd(graph, pieces)).toEqual(sorted(oddNodes(graph)));
    expect(lengthMm).toBeCloseTo(3 * stars, 6);
  });
});

describe('pairing', () => {
  // The two shortest pairs leave the two farthest: 1 + 10 is more than 4 + 4.
  test('is least over all, not the nearest first', () => {
    const links = [
      { a: 0, b: 1, weight: 1 },
      { a: 0, b: 2, weight: 4 },
      { a: 1, b: 3, weight: 4 },
      { a: 2, b: 3, weight: 10 },
    ];
    expect([...leastPairing(4, links)]).toEqual([2, 3, 0, 1]);
    expect([
      ...leastPairing(
        4,
        links.map((link) => ({ ...link, weight: link.weight === 10 ? 6 : link.weight })),
      ),
    ]).toEqual([1, 0, 3, 2]);
  });
  test('pairs as many as there are links for before it looks at weights', () => {
    const path = [
      { a: 0, b: 1, weight: 100 },
      { a: 1, b: 2, weight: 1 },
      { a: 2, b: 3, weight: 100 },
    ];
    expect([...leastPairing(4, path)]).toEqual([1, 0, 3, 2]);
    expect([...leastPairing(5, path)]).toEqual([1, 0, 3, 2, -1]);
    expect([...leastPairing(2, [])]).toEqual([-1, -1]);
  });
  test('tells weights apart to a thousandth', () => {
    const links = [
      { a: 0, b: 1, weight: 1 },
      { a: 2, b: 3, weight: 1 },
      { a: 0, b: 2, weight: 1.001 },
      { a: 1, b: 3, weight: 0.998 },
    ];
    expect([...leastPairing(4, links)]).toEqual([2, 3, 0, 1]);
  });
});

// On a ring of steps of 1 mm odd places stand in pairs, next to each other and far from the next pair: 1 mm a pair is least.
test.each([0.8, 2])(
  'of pairs on a ring, %d times what is searched exactly: each pair by its step',
  (times) => {
    const steps = 20_000;
    const at = Array.from({ length: steps }, (_, i): At => (i < steps / 2 ? [i, 0] : [steps - 1 - i, 1]));
    const ring = graphOf(
      at,
      at.map((_, i): [number, number] => [i, (i + 1) % steps]),
    );
    const pairs = (times * searchWork) / steps / 2;
    const odd = Array.from({ length: pairs }, (_, k) => 15 * k);
    const found = leastRetrace(ring, new Set(odd.flatMap((place) => [place, place + 1])));
    expect(found.pieces).toEqual(odd);
    expect(found.exact).toBe(times < 1);
  },
);
