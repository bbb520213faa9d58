import { expect, test, vi } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { distance, turnDeg } from '../../src/geometry/point.js';
import {
  boundsOf,
  chained,
  firstPoint,
  lastPoint,
  lengthOf,
  moved,
  placeAlong,
  pointsOf,
  reversed,
  runningLengths,
  stretchOf,
} from '../../src/geometry/polyline.js';
import { segmentCrossing } from '../../src/geometry/segment.js';
import { studyOf } from '../../src/measure/index.js';
import { mendMotif } from '../../src/mend/index.js';
import { type Graph, type PlaceOnPiece, withNodesAt } from '../../src/network/graph.js';
import { networkOf } from '../../src/network/network.js';
import { routeOf } from '../../src/route/plan.js';
import { motifOf } from '../../src/size/motif-of.js';
import { distanceTo } from '../checked.js';
import { circle, connectedStrokes, line, randomFrom } from './drawings.js';
import { distances, isClearCut, leastPairs, leastRepeated, type Noded, noded, oddPlaces } from './optimum.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

test('too many pieces to route are told as that, a line that is a row already is none', () => {
  const setup = { ...defaultSetup, limits: { ...defaultSetup.limits, routed: 11 } };
  const net = (lines: number) =>
    Array.from({ length: lines }, (_, k) => [line(0, 9 * k, 40, 9 * k), line(9 * k, 0, 9 * k, 40)]).flat();
  const mended = (strokes: readonly Polyline[]) => mendMotif(motifOf(strokes), setup, { only: ['route'] });
  // Two lines across two make four places and four pieces more than that.
  expect(mended(net(2)).motif.strokes).toHaveLength(1);
  expect(() => mended(net(3))).toThrow(
    /more than 11 pieces of line between the places where they meet: too many to route/,
  );
  expect(() => mended(Array.from({ length: 12 }, (_, k) => line(9 * k, 0, 9 * k, 40)))).toThrow(/to route/);
});

function routed(lines: readonly Polyline[], linkWeight = 2) {
  return routeOf(networkOf(lines, 1e6).graph, { linkWeight });
}

/** The corner of the drawing at this x. */
function placeOn({ pieces }: Graph, x: number): PlaceOnPiece {
  const piece = pieces.findIndex(({ line }) => line.some((v, i) => i % 2 === 0 && v === x));
  const corner = pieces[piece].line.findIndex((v, i) => i % 2 === 0 && v === x) / 2;
  return { piece, alongMm: runningLengths(pieces[piece].line)[corner] };
}

function total(lines: readonly Polyline[]): number {
  return lines.reduce((sum, part) => sum + lengthOf(part), 0);
}

/** How far the drawing strays from the route at most, looked at every half millimetre. */
function farthestFrom(route: Polyline, lines: readonly Polyline[]): number {
  let most = 0;
  for (const part of lines) {
    const run = runningLengths(part);
    for (let mm = 0; mm <= run[run.length - 1]; mm += 0.5)
      most = Math.max(most, distanceTo(route, placeAlong(part, run, mm)));
    for (const at of pointsOf(part)) most = Math.max(most, distanceTo(route, at));
  }
  return most;
}

function cusps(route: Polyline): number {
  let count = 0;
  for (let i = 2; i + 3 < route.length; i += 2) {
    const turn = turnDeg(
      route[i] - route[i - 2],
      route[i + 1] - route[i - 1],
      route[i + 2] - route[i],
      route[i + 3] - route[i + 1],
    );
    if (turn > 179.9) count++;
  }
  return count;
}

