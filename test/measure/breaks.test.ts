import { describe, expect, test } from 'vitest';
import type { Point, Polyline } from '../../shared/plane.js';
import { distance } from '../../src/geometry/point.js';
import { firstPoint, lastPoint, lengthOf, moved, pointsOf, reversed } from '../../src/geometry/polyline.js';
import { chainOf } from '../../src/measure/ends/breaks.js';
import { distanceTo } from '../checked.js';
import { curve, line, randomFrom, scribble, studied } from './lines.js';

/** Strokes of three random points each, here and there. */
function shortStrokes(seed: number, count: number): Polyline[] {
  const random = randomFrom(seed);
  return Array.from({ length: count }, (_, k) =>
    moved(scribble(seed * 100 + k, 3, 30, 20), 150 * random(), 90 * random()),
  );
}

/** Greedy linking of nearest ends of different chains, trying all pairs every time. */
function gapsByTryingAll(strokes: readonly Polyline[]): number[] {
  let chains: [Point, Point][] = strokes.map((stroke) => [firstPoint(stroke), lastPoint(stroke)]);
  const gaps: number[] = [];
  while (chains.length > 1) {
    let best = { gap: Infinity, a: 0, b: 0, i: 0, j: 0 };
    for (let a = 0; a < chains.length; a++) {
      for (let b = a + 1; b < chains.length; b++) {
        for (const i of [0, 1]) {
          for (const j of [0, 1]) {
            const gap = distance(chains[a][i], chains[b][j]);
            if (gap < best.gap) best = { gap, a, b, i, j };
          }
        }
      }
    }
    gaps.push(best.gap);
    const joined: [Point, Point] = [chains[best.a][1 - best.i], chains[best.b][1 - best.j]];
    chains = [...chains.filter((_, k) => k !== best.a && k !== best.b), joined];
  }
  return gaps;
}

test('breaks are those found by trying all pairs of ends', () => {
  for (let seed = 1; seed < 60; seed++) {
    const strokes = shortStrokes(seed, 2 + (seed % 23));
    const { breaks, entries } = chainOf(strokes);
    const order = Array.from(entries, (end) => ({ stroke: end >> 1, backwards: end % 2 === 1 }));
    const gaps = breaks.map(({ gapMm }) => gapMm).sort((a, b) => a - b);
    const expected = gapsByTryingAll(strokes).sort((a, b) => a - b);
    expect(gaps.length).toBe(strokes.length - 1);
    gaps.forEach((gap, i) => {
      expect(gap).toBeCloseTo(expected[i], 9);
    });
    expect(order.map(({ stroke }) => stroke).sort((a, b) => a - b)).toEqual(strokes.map((_, k) => k));
    // Each lies between the end of one stroke of the chain and the start of the next, as it walks them.
    const walked = order.map(({ stroke, backwards }) =>
      backwards ? reversed(strokes[stroke]) : strokes[stroke],
    );
    breaks.forEach(({ from, to, at, gapMm, shorterMm }, i) => {
      const beside = [walked[i], walked[i + 1]] as const;
      expect([from, to]).toEqual([lastPoint(beside[0]), firstPoint(beside[1])]);
      expect(gapMm).toBeCloseTo(distance(from, to), 9);
      expect([distance(at, from), distance(at, to)]).toEqual(Array(2).fill(expect.closeTo(gapMm / 2, 9)));
      expect(shorterMm).toBeCloseTo(Math.min(...beside.map(lengthOf)), 9);
    });
    // It walks more of the drawing as it was drawn than against it.
    const [along, against] = [false, true].map((way) =>
      order
        .filter(({ backwards }) => backwards === way)
        .reduce((sum, { stroke }) => sum + lengthOf(strokes[stroke]), 0),
    );
    expect(along).toBeGreaterThanOrEqual(against);
  }
});

/** The links of ends, two by two as [earlier, later]: of all pairs the nearest first, and of those as near the first in the drawing. */
function linksByTryingAll(strokes: readonly Polyline[]): string[] {
  const ends = strokes.flatMap((stroke) => [firstPoint(stroke), lastPoint(stroke)]);
  const pairs = ends.flatMap((at, i) =>
    ends.slice(i + 1).map((other, k) => ({ i, j: i + 1 + k, mm: distance(at, other) })),
  );
  pairs.sort((p, q) => p.mm - q.mm || p.i - q.i || p.j - q.j);
  const isLinked = new Set<number>();
  const chains = ends.map((_, end) => end >> 1);
  const links: string[] = [];
  for (const { i, j } of pairs) {
    const [chain, other] = [chains[i], chains[j]];
    if (chain === other || isLinked.has(i) || isLinked.has(j)) continue;
    isLinked.add(i).add(j);
    chains.forEach((each, end) => {
      if (each === other) chains[end] = chain;
    });
    links.push(`${i} ${j}`);
  }
  return links.sort();
}

