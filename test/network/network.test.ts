/** Lines noded: where the nodes lie, what hangs together, and how far parts are apart, on drawings that can be seen. */
import { describe, expect, test, vi } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { distance } from '../../src/geometry/point.js';
import { lengthOf, moved, placeAlong, reversed, runningLengths } from '../../src/geometry/polyline.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { contactsOf, passesNear } from '../../src/network/contacts.js';
import { eachOnce } from '../../src/network/copies.js';
import { adjacencyOf, type Graph, oddNodes, partsOf, pieceOf, withNodesAt } from '../../src/network/graph.js';
import { networkOf } from '../../src/network/network.js';
import { betweenBoxes, Part, partsOfGraph } from '../../src/network/parts.js';
import { spanningTree } from '../../src/network/spanning.js';
import { randomFrom } from '../mend/drawings.js';
import { apartMm } from './apart.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

const line = (...xy: number[]) => Float64Array.from(xy);
const round = (mm: number) => +mm.toFixed(6);

/** "x y to x y, so long" of each piece. */
function piecesOf(...lines: Polyline[]): string[] {
  const { graph } = networkOf(lines, 1000);
  const place = (node: number) => `${round(graph.nodes[node].x)} ${round(graph.nodes[node].y)}`;
  return graph.pieces
    .map(({ from, to, lengthMm }) => `${[place(from), place(to)].sort().join(' to ')}, ${round(lengthMm)}`)
    .sort();
}