test('500 random drawings: one stroke, all covered, the least length that retracing from the leftmost to the rightmost place can have', () => {
  let drawings = 0;
  let retracing = 0;
  for (let seed = 0; drawings < 500; seed++) {
    const random = randomFrom(seed);
    const lines = connectedStrokes(random, 2 + Math.floor(5 * random()));
    const graph = noded(lines);
    const box = boundsOf(lines);
    if (!isClearCut(graph, 0.4)) continue;
    drawings++;
    const start = graph.nodes.findIndex(({ x }) => x === box.minX);
    const end = graph.nodes.findIndex(({ x }) => x === box.maxX);
    const least = leastRepeated(graph, start, end);
    const { graph: network } = networkOf(lines, 1e6);
    const fine = withNodesAt(network, [placeOn(network, box.minX), placeOn(network, box.maxX)]);
    const route = routeOf(fine.graph, { linkWeight: Infinity, between: [fine.at[0], fine.at[1]] });
    expect(distance(firstPoint(route.line), graph.nodes[start])).toBeLessThan(1e-6);
    expect(distance(lastPoint(route.line), graph.nodes[end])).toBeLessThan(1e-6);
    expect(lengthOf(route.line) - total(lines)).toBeCloseTo(least, 5);
    expect(route.retracedMm).toBeCloseTo(least, 5);
    expect(farthestFrom(route.line, lines)).toBeLessThan(1e-6);
    for (const at of pointsOf(route.line))
      expect(Math.min(...lines.map((l) => distanceTo(l, at)))).toBeLessThan(1e-6);
    if (least > 0) retracing++;
  }
  expect(retracing).toBeGreaterThan(400);
});

test('300 random drawings: with new line at twice its length, no pairing by retracing and straight clear links costs less', () => {
  const between = (graph: Noded, a: number, b: number) => {
    const [p, q] = [graph.nodes[a], graph.nodes[b]];
    const isCrossed = graph.edges.some(([c, d]) => {
      if ([a, b].includes(c) || [a, b].includes(d)) return false;
      const [r, s] = [graph.nodes[c], graph.nodes[d]];
      return segmentCrossing(p.x, p.y, q.x, q.y, r.x, r.y, s.x, s.y) !== null;
    });
    return isCrossed ? Infinity : 2 * distance(p, q);
  };
  let drawings = 0;
  let linked = 0;
  for (let seed = 0; drawings < 300; seed++) {
    const random = randomFrom(seed);
    const lines = connectedStrokes(random, 2 + Math.floor(3 * random()));
    const graph = noded(lines);
    if (!isClearCut(graph, 0.4)) continue;
    drawings++;
    const box = boundsOf(lines);
    const { graph: network } = networkOf(lines, 1e6);
    const fine = withNodesAt(network, [placeOn(network, box.minX), placeOn(network, box.maxX)]);
    const route = routeOf(fine.graph, { linkWeight: 2, between: [fine.at[0], fine.at[1]] });
    const odd = new Set(oddPlaces(graph));
    for (const x of [box.minX, box.maxX]) {
      const n = graph.nodes.findIndex((node) => node.x === x);
      if (!odd.delete(n)) odd.add(n);
    }
    const far = distances(graph);
    const least = leastPairs([...odd], (a, b) => Math.min(far[a][b], between(graph, a, b)));
    const cost = route.retracedMm + 2 * total(route.shortcuts);
    // Places are paired by whole thousandths.
    expect(cost).toBeLessThanOrEqual(least + 0.01);
    expect(lengthOf(route.line)).toBeCloseTo(total(lines) + route.retracedMm + total(route.shortcuts), 4);
    expect(farthestFrom(route.line, lines)).toBeLessThan(1e-6);
    if (route.shortcuts.length > 0) linked++;
  }
  expect(linked).toBeGreaterThan(30);
});