test('of gaps as wide as each other the first in the drawing is linked first', () => {
  const onGrid = (random: () => number, count: number, side: number) =>
    Array.from({ length: count }, () => line(...[1, 2, 3, 4].map(() => Math.floor(side * random()))));
  for (let seed = 1; seed <= 60; seed++) {
    const random = randomFrom(seed);
    const strokes = onGrid(random, 2 + ((7 * seed) % 39), 4 + (seed % 30));
    const { entries } = chainOf(strokes);
    const found = Array.from(entries.subarray(1), (end, i) => [entries[i] ^ 1, end].sort((a, b) => a - b));
    expect(found.map(([i, j]) => `${i} ${j}`).sort()).toEqual(linksByTryingAll(strokes));
  }
});

test('so are those of spokes that all end in one place, of closed lines, and of lines on a grid', () => {
  const spokes = Array.from({ length: 24 }, (_, k) => line(0, 0, 30 * Math.cos(k), 30 * Math.sin(k)));
  const closed = Array.from({ length: 16 }, (_, k) => {
    const [x, y] = [7 * (k % 4), 7 * Math.floor(k / 4)];
    return line(x, y, x + 2, y + 1, x + 1, y + 3, x, y);
  });
  const net = Array.from({ length: 30 }, (_, k) => line(k % 6, k >> 1, (k % 6) + 1, k >> 1));
  // A heap of ends a millionth of a millimetre apart, and a line a metre away.
  const heap = Array.from({ length: 40 }, (_, k) => line(1e-6 * ((k * 17) % 40), 0, 20, k));
  for (const strokes of [spokes, closed, net, [...heap, line(1000, 0, 1000, 9)], [...spokes, ...closed]]) {
    const gaps = chainOf(strokes).breaks.map(({ gapMm }) => gapMm);
    expect(gaps).toHaveLength(strokes.length - 1);
    // Of equal gaps any may be first, and what is left then differs: but the least gap does not.
    expect(Math.min(...gaps)).toBeCloseTo(Math.min(...gapsByTryingAll(strokes)), 9);
  }
  // However the chain goes through the hub, all the gaps there are nothing.
  const hub = chainOf(spokes).breaks.map(({ gapMm }) => gapMm);
  expect(hub.filter((mm) => mm < 1e-9)).toHaveLength(12);
});

test('twenty thousand spokes from one place are chained, two by two through it', () => {
  const spokes = Array.from({ length: 20_000 }, (_, k) =>
    line(5, 5, 5 + 90 * Math.cos(k), 5 + 90 * Math.sin(k)),
  );
  expect(chainOf(spokes).breaks.filter(({ gapMm }) => gapMm === 0)).toHaveLength(10_000);
});

test('spokes of several hubs, too many to try in pairs, are chained two by two through each', () => {
  const hubs = [
    { x: 5, y: 5, spokes: 81 },
    { x: 5.0001, y: 5, spokes: 80 },
    { x: 5, y: 5.0001, spokes: 90 },
    { x: 5, y: 8, spokes: 100 },
    { x: 9, y: 5, spokes: 71 },
  ];
  const spoke = ({ x, y }: Point, k: number) => {
    const drawn = line(x, y, x + (40 + k) * Math.cos(k + 9 * y), y + (40 + k) * Math.sin(k + 9 * y));
    return k % 3 ? drawn : reversed(drawn);
  };
  const inTurn = hubs.flatMap((hub) => Array.from({ length: hub.spokes }, (_, k) => spoke(hub, k)));
  const byTurns = Array.from({ length: 100 }, (_, k) =>
    hubs.filter(({ spokes }) => k < spokes).map((hub) => spoke(hub, k)),
  );
  for (const drawn of [inTurn, byTurns.flat()]) {
    const { breaks } = chainOf(drawn);
    expect(breaks).toHaveLength(drawn.length - 1);
    const inHubs = breaks.filter(({ gapMm }) => gapMm === 0).map(({ at }) => `${at.x} ${at.y}`);
    for (const { x, y, spokes } of hubs)
      expect(inHubs.filter((at) => at === `${x} ${y}`)).toHaveLength(Math.floor(spokes / 2));
  }
});

