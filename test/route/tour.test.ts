/** The straightest walk, held against every walk that there is, and where the turns can be worked out by hand. */
import { describe, expect, test, vi } from 'vitest';
import { type Graph, oddNodes, pieceOf } from '../../src/network/graph.js';
import { type Step, straightestTour } from '../../src/route/tour.js';
import { withTwins } from '../../src/route/twins.js';
import { randomFrom } from '../mend/drawings.js';
import { type At, graphOf, rad } from './graphs.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

/** The square of the turn from one straight step to the next. */
function squareOfTurn(graph: Graph, one: Step, two: Step): number {
  const angle = ({ piece, back }: Step) => {
    const [ax, ay, bx, by] = graph.pieces[piece].line;
    return Math.atan2(by - ay, bx - ax) + (back ? Math.PI : 0);
  };
  const turn = angle(two) - angle(one);
  return Math.atan2(Math.sin(turn), Math.cos(turn)) ** 2;
}

/** Of all turns of a walk, that from its end into its start among them. */
function turningOf(graph: Graph, steps: readonly Step[]): number {
  return steps.reduce(
    (sum, step, i) => sum + squareOfTurn(graph, steps[(i + steps.length - 1) % steps.length], step),
    0,
  );
}

/** The least turning of all walks through the passes, by walking them all. */
function leastTurning(graph: Graph, passes: readonly number[], start: number, end: number): number {
  let least = Infinity;
  const walked: Step[] = [];
  const left = new Set(passes.keys());
  const goOn = (at: number, sofar: number) => {
    if (sofar >= least) return;
    if (left.size === 0) {
      if (at === end) least = Math.min(least, turningOf(graph, walked));
      return;
    }
    for (const i of [...left]) {
      const piece = passes[i];
      const { from, to } = graph.pieces[piece];
      for (const back of [false, true]) {
        if ((back ? to : from) !== at) continue;
        const step = { piece, back };
        const turned = walked.length > 0 ? squareOfTurn(graph, walked[walked.length - 1], step) : 0;
        left.delete(i);
        walked.push(step);
        goOn(back ? from : to, sofar + turned);
        walked.pop();
        left.add(i);
      }
    }
  };
  goOn(start, 0);
  return least;
}

/** Throws where the steps do not hang together, or do not go through each pass once. */
function requireWalk(graph: Graph, steps: readonly Step[], passes: readonly number[], ends: At): void {
  let at = ends[0];
  for (const { piece, back } of steps) {
    const { from, to } = graph.pieces[piece];
    expect(at).toBe(back ? to : from);
    at = back ? from : to;
  }
  expect(at).toBe(ends[1]);
  expect(steps.map(({ piece }) => piece).sort((a, b) => a - b)).toEqual([...passes].sort((a, b) => a - b));
}

test('of 200 small drawings: a walk, its turning as measured, never less than the least and mostly that', () => {
  const random = randomFrom(11);
  let least = 0;
  let drawings = 0;
  while (drawings < 200) {
    const count = 3 + Math.floor(4 * random());
    const points = Array.from({ length: count }, (): At => [100 * random(), 100 * random()]);
    const edges = points.slice(1).map((_, i): At => [Math.floor((i + 1) * random()), i + 1]);
    while (edges.length < 9) edges.push([Math.floor(count * random()), Math.floor(count * random())]);
    const graph = graphOf(
      points,
      edges.filter(([a, b]) => a !== b),
    );
    const odd = [...oddNodes(graph)];
    if (odd.length > 2) continue;
    drawings++;
    const [start, end] = odd.length === 2 ? odd : [0, 0];
    const passes = [...graph.pieces.keys()];
    const { steps, turning } = straightestTour(graph, passes, start, end);
    requireWalk(graph, steps, passes, [start, end]);
    expect(turning).toBeCloseTo(turningOf(graph, steps), 9);
    const best = leastTurning(graph, passes, start, end);
    expect(turning).toBeGreaterThan(best - 1e-9);
    if (turning < best + 1e-9) least++;
  }
  // The order in which loops are taken in is a choice of the cheapest next one: not always the least.
  expect(least).toBeGreaterThanOrEqual(193);
});