test('a ring that overhangs the natural end of a wave is taken in, and the row goes on from that end', () => {
  // By hand: along the wave to where the ring touches it, round the ring, on to the end. Nothing is stitched twice.
  const wave = Float64Array.from(
    Array.from({ length: 401 }, (_, i) => [i / 2, 60 - 15 * Math.sin((i / 200) * Math.PI)]).flat(),
  );
  const ring = circle(190, wave[2 * 380 + 1] - 18, 18, 90, 720);
  const { motif, accounts } = mendMotif(motifOf([wave, ring]), defaultSetup, { only: ['route'] });
  expect(accounts[0].message).toContain('nothing is stitched twice');
  const { repeat } = studyOf(motif, defaultSetup);
  expect(repeat.dx).toBeCloseTo(200, 1);
  expect(repeat.dy).toBeCloseTo(0, 1);
});

test('a vein that stops short of the tip of its leaf goes on to it over new line, not back over its own', () => {
  const half = (sign: number) =>
    Float64Array.from(
      Array.from({ length: 81 }, (_, i) => [60 + i, 60 + sign * 30 * Math.sin((i / 80) * Math.PI)]).flat(),
    );
  const drawn = [line(0, 60, 60, 60), half(1), half(-1), line(60, 60, 125, 60), line(140, 60, 200, 60)];
  const { motif, accounts } = mendMotif(motifOf(drawn), defaultSetup, { only: ['route'] });
  expect(accounts[0].addedMm).toBeCloseTo(15, 2);
  expect(studyOf(motif, defaultSetup).retraces.totalMm).toBe(0);
  expect(mendMotif(motif, defaultSetup, { only: ['route'] }).accounts).toEqual([]);
});

test('rings in a row come back as far apart from repeat to repeat as they are from one to the next', () => {
  // Rings of radius 20, 70 apart: 30 between them, so leads of 15, and a repeat of 3 times 70.
  const rings = [0, 70, 140].map((x) => circle(x, 0, 20, 180, 720));
  const { motif } = mendMotif(motifOf(rings), defaultSetup, { only: ['route'] });
  expect(studyOf(motif, defaultSetup).repeat.dx).toBeCloseTo(210, 1);
  expect(studyOf(motif, defaultSetup).repeatMeeting(0.8)).toMatchObject({ crossings: [] });
});

/** An Archimedean spiral of four turns, which ends at (x + 40, 0) outside and near (x, 0) inside. */
function spiral(x: number): Polyline {
  return Float64Array.from(
    Array.from({ length: 401 }, (_, i) => {
      const [radius, angle] = [2 + (38 * i) / 400, (8 * Math.PI * i) / 400];
      return [x + radius * Math.cos(angle), radius * Math.sin(angle)];
    }).flat(),
  );
}

test.each([
  ['two spirals', [spiral(0), spiral(93)]],
  [
    'two spirals face to face',
    [spiral(0), spiral(93).map((value, i) => (i % 2 === 0 ? 200 - value : value))],
  ],
  ['rings that touch', [0, 40, 80, 120, 160, 200].map((x) => circle(x, 0, 20, 0.3, 360))],
  ['hooks that stand free', [0, 110].map((x) => moved(hook(), x, 0))],
])('no repeat of %s is laid over the next', (_, drawn) => {
  const { motif } = mendMotif(motifOf(drawn), defaultSetup, { reshape: true });
  const { repeat, repeatMeeting, widthMm } = studyOf(motif, defaultSetup);
  expect(repeat.assumed).toBe(false);
  expect(repeat.dy).toBeCloseTo(0, 1);
  expect(widthMm - repeat.dx).toBeLessThan(1);
  expect(repeatMeeting(0.8)).toMatchObject({ crossings: [], lyingMm: 0 });
});

test.each([
  ['that stand free', [0, 100].map((x) => moved(spiral(0).subarray(0, 400), x, 0))],
  [
    'on a vine',
    [
      line(-200, 80, 20, 80, 300, 80),
      chained([line(20, 80, 40, 20), reversed(spiral(0)).map((v, i) => (i % 2 ? v + 20 : v))]),
    ],
  ],
])('no new line cuts through the rings of spirals %s', (_, drawn) => {
  const { accounts, motif } = mendMotif(motifOf(drawn), defaultSetup, { reshape: true });
  expect(accounts.map(({ message }) => message).join(' ')).not.toContain('of new line');
  // Once more is not better.
  expect(mendMotif(motif, defaultSetup, { reshape: true }).accounts).toEqual([]);
});