describe('contacts', () => {
  const contacts = (...lines: Polyline[]) =>
    contactsOf(new SegmentIndex(lines), 0.1, 1000).map(({ a, b, at, gapMm, kind }) => ({
      kind,
      at: [round(at.x), round(at.y)],
      gapMm: round(gapMm),
      along: [
        [a.line, round(a.alongMm)],
        [b.line, round(b.alongMm)],
      ].sort(([p], [q]) => p - q),
    }));

  test('lines that cross', () => {
    expect(contacts(line(0, 0, 100, 0), line(30, -10, 30, 40))).toEqual([
      {
        kind: 'crossing',
        at: [30, 0],
        gapMm: 0,
        along: [
          [0, 30],
          [1, 10],
        ],
      },
    ]);
  });

  // The end is drawn to the line, whichever of the two comes first in the file.
  test('an end on a line, up to 0.1 mm off', () => {
    const end = { kind: 'end', at: [30, 0], gapMm: 0.05 };
    expect(contacts(line(0, 0, 100, 0), line(30, 0.05, 30, 40))).toEqual([
      {
        ...end,
        along: [
          [0, 30],
          [1, 0],
        ],
      },
    ]);
    expect(contacts(line(30, 40, 30, 0.05), line(0, 0, 100, 0))).toEqual([
      {
        ...end,
        along: [
          [0, 39.95],
          [1, 30],
        ],
      },
    ]);
    expect(contacts(line(0, 0, 100, 0), line(30, 0.11, 30, 40))).toEqual([]);
    expect(contacts(line(0, 0, 100, 0), line(30, 0.1, 30, 40))).toHaveLength(1);
  });

  // Each gives way by half the gap.
  test('lines that touch in passing', () => {
    expect(contacts(line(0, 0, 100, 0), line(20, 30, 30, 0.08, 40, 30))).toEqual([
      {
        kind: 'touch',
        at: [30, 0.04],
        gapMm: 0.08,
        along: [
          [0, 30],
          [1, round(Math.hypot(10, 29.92))],
        ],
      },
    ]);
  });

  test('a line with itself, half a millimetre and more along it', () => {
    expect(contacts(line(0, 0, 50, 0, 50, 20, 20, 20, 20, -10))).toMatchObject([
      { kind: 'crossing', at: [20, 0] },
    ]);
    // Steps of 0.05 mm are within reach of one another, but the same stretch.
    expect(contacts(line(...Array.from({ length: 40 }, (_, i) => [i / 20, 0]).flat()))).toEqual([]);
  });

  // Lines that lie on one another for 10 mm touch about once in a millimetre.
  test('lines on one another, thinned out', () => {
    const wave = (dy: number) => line(...Array.from({ length: 101 }, (_, i) => [i / 10, dy]).flat());
    const touches = contacts(line(-50, -40, ...wave(0), 60, -40), line(-50, 40, ...wave(0.05), 60, 40));
    expect(touches.length).toBeGreaterThanOrEqual(9);
    expect(touches.length).toBeLessThanOrEqual(12);
    const along = touches.map(({ along: [[, mm]] }) => mm).sort((a, b) => a - b);
    for (let i = 1; i < along.length; i++) expect(along[i] - along[i - 1]).toBeGreaterThan(0.99);
  });

  test('more than the most are refused', () => {
    const comb = [line(0, 0, 100, 0), ...[10, 20, 30].map((x) => line(x, -5, x, 5))];
    expect(contactsOf(new SegmentIndex(comb), 0.1, 3)).toHaveLength(3);
    expect(() => contactsOf(new SegmentIndex(comb), 0.1, 2)).toThrow(
      'meet at more than 2 places: too many to route.',
    );
  });

  // Two lines in steps of 0.1 mm on one another: some places once thinned out, but hundreds of touches before.
  test('more touches than twice the most are refused before they are thinned out', () => {
    const dense = (dy: number) => line(...Array.from({ length: 101 }, (_, i) => [i / 10, dy]).flat());
    const index = new SegmentIndex([dense(0), dense(0.05)]);
    expect(contactsOf(index, 0.1, 1000).length).toBeLessThan(20);
    expect(() => contactsOf(index, 0.1, 20)).toThrow('meet at more than 20 places');
  });

  // A slow bow over a level line, 0.02 mm over it at x = 5 and 0.095 mm at the ends of its points.
  test('of a touch the closest place is kept', () => {
    const bow = line(
      ...Array.from({ length: 101 }, (_, i) => [i / 10, 0.02 + 0.003 * (i / 10 - 5) ** 2]).flat(),
    );
    const touches = contactsOf(new SegmentIndex([line(-20, 0, 30, 0), bow]), 0.1, 1000);
    const closest = touches.filter(({ kind }) => kind === 'touch').map(({ gapMm }) => gapMm);
    expect(Math.min(...closest)).toBeCloseTo(0.02, 9);
    expect(touches.some(({ at }) => Math.abs(at.x - 5) < 1e-9)).toBe(true);
  });

  // A tooth pattern comes down to within 0.05 mm of the level line twice, 0.4 mm apart on that but 10 mm along itself.
  test('of a line that comes back beside where it touched each touch is kept', () => {
    const teeth = line(10, 20, 10.1, 0.05, 10.3, 5, 10.5, 0.05, 10.6, 20);
    expect(contacts(line(0, 0, 30, 0), teeth)).toMatchObject([
      { kind: 'touch', gapMm: 0.05, at: [10.1, 0.025] },
      { kind: 'touch', gapMm: 0.05, at: [10.5, 0.025] },
    ]);
  });

  test('passes near a place, each where it is nearest', () => {
    const index = new SegmentIndex([
      line(0, 0, 100, 0),
      line(20, -10, 20, 10, 21, 10, 21, -10),
      line(0, 5, 50, 5),
    ]);
    const near = (x: number, y: number, reach: number) =>
      passesNear(index, { x, y }, reach).map(({ line: l, alongMm }) => [l, round(alongMm)]);
    expect(near(20, 0, 0.1)).toEqual([
      [1, 10],
      [0, 20],
    ]);
    expect(near(20.25, 0.5, 1)).toEqual([
      [1, 10.5],
      [0, 20.25],
      [1, 30.5],
    ]);
    expect(near(70, 0.05, 0.1)).toEqual([[0, 70]]);
    expect(near(70, 0.2, 0.1)).toEqual([]);
  });
});