test('a break has its place, its gap and the shorter of the strokes beside it', () => {
  const { breaks } = studied([line(0, 0, 50, 0), line(53, 4, 60, 4), line(60, 4.5, 60, 90)]);
  const told = breaks.map(({ from, to, at, gapMm, shorterMm }) => ({ from, to, at, gapMm, shorterMm }));
  expect(told).toEqual([
    { from: { x: 50, y: 0 }, to: { x: 53, y: 4 }, at: { x: 51.5, y: 2 }, gapMm: 5, shorterMm: 7 },
    { from: { x: 60, y: 4 }, to: { x: 60, y: 4.5 }, at: { x: 60, y: 4.25 }, gapMm: 0.5, shorterMm: 7 },
  ]);
});

test('file order and direction do not matter for where the breaks are', () => {
  const wave = curve(100, (t) => [100 * t, 20 * Math.sin(7 * t)]);
  const pieces = [wave.slice(0, 62), wave.slice(62, 100), wave.slice(100, 140), wave.slice(140)];
  const plain = studied(pieces);
  const mixed = studied([reversed(pieces[2]), pieces[0], reversed(pieces[3]), pieces[1]]);
  const places = (study: typeof plain) => study.breaks.map(({ at }) => at.x.toFixed(9)).sort();
  expect(places(mixed)).toEqual(places(plain));
  expect(plain.breaks).toHaveLength(3);
});

test('one stroke is what has no gap beyond the join tolerance', () => {
  const broken = (gap: number) => studied([line(0, 0, 50, 0), line(50 + gap, 0, 100, 0)]);
  expect(broken(0.3).isOneStroke).toBe(true);
  expect(broken(5).isOneStroke).toBe(false);
  expect(broken(0.3).start.at).toEqual({ x: 0, y: 0 });
  expect(broken(0.3).end.at).toEqual({ x: 100, y: 0 });
  expect(broken(0.3).repeat).toEqual({ dx: 100, dy: 0, assumed: false });
  expect(broken(5).repeat).toEqual({ dx: 100, dy: 0, assumed: true });
});

describe('how far apart the parts lie', () => {
  test('is nothing where strokes cross, touch or meet a line on its way, wherever their ends are', () => {
    expect(studied([line(0, 0, 100, 60), line(0, 60, 100, 0)]).partGapsMm).toEqual([]);
    expect(studied([line(0, 0, 100, 0), line(40, 0, 40, 30)]).partGapsMm).toEqual([]);
    expect(studied([line(0, 0, 100, 0), line(0, 0.05, 100, 0.05)]).partGapsMm).toEqual([]);
    expect(studied([line(0, 0, 100, 0)]).partGapsMm).toEqual([]);
  });

  test('is taken from line to line: two level lines and a square between them', () => {
    const square = line(40, 10, 50, 10, 50, 20, 40, 20, 40, 10);
    expect(studied([line(0, 0, 100, 0), square, line(0, 25, 100, 25)]).partGapsMm).toEqual([10, 5]);
  });

  test('agrees with the least spanning tree over the distances of all pairs (Prim 1957)', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const random = randomFrom(seed);
      const strokes = Array.from({ length: 8 }, () => {
        const [x, y] = [200 * random(), 100 * random()];
        return Float64Array.from({ length: 8 }, (_, i) => (i % 2 ? y : x) + 25 * random());
      });
      const gapOf = (a: Polyline, b: Polyline) => {
        const corners = (from: Polyline, to: Polyline) =>
          Math.min(...Array.from(pointsOf(from), (at) => distanceTo(to, at)));
        const crossings = (...lines: Polyline[]) => studied(lines).crossings.places.length;
        return crossings(a, b) > crossings(a) + crossings(b) ? 0 : Math.min(corners(a, b), corners(b, a));
      };
      const tree: number[] = [];
      const left = new Set(strokes.slice(1));
      const reached = [strokes[0]];
      while (left.size > 0) {
        const pairs = [...left].map((to) => ({
          to,
          mm: Math.min(...reached.map((from) => gapOf(from, to))),
        }));
        const { to, mm } = pairs.sort((p, q) => p.mm - q.mm)[0];
        if (mm > 0.1) tree.push(mm);
        left.delete(to);
        reached.push(to);
      }
      const found = studied(strokes).partGapsMm!;
      expect(found).toHaveLength(tree.length);
      tree
        .sort((a, b) => b - a)
        .forEach((mm, i) => {
          expect(found[i]).toBeCloseTo(mm, 6);
        });
    }
  });
});