test('what is said to be stitched twice is what is found so afterwards', () => {
  const wave = Float64Array.from(
    Array.from({ length: 101 }, (_, i) => [2 * i, 100 + 12 * Math.sin((i / 50) * Math.PI)]).flat(),
  );
  const { accounts, motif } = mendMotif(motifOf([wave, moved(spiral(100), 0, 40)]), defaultSetup, {
    only: ['route'],
  });
  const [said] = /\(([\d.]+) mm\) of it is stitched twice/.exec(accounts[0].message)!.slice(1).map(Number);
  expect(Math.abs(studyOf(motif, defaultSetup).retraces.totalMm - said)).toBeLessThan(0.05 * said);
});

/** Up from the left, and round into a curl. */
function hook(): Polyline {
  const stem = Array.from({ length: 41 }, (_, i) => [(50 * i) / 40, 90 - 30 * (i / 40) ** 2]);
  const curl = Array.from({ length: 100 }, (_, i) => {
    const [radius, angle] = [28 - 0.22 * i, 2.8 * Math.PI * (i / 100)];
    return [50 + radius * Math.sin(angle), 32 + radius * Math.cos(angle)];
  });
  return Float64Array.from([...stem, ...curl].flat());
}

test('a vine whose leaves are closed loops that touch the stem comes out with no retrace at all', () => {
  const stem = Float64Array.from(
    Array.from({ length: 401 }, (_, i) => [i / 2, 10 * Math.sin((i / 2) * (Math.PI / 50))]).flat(),
  );
  const onStem = (x: number) => 10 * Math.sin(x * (Math.PI / 50));
  // Leaves that begin on the stem, that pass it by within the touch distance, and that are drawn from elsewhere.
  const leaves = [25, 75, 125, 175].map((x, i) => {
    const side = i % 2 === 0 ? 1 : -1;
    const gap = [0, 0.03, -0.02, 0.06][i];
    return circle(x, onStem(x) + side * (6 + gap), 6, i);
  });
  const route = routed([stem, ...leaves]);
  expect(route.retracedMm).toBe(0);
  expect(route.links).toEqual([]);
  expect(lengthOf(route.line)).toBeCloseTo(total([stem, ...leaves]), 0);
  expect(farthestFrom(route.line, [stem, ...leaves])).toBeLessThan(0.1);
});

test('two crossing strokes: one leg back', () => {
  // The four legs are 50 long; only one must be come back along, since start and end are at two of the four tips.
  const route = routed([line(0, 0, 80, 60), line(0, 60, 80, 0)]);
  expect(route.retracedMm).toBeCloseTo(100, 9);
  expect(lengthOf(route.line)).toBeCloseTo(300, 9);
});

test('two waves that cross three times and share both ends: straight through, nothing twice', () => {
  const wave = (sign: number) =>
    Float64Array.from(
      Array.from({ length: 241 }, (_, i) => [i / 2, sign * 15 * Math.sin((i / 2) * (Math.PI / 30))]).flat(),
    );
  const route = routed([line(-10, 0, 0, 0), wave(1), line(120, 0, 130, 0), wave(-1), wave(0)]);
  expect(route.retracedMm).toBe(0);
  expect(cusps(route.line)).toBe(0);
});

test('a comb: each tooth twice but the outermost, which are start and end', () => {
  const teeth = [0, 20, 40, 60, 80];
  const route = routed([line(0, 0, 80, 0), ...teeth.map((x) => line(x, 0, x, 15))]);
  expect(route.retracedMm).toBeCloseTo(3 * 15, 9);
  expect(firstPoint(route.line)).toEqual({ x: 0, y: 15 });
  expect(lastPoint(route.line)).toEqual({ x: 80, y: 15 });
});