describe('the network', () => {
  test('of lines that cross: cut there', () => {
    expect(piecesOf(line(0, 0, 100, 0), line(30, -10, 30, 40))).toEqual(
      ['0 0 to 30 0, 30', '100 0 to 30 0, 70', '30 -10 to 30 0, 10', '30 0 to 30 40, 40'].sort(),
    );
  });

  test('of an end near a line: one node, the pieces as they were drawn', () => {
    expect(piecesOf(line(0, 0, 100, 0), line(30, 0.05, 30, 40))).toEqual(
      ['0 0 to 30 0, 30', '100 0 to 30 0, 70', '30 0 to 30 40, 39.95'].sort(),
    );
  });

  test('of a loop: a piece from its node back to it', () => {
    // In at (20, 0), round a square of 20 and out again: the last leg crosses the first.
    const { graph, ends } = networkOf([line(0, 0, 40, 0, 40, 20, 20, 20, 20, -10)], 1000);
    expect(graph.nodes).toHaveLength(3);
    const loop = graph.pieces.find(({ from, to }) => from === to)!;
    expect(loop.lengthMm).toBeCloseTo(20 + 20 + 20 + 20, 9);
    expect(graph.nodes[loop.from]).toEqual({ x: 20, y: 0 });
    expect(ends.map(([from, to]) => [graph.nodes[from], graph.nodes[to]])).toEqual([
      [
        { x: 0, y: 0 },
        { x: 20, y: -10 },
      ],
    ]);
  });

  // There and back over the same 30 mm: folded at its tip, where a second line lies along it.
  test('of a line that turns right round: cut at the fold', () => {
    expect(piecesOf(line(0, 0, 30, 0, 10, 0))).toEqual(['0 0 to 10 0, 10', '10 0 to 30 0, 20']);
    const { graph } = networkOf([line(0, 0, 30, 0, 10, 0)], 1000);
    const twice = graph.pieces.find(({ copy }) => copy)!;
    expect(twice.lengthMm).toBeCloseTo(20, 9);
    expect(graph.pieces.filter(({ copy }) => copy)).toHaveLength(1);
  });

  // The place where lines cross comes before that of an end, and that before a touch: the others are drawn to it.
  test('of lines that cross, end and touch within a tenth of a millimetre: where they cross', () => {
    const touching = line(30.04, 30, 30.04, 0.06, 60, 30);
    const ending = line(30, 0.03, 0, 30);
    for (const lines of [
      [touching, ending, line(0, 0, 100, 0), line(30, -20, 30.02, 20)],
      [line(30, -20, 30.02, 20), line(0, 0, 100, 0), ending, touching],
    ]) {
      const { graph } = networkOf(lines, 1000);
      const near = graph.nodes.filter(({ x, y }) => Math.hypot(x - 30, y) < 1);
      expect(near).toHaveLength(1);
      expect(near[0].y).toBe(0);
      expect(near[0].x).toBeCloseTo(30.01, 9);
    }
  });

  // A third line along two that touch is cut there, too: each pair of stretches between the same two nodes is one.
  test('of three lines on one another: stitched once, and what is left of each', () => {
    const { graph } = networkOf(
      [line(0, 0, 60, 0), line(10, 0.02, 40, 0.02), line(20, 0.04, 50, 0.04)],
      1000,
    );
    expect(graph.pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0)).toBeCloseTo(60, 0);
    expect(oddNodes(graph).size).toBe(2);
  });

  test('of four curves on one another, each in steps of its own: little more than the longest', () => {
    const random = randomFrom(6);
    for (let round = 0; round < 10; round++) {
      const curve = (from: number, to: number, dy: number) => {
        const steps = Math.round((to - from) / (0.3 + random()));
        const at = (i: number) => from + (i * (to - from)) / steps;
        return line(
          ...Array.from({ length: steps + 1 }, (_, i) => [at(i), dy + 5 * Math.sin(at(i) / 8)]).flat(),
        );
      };
      const curves = [curve(0, 60, 0), curve(10, 40, 0.03), curve(20, 50, 0.06), curve(5, 30, -0.02)];
      const { graph } = networkOf(curves, 1e5);
      // Here and there a stretch of a step's length may be left twice.
      const lengthMm = graph.pieces.reduce((sum, piece) => sum + piece.lengthMm, 0);
      expect(Math.abs(lengthMm / lengthOf(curves[0]) - 1)).toBeLessThan(0.03);
    }
  });

  // The end lies 0.09 mm off the line, beside a crossing 0.05 mm on: that is its node, though it is 0.103 mm away.
  test('of an end near a line and near a crossing: one node, and no piece from the one to the other', () => {
    for (const ending of [line(30.05, 0.09, 60, 40), line(60, 40, 30.05, 0.09)])
      expect(piecesOf(line(0, 0, 100, 0), line(30, -10, 30, 10), ending)).toEqual(
        [
          '0 0 to 30 0, 30',
          '100 0 to 30 0, 70',
          '30 -10 to 30 0, 10',
          '30 0 to 30 10, 10',
          `30 0 to 60 40, ${round(Math.hypot(29.95, 39.91))}`,
        ].sort(),
      );
  });

  test('of crossings beside each other: one node up to a tenth of a millimetre, and no line lost between them', () => {
    const crossed = (apart: number) =>
      piecesOf(line(0, 0, 100, 0), line(30, -10, 30, 10), line(30 + apart, 10, 30 + apart, -10));
    const level = (pieces: string[]) =>
      pieces.filter((piece) => /^(0|100) 0 to|^30 0 to 30.15 0/.test(piece));
    expect(level(crossed(0.08))).toEqual(['0 0 to 30 0, 30', '100 0 to 30 0, 70']);
    expect(level(crossed(0.15))).toEqual([
      '0 0 to 30 0, 30',
      '100 0 to 30.15 0, 69.85',
      '30 0 to 30.15 0, 0.15',
    ]);
  });

  // Three lines through places no more than 0.06 mm apart, 200 times anywhere on the plane.
  test('of lines that all but cross in one place: one node, wherever it lies', () => {
    const random = randomFrom(8);
    for (let round = 0; round < 200; round++) {
      const [x, y] = [100 * random() - 50, 100 * random() - 50];
      const turned = 2 * Math.PI * random();
      const through = [0, 1, 2].map((k) => {
        const [cos, sin] = [Math.cos(turned + k), Math.sin(turned + k)];
        const aside = 0.02 * (random() - 0.5);
        const [u, v] = [x - aside * sin, y + aside * cos];
        return line(u - 20 * cos, v - 20 * sin, u + 20 * cos, v + 20 * sin);
      });
      const { graph } = networkOf(through, 1000);
      expect(graph.nodes).toHaveLength(7);
      expect(graph.pieces).toHaveLength(6);
    }
  });

  test('of a line that turns right round where it is drawn with repeated points', () => {
    const plain = piecesOf(line(0, 0, 30, 0, 10, 0));
    expect(piecesOf(line(0, 0, 30, 0, 30, 0, 10, 0))).toEqual(plain);
    expect(piecesOf(line(0, 0, 0, 0, 30, 0, 30, 0, 30, 0, 10, 0, 10, 0))).toEqual(plain);
    expect(piecesOf(line(0, 0, 0, 30, 0, 30, 0, 10))).toEqual(['0 0 to 0 10, 10', '0 10 to 0 30, 20']);
    // A turn of 169 degrees is none; one of 171 cuts what lies there.
    const turned = (degrees: number) => {
      const angle = Math.PI - (degrees * Math.PI) / 180;
      return piecesOf(line(0, 0, 30, 0, 30 - 25 * Math.cos(angle), 25 * Math.sin(angle)));
    };
    expect(piecesOf(line(7, 9, 37, 49, 22, 29))).toEqual(['22 29 to 37 49, 25', '22 29 to 7 9, 25']);
    expect(turned(169)).toHaveLength(1);
    expect(turned(171).length).toBeGreaterThan(1);
  });

  test('of lines far from the corner of the plane', () => {
    const far = (...xy: number[]) => line(...xy.map((value) => value + 5000));
    expect(piecesOf(far(0, 0, 100, 0), far(30, 0.05, 30, 40))).toEqual(
      ['5000 5000 to 5030 5000, 30', '5030 5000 to 5100 5000, 70', '5030 5000 to 5030 5040, 39.95'].sort(),
    );
  });

  test('of a closed line and of one that touches nothing', () => {
    const square = networkOf([line(0, 0, 10, 0, 10, 10, 0, 10, 0, 0)], 1000);
    expect(square.graph.nodes).toEqual([{ x: 0, y: 0 }]);
    expect(square.graph.pieces).toMatchObject([{ from: 0, to: 0, lengthMm: 40 }]);
    expect(square.ends).toEqual([[0, 0]]);
    expect(piecesOf(line(0, 0, 10, 0, 10, 10))).toEqual(['0 0 to 10 10, 20']);
  });

  test('of a speck: nothing, wherever it stands in the file', () => {
    const [speck, level] = [line(50, 30, 50.05, 30), line(0, 0, 100, 0)];
    for (const lines of [
      [speck, level],
      [level, speck],
    ]) {
      const { graph } = networkOf(lines, 1000);
      expect(graph.nodes).toEqual([
        { x: 0, y: 0 },
        { x: 100, y: 0 },
      ]);
      expect(graph.pieces).toMatchObject([{ from: 0, to: 1, lengthMm: 100 }]);
    }
  });

  test('of a line drawn twice: once, with its copy the way the first one goes', () => {
    const [one, other] = [line(0, 0, 30, 10, 60, 0), line(60, 0.05, 30, 10.05, 0, 0.05)];
    const { graph } = networkOf([one, other], 1000);
    expect(oddNodes(graph).size).toBe(2);
    expect(graph.pieces.every(({ copy }) => copy !== undefined)).toBe(true);
    for (const { line: first, copy } of graph.pieces) {
      expect(Math.abs(copy![0] - first[0])).toBeLessThan(0.2);
      expect(Math.abs(copy![copy!.length - 2] - first[first.length - 2])).toBeLessThan(0.2);
    }
  });
});