test('lines that cross go straight on', () => {
  // A bow: a level line from the left to the right of (0, 0), from there round and down through it.
  const points: At[] = [
    [-10, 0],
    [0, 0],
    [10, 0],
    [0, 10],
    [0, -10],
  ];
  const edges: At[] = [
    [0, 1],
    [1, 2],
    [2, 3],
    [3, 1],
    [1, 4],
  ];
  const { steps, turning } = straightestTour(graphOf(points, edges), [0, 1, 2, 3, 4], 0, 4);
  expect(steps.map(({ piece }) => piece)).toEqual([0, 1, 2, 3, 4]);
  // Turns of 135 degrees at (10, 0) and at (0, 10), of 90 from the end into the next start.
  expect(turning).toBeCloseTo(2 * rad(135) ** 2 + rad(90) ** 2, 9);
});

describe('the direction of a piece at its end', () => {
  const into = pieceOf(0, 1, Float64Array.of(-10, 0, 0, 0));
  const nodes = [
    { x: -10, y: 0 },
    { x: 0, y: 0 },
    { x: 10, y: 0 },
  ];
  const turningInto = (...line: number[]) => {
    const graph = { nodes, pieces: [into, pieceOf(1, 2, Float64Array.from(line))] };
    return straightestTour(graph, [0, 1], 0, 2).turning;
  };
  // After a millimetre it has come to (0.4, 0.6).
  test('is that to the place a millimetre on', () =>
    expect(turningInto(0, 0, 0, 0.6, 10, 0.6)).toBeCloseTo(Math.atan2(0.6, 0.4) ** 2, 9));
  // Half of it is upright, half of it level.
  test('of a shorter piece is that to its middle', () =>
    expect(turningInto(0, 0, 0, 0.3, 0.3, 0.3)).toBeCloseTo((Math.PI / 2) ** 2, 9));
  // It leaves level, but comes in from above: the next repeat's start is a right angle off.
  test('is taken at the far end from there', () =>
    expect(turningInto(0, 0, 10, 0, 10, 5)).toBeCloseTo((Math.PI / 2) ** 2, 9));
});

test('a closed walk goes through all of its loops', () => {
  const loop = (degrees: number) => {
    const at = (turn: number, r: number) => [
      r * Math.cos(rad(degrees + turn)),
      r * Math.sin(rad(degrees + turn)),
    ];
    return pieceOf(0, 0, Float64Array.of(0, 0, ...at(-20, 10), ...at(20, 10), 0, 0));
  };
  for (const count of [1, 2, 3, 40]) {
    const pieces = Array.from({ length: count }, (_, k) => loop((360 * k) / count));
    const graph = { nodes: [{ x: 0, y: 0 }], pieces };
    const passes = [...pieces.keys()];
    const { steps, turning } = straightestTour(graph, passes, 0, 0);
    requireWalk(graph, steps, passes, [0, 0]);
    // A needle that goes straight through turns by nothing; at worst it turns right round each time.
    expect(turning).toBeLessThan(count * Math.PI ** 2);
  }
});

// Of n loops that leave at k 360 / n - 20 degrees and come in at k 360 / n + 20 degrees, with n = 36 every way in
// has a way out straight across. One closed trail through all of them in steps of 180 + 40 = 220 degrees closes after
// 18; crossing two trails over costs two turns of 10 degrees at least.
test('of more loops than are paired exactly the straightest pair is taken first', () => {
  const loop = (degrees: number) => {
    const at = (turn: number, r: number) => [
      r * Math.cos(rad(degrees + turn)),
      r * Math.sin(rad(degrees + turn)),
    ];
    return pieceOf(0, 0, Float64Array.of(0, 0, ...at(-20, 10), ...at(20, 10), 0, 0));
  };
  const pieces = Array.from({ length: 36 }, (_, k) => loop(10 * k));
  const { turning } = straightestTour({ nodes: [{ x: 0, y: 0 }], pieces }, [...pieces.keys()], 0, 0);
  expect(turning).toBeGreaterThan(0);
  expect(turning).toBeLessThan(40 * rad(10) ** 2);
});