test('a tree: every twig twice, the way from the left tip to the right one once', () => {
  const twigs = [line(30, 0, 40, 20), line(35, 10, 25, 18), line(60, 0, 70, -15), line(65, -7.5, 60, -16)];
  const route = routed([line(0, 0, 100, 0), ...twigs]);
  expect(route.retracedMm).toBeCloseTo(total(twigs), 9);
  expect(cusps(route.line)).toBe(twigs.length);
});

test('parts in a row are linked end to end, once each', () => {
  const route = routed([line(34, 0, 60, 0), line(30, 0, 0, 0), line(65, 0, 100, 0)]);
  expect(route.retracedMm).toBe(0);
  expect(route.linkedMm).toBeCloseTo(9, 9);
  expect([...route.line]).toEqual([0, 0, 30, 0, 34, 0, 60, 0, 65, 0, 100, 0]);
});

test('upright bars are linked top and bottom in turn, so that nothing is stitched twice', () => {
  const route = routed([0, 10, 20, 30].map((x) => line(x, 0, x, 30)));
  expect(route.retracedMm).toBe(0);
  expect(route.linkedMm).toBeCloseTo(30, 9);
});

test('a pebble beside the line: there and back by the shortest way', () => {
  const route = routed([line(0, 0, 100, 0), circle(50, 20, 8, 1, 360)]);
  expect(route.links.length).toBe(1);
  expect(route.linkedMm).toBeCloseTo(12, 2);
  expect(route.linksTwice).toBe(1);
  expect(route.retracedMm).toBeCloseTo(12, 2);
});

test('what the mend says is stitched twice is what the finding then says', () => {
  const row = line(0, 0, 30, 20, 70, -20, 100, 0);
  const drawings = [
    [line(0, 0, 100, 0), circle(50, 20, 8, 1, 360)],
    [row, row.map((v, i) => (i % 2 ? v + 60 : v))],
    [line(0, 0, 100, 0), line(40, 0, 40, 30), circle(70, 20, 8, 1, 360)],
  ];
  for (const lines of drawings) {
    const { motif, accounts } = mendMotif(motifOf(lines), { ...defaultSetup, unit: 'mm' }, { reshape: true });
    const said = Number(/([\d.]+) mm \([^)]*\) of it is stitched twice/.exec(accounts[0].message)![1]);
    const { totalMm } = studyOf(motif, defaultSetup).retraces;
    expect(Math.abs(said - totalMm)).toBeLessThan(0.3);
    const linked = [
      /did not touch (?:are|is) ([\d.]+) mm/,
      /of new line, ([\d.]+) mm/,
      /leads of ([\d.]+) mm/,
      /leads of ([\d.]+) mm/,
    ]
      .map((told) => Number(told.exec(accounts[0].message)?.[1] ?? 0))
      .reduce((sum, mm) => sum + mm);
    expect(said + linked).toBeCloseTo(accounts[0].addedMm, 0);
  }
});

test('a link does not run across other line, even where that would be shorter', () => {
  // A narrow ring stands between the two halves. Straight through it is 10; by way of it 6, and half the ring again.
  const ring = Float64Array.from(circle(0, 0, 1, 0.5, 360), (v, i) => (i % 2 === 0 ? 35 + 2 * v : 20 * v));
  const lines = [line(0, 0, 30, 0), line(40, 0, 100, 0), ring];
  const route = routed(lines, Infinity);
  expect(route.links.length).toBe(2);
  for (const link of route.links) expect(lengthOf(link)).toBeCloseTo(3, 2);
  expect(route.retracedMm).toBeCloseTo(lengthOf(ring) / 2, 1);
});