describe('pieces on one another', () => {
  const wave = (dy: number) =>
    line(...Array.from({ length: 21 }, (_, i) => [i, dy + Math.sin(i / 3)]).flat());
  const once = (...lines: [number, number, Polyline][]) =>
    eachOnce(
      lines.map(([from, to, each]) => pieceOf(from, to, each)),
      0.1,
    );
  test('are one, the first of the others its copy', () => {
    const [one] = once([0, 1, wave(0)], [1, 0, reversed(wave(0.08))], [0, 1, wave(0.05)]);
    expect(one.line).toEqual(wave(0));
    expect(one.copy).toEqual(wave(0.08));
    expect(once([0, 1, wave(0)], [0, 1, wave(0.05)])).toMatchObject([{ copy: wave(0.05) }]);
  });
  // Within 0.1 mm of the straight one all the way; a rise of 0.08 mm over each `step` makes it sqrt(1 + 0.08^2 / step^2)
  // times as long: 1.05 times over 0.25 mm, 1.28 times over 0.1 mm.
  test('are two where one of them is a tenth longer', () => {
    const jagged = (step: number) =>
      line(...Array.from({ length: 20 / step + 1 }, (_, i) => [i * step, 0.08 * (i % 2)]).flat());
    expect(once([0, 1, line(0, 0, 20, 0)], [0, 1, jagged(0.25)])).toHaveLength(1);
    expect(once([0, 1, line(0, 0, 20, 0)], [0, 1, jagged(0.1)])).toHaveLength(2);
  });

  test('are two where they part on the way, or lead to other places', () => {
    expect(once([0, 1, wave(0)], [0, 1, wave(0.3)])).toHaveLength(2);
    expect(once([0, 1, wave(0)], [0, 2, wave(0)])).toHaveLength(2);
    expect(once([0, 2, wave(0)], [1, 2, wave(0)])).toHaveLength(2);
    // A straight step against a bow whose corners all lie on it: the middle of the step is looked at as well.
    expect(once([0, 1, line(0, 0, 20, 0)], [0, 1, line(0, 0, 0.05, 0.9, 19.95, 0.9, 20, 0)])).toHaveLength(2);
    // A bow of 1 mm on a long straight step, and one whose corner alone stands off.
    expect(once([0, 1, line(0, 0, 20, 0)], [0, 1, line(0, 0, 10, 1, 20, 0)])).toHaveLength(2);
    expect(once([0, 1, line(0, 0, 10, 1, 20, 0)], [0, 1, line(0, 0, 20, 0)])).toHaveLength(2);
    const peak = (from: number, high: number) =>
      once([0, 1, line(0, 0, 20, 0)], [0, 1, line(0, 0, from, 0, from + 0.1, high, from + 0.2, 0, 20, 0)]);
    expect(peak(10.3, 0.5)).toHaveLength(2);
    // Narrow enough to stand between two places of the long steps that are looked at.
    expect(peak(10, 0.15)).toHaveLength(2);
    // Corner on corner, but in another order: up, over and down, or across, back and across.
    expect(once([0, 1, line(0, 0, 0, 20, 2, 20, 2, 0)], [0, 1, line(0, 0, 2, 20, 0, 20, 2, 0)])).toHaveLength(
      2,
    );
  });
});