test('passes that do not hang together are no walk', () => {
  const points: At[] = [
    [0, 0],
    [10, 0],
    [20, 0],
    [30, 10],
    [20, 20],
  ];
  const apart = graphOf(points, [
    [0, 1],
    [2, 3],
    [3, 4],
    [4, 2],
  ]);
  expect(() => straightestTour(apart, [0, 1, 2, 3], 0, 1)).toThrow('do not hang together');
});

describe('twins', () => {
  /** Stems that run into and out of rings of two halves; the lower half is `longer` times as long as the upper. */
  function rings(count: number, [into, out]: At, longer = 1): Graph {
    const nodes = Array.from({ length: count + 1 }, (_, k) => ({ x: 20 * k, y: 0 }));
    const start = { x: -20 * Math.cos(rad(into)), y: -20 * Math.sin(rad(into)) };
    const end = { x: 20 * count + 20 * Math.cos(rad(out)), y: 20 * Math.sin(rad(out)) };
    const pieces = [pieceOf(count + 1, 0, Float64Array.of(start.x, start.y, 0, 0))];
    for (let k = 0; k < count; k++)
      for (const sign of [-1, 1]) {
        const half = pieceOf(
          k,
          k + 1,
          Float64Array.of(20 * k, 0, 20 * k + 10, sign * (10 + 3 * k), 20 * k + 20, 0),
        );
        pieces.push(sign > 0 ? { ...half, lengthMm: longer * half.lengthMm } : half);
      }
    pieces.push(pieceOf(count, count + 2, Float64Array.of(20 * count, 0, end.x, end.y)));
    return { nodes: [...nodes, start, end], pieces };
  }

  const turningWith = (graph: Graph, again: readonly number[], count: number) =>
    straightestTour(graph, [...graph.pieces.keys(), ...again], count + 1, count + 2).turning;

  test.each([
    [50, 20],
    [-50, 20],
    [70, 80],
    [-70, 10],
    [30, -60],
  ])(
    'stems at %d and %d degrees: of one ring the half that turns less, of two rings the best of four ways',
    (...stems) => {
      const one = rings(1, stems);
      const least = Math.min(turningWith(one, [1], 1), turningWith(one, [2], 1));
      for (const first of [1, 2]) {
        const { tour, again } = withTwins(one, [first], 2, 3);
        expect(tour.turning).toBeCloseTo(least, 6);
        expect(turningWith(one, again, 1)).toBeCloseTo(least, 6);
      }
      const two = rings(2, stems);
      const ways = [1, 2].flatMap((a) => [3, 4].map((b) => turningWith(two, [a, b], 2)));
      for (const first of [1, 2])
        for (const second of [3, 4])
          expect(withTwins(two, [first, second], 3, 4).tour.turning).toBeCloseTo(Math.min(...ways), 6);
    },
  );

  test('differ in length by half a hundredth at most', () => {
    const [near, far] = [1.0049, 1.0051].map((longer) => rings(1, [50, 20], longer));
    const [upper, lower] = [1, 2].map((piece) => turningWith(near, [piece], 1));
    expect(Math.abs(upper - lower)).toBeGreaterThan(0.01);
    const [worse, better] = upper > lower ? [1, 2] : [2, 1];
    expect(withTwins(near, [worse], 2, 3).again).toEqual([better]);
    expect(withTwins(near, [better], 2, 3).again).toEqual([better]);
    expect(withTwins(far, [worse], 2, 3).again).toEqual([worse]);
  });

  test('are not exchanged where both are stitched twice anyway', () => {
    const one = rings(1, [50, 20]);
    // There and back over everything.
    expect(withTwins(one, [0, 1, 2, 3], 2, 2).again).toEqual([0, 1, 2, 3]);
  });
});