test('many parts keep the spanning tree and say that a shorter way may exist', () => {
  const parts = Array.from({ length: 30 }, (_, i) => circle(10 + 20 * i, 5 * (i % 3), 6, i));
  const { motif, accounts } = mendMotif(motifOf(parts), defaultSetup, { reshape: true, only: ['route'] });
  expect(motif.strokes.length).toBe(1);
  expect(accounts[0].message).toContain('a shorter way may exist');
  // The lead before the start, the first line added after the 29 links, moves the drawing along. It ends on the left of
  // the first ring, which is drawn about (6, 6).
  const { x, y } = lastPoint(accounts[0].added[29]);
  const leadMm = x - (6 - Math.sqrt(36 - (y - 6) ** 2));
  const drawn = motifOf(parts).strokes.map((part) => moved(part, leadMm, 0));
  expect(farthestFrom(motif.strokes[0], drawn)).toBeLessThan(0.01);
});

/** A prolate cycloid (J. Lawrence, Special Plane Curves, 1972): a row of loops, each crossing itself once. */
function loops(count: number): Polyline {
  const flat = [-15, -9];
  const steps = 200 * count;
  for (let i = 0; i <= steps; i++) {
    const t = Math.PI + (2 * Math.PI * count * i) / steps;
    flat.push(5 * t - 12 * Math.sin(t), 3 + 12 * Math.cos(t));
  }
  flat.push(flat[flat.length - 2] + 30, -9);
  return Float64Array.from(flat);
}

test('crossings are gone straight through: loops that were cut into shuffled pieces come back as they were', () => {
  const whole = loops(6);
  const run = runningLengths(whole);
  const length = run[run.length - 1];
  const random = randomFrom(5);
  const cuts = [0, ...Array.from({ length: 20 }, () => length * random()).sort((a, b) => a - b), length];
  const pieces = cuts.slice(1).map((to, i) => stretchOf(whole, run, cuts[i], to));
  const shuffled = pieces
    .map((piece) => ({ piece: random() < 0.5 ? reversed(piece) : piece, key: random() }))
    .sort((a, b) => a.key - b.key)
    .map(({ piece }) => piece);
  const route = routed(shuffled);
  const routeRun = runningLengths(route.line);
  expect(lengthOf(route.line)).toBeCloseTo(length, 3);
  for (let mm = 0; mm <= length; mm += 3)
    expect(distance(placeAlong(route.line, routeRun, mm), placeAlong(whole, run, mm))).toBeLessThan(1e-3);
});

test('a ring that crosses the line is taken in with the least turn there is', () => {
  // At one of the two crossings line and ring must change over: both turn by the angle at which they cross, not by
  // what is left of it to half a turn.
  const ring = circle(50, 0, 20, 1, 720);
  const slope = line(0, -19, 100, -1);
  const route = routed([slope, ring]);
  expect(route.retracedMm).toBe(0);
  const turns = cornersOf(route.line);
  const least = crossingAngle(slope, { x: 50, y: 0 }, 20);
  expect(turns.length).toBe(2);
  for (const turn of turns) expect(Math.abs(turn - least)).toBeLessThan(1);
});

/** Turns of more than 5 degrees. */
function cornersOf(route: Polyline): number[] {
  const out: number[] = [];
  for (let i = 2; i + 3 < route.length; i += 2) {
    const [ax, ay] = [route[i] - route[i - 2], route[i + 1] - route[i - 1]];
    const turn = turnDeg(ax, ay, route[i + 2] - route[i], route[i + 3] - route[i + 1]);
    if (turn > 5) out.push(turn);
  }
  return out;
}

/** The acute angle at which a straight line crosses a circle, from the chord's distance to the centre. */
function crossingAngle(straight: Polyline, centre: { x: number; y: number }, radius: number): number {
  const [ax, ay, bx, by] = straight;
  const far =
    Math.abs((bx - ax) * (ay - centre.y) - (ax - centre.x) * (by - ay)) / Math.hypot(bx - ax, by - ay);
  return (Math.acos(far / radius) * 180) / Math.PI;
}