describe('the graph', () => {
  const points = [
    [0, 0],
    [10, 0],
    [10, 5],
    [40, 0],
    [50, 0],
  ];
  const piece = (a: number, b: number) => pieceOf(a, b, line(...points[a], ...points[b]));
  const graph: Graph = {
    nodes: points.map(([x, y]) => ({ x, y })),
    pieces: [piece(0, 1), piece(1, 2), piece(3, 4), piece(4, 3)],
  };

  test('knows its parts and its odd places', () => {
    const { part, count } = partsOf(graph);
    expect(count).toBe(2);
    expect([...part]).toEqual([0, 0, 0, 1, 1]);
    expect([...oddNodes(graph)].sort()).toEqual([0, 2]);
  });

  test('knows what leaves each node', () => {
    const { first, halves } = adjacencyOf(graph);
    const at = (n: number) => [...halves.subarray(first[n], first[n + 1])].sort((a, b) => a - b);
    expect([0, 1, 2, 3, 4].map(at)).toEqual([[0], [1, 2], [3], [4, 7], [5, 6]]);
  });

  test('takes further nodes, near an end that end itself', () => {
    const { graph: finer, at } = withNodesAt(graph, [
      { piece: 0, alongMm: 7 },
      { piece: 0, alongMm: 4 },
      { piece: 0, alongMm: 0 },
      { piece: 0, alongMm: 10 },
      { piece: 0, alongMm: 4 },
      { piece: 1, alongMm: 2 },
    ]);
    expect(at[2]).toBe(0);
    expect(at[3]).toBe(1);
    expect(at[4]).toBe(at[1]);
    expect([at[0], at[1], at[5]].map((n) => finer.nodes[n])).toEqual([
      { x: 7, y: 0 },
      { x: 4, y: 0 },
      { x: 10, y: 2 },
    ]);
    expect(finer.nodes.slice(0, 5)).toEqual(graph.nodes);
    expect(finer.pieces.map(({ from, to, lengthMm }) => [from, to, round(lengthMm)])).toEqual([
      [0, at[1], 4],
      [at[1], at[0], 3],
      [at[0], 1, 3],
      [1, at[5], 2],
      [at[5], 2, 3],
      [3, 4, 10],
      [4, 3, 10],
    ]);
  });

  test('cuts what was drawn twice in both, in proportion', () => {
    const twice = { ...piece(0, 1), copy: line(0, 0, 0, 5, 10, 5, 10, 0) };
    const { graph: finer } = withNodesAt({ nodes: graph.nodes, pieces: [twice] }, [{ piece: 0, alongMm: 5 }]);
    // Half of 20 mm is at (5, 5).
    expect(finer.pieces.map(({ copy }) => [...copy!])).toEqual([
      [0, 0, 0, 5, 5, 5],
      [5, 5, 10, 5, 10, 0],
    ]);
  });
});

describe('parts', () => {
  const square = (x: number, y: number) => line(x, y, x + 10, y, x + 10, y + 10, x, y + 10, x, y);
  const partsIn = (...lines: Polyline[]) => partsOfGraph(networkOf(lines, 1000).graph);

  test('are as far apart as their nearest places, corner to line', () => {
    // The corner of a diamond at (50, 6) over the middle of a level line.
    const level = line(0, 0, 100, 0);
    const diamond = line(50, 6, 55, 11, 50, 16, 45, 11, 50, 6);
    // Closed lines have their nodes first.
    const [other, one] = partsIn(level, diamond);
    expect(one.linkTo(other)).toMatchObject({ lengthMm: 6, from: { alongMm: 50 } });
    expect(other.linkTo(one)).toMatchObject({ lengthMm: 6, to: { alongMm: 50 } });
    expect(one.linkTo(other)).toMatchObject({ from: { piece: 0 }, to: { piece: 1 } });
    // From corner to corner, slanting.
    const [a, b] = partsIn(square(0, 0), square(13, 14));
    expect(a.linkTo(b).lengthMm).toBeCloseTo(5, 9);
    expect(b.linkTo(a).lengthMm).toBeCloseTo(5, 9);
    expect([a.box, b.box]).toEqual([
      { minX: 0, minY: 0, maxX: 10, maxY: 10 },
      { minX: 13, minY: 14, maxX: 23, maxY: 24 },
    ]);
  });

  test('are linked where jsts finds them nearest, 400 random pairs of lines', () => {
    const random = randomFrom(12);
    const drawn = () => {
      const [x, y] = [200 * random() - 100, 200 * random() - 100];
      const steps = 2 + Math.floor(20 * random());
      return line(...Array.from({ length: 2 * steps }, (_, i) => (i % 2 ? y : x) + 30 * random()));
    };
    let looked = 0;
    while (looked < 400) {
      const lines = [drawn(), drawn()];
      const apart = apartMm(lines[0], lines[1]);
      if (apart === 0) continue;
      looked++;
      const [one, other] = lines.map((each, i) => new Part([i], [each]));
      const { from, to, lengthMm } = one.linkTo(other);
      expect(lengthMm).toBeCloseTo(apart, 9);
      expect([from.piece, to.piece]).toEqual([0, 1]);
      const [at, there] = [from, to].map(({ piece, alongMm }) =>
        placeAlong(lines[piece], runningLengths(lines[piece]), alongMm),
      );
      expect(distance(at, there)).toBeCloseTo(apart, 9);
    }
  });

  test('no two boxes are nearer than is said', () => {
    const box = (minX: number, minY: number) => ({ minX, minY, maxX: minX + 10, maxY: minY + 10 });
    expect(betweenBoxes(box(0, 0), box(13, 14))).toBe(5);
    expect(betweenBoxes(box(13, 14), box(0, 0))).toBe(5);
    expect(betweenBoxes(box(0, 0), box(5, 5))).toBe(0);
    expect(betweenBoxes(box(0, 0), box(5, 17))).toBe(7);
    expect(betweenBoxes(box(17, 5), box(0, 0))).toBe(7);
  });

  test('are held together by the shortest links', () => {
    // Squares in a row, 3, 5 and 2 mm apart.
    const tree = spanningTree(partsIn(square(0, 0), square(13, 0), square(28, 0), square(40, 0)));
    expect(tree.map(({ a, b, lengthMm }) => [Math.min(a, b), Math.max(a, b), round(lengthMm)])).toEqual([
      [2, 3, 2],
      [0, 1, 3],
      [1, 2, 5],
    ]);
    expect(spanningTree(partsIn(square(0, 0)))).toEqual([]);
    // 40 rows of 40 bars, 2 mm apart across and 4 mm down: rows are linked along, and one to the next.
    const bars = Array.from({ length: 1600 }, (_, i) =>
      moved(line(0, 0, 1, 0), 3 * (i % 40), 4 * Math.floor(i / 40)),
    );
    const many = spanningTree(partsIn(...bars)).map(({ lengthMm }) => round(lengthMm));
    expect(many).toEqual([...Array(40 * 39).fill(2), ...Array(39).fill(4)]);
  });

  // So many that only the nearest of each are looked at; of sixteen that stand apart these are the others of them.
  test('are held together where some of many stand far apart', () => {
    const block = (x: number, columns: number, rows: number) =>
      Array.from({ length: columns * rows }, (_, i) =>
        moved(line(0, 0, 1, 0), x + 3 * (i % columns), 3 * Math.floor(i / columns)),
      );
    const tree = spanningTree(partsIn(...block(0, 50, 30), ...block(1000, 4, 4)));
    expect(tree.map(({ lengthMm }) => round(lengthMm)).sort((a, b) => a - b)).toEqual([
      ...Array(30 * 49 + 4 * 3).fill(2),
      ...Array(29 + 3).fill(3),
      1000 - 148,
    ]);
  });
});
