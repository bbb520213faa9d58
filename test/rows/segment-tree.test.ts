/** What lies near a place of one repeat, held against a look at every segment. */
import { describe, expect, test, vi } from 'vitest';
import { rowOf } from '../../src/rows/row.js';
import { nearestMm, segmentTreeOf, within } from '../../src/rows/segment-tree.js';
import { nearestOn, type Segment } from './laid-out.js';
import { generator, points } from './lines.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

/** Strokes of one to five segments in a field of 100 by 60 mm, some level, some upright. */
function strokesOf(count: number, random: () => number): Float64Array[] {
  return Array.from({ length: count }, (_, k) => {
    const xy = [100 * random(), 60 * random()];
    for (let steps = 1 + Math.floor(5 * random()); steps > 0; steps--)
      xy.push(
        xy.at(-2)! + ((k + 1) % 7 ? 20 * random() - 10 : 0),
        xy.at(-1)! + ((k + 1) % 5 ? 20 * random() - 10 : 0),
      );
    return points(...xy);
  });
}

function segmentsOf(strokes: readonly Float64Array[]): Segment[] {
  return strokes.flatMap((line) =>
    Array.from({ length: line.length / 2 - 1 }, (_, i): Segment => {
      const [ax, ay, bx, by] = line.subarray(2 * i, 2 * i + 4);
      return [ax, ay, bx, by];
    }),
  );
}

/** A segment as it is, and as the same one from its other end, the lesser of the two. */
function eitherWay([ax, ay, bx, by]: Segment): string {
  return [String([ax, ay, bx, by]), String([bx, by, ax, ay])].sort()[0];
}

function eachOnce(segments: readonly Segment[]): Segment[] {
  return [...new Map(segments.map((segment) => [eitherWay(segment), segment])).values()];
}

describe.each([1, 2, 3, 5, 9, 40, 64, 150])('of %d strokes', (count) => {
  const random = generator(count);
  const strokes = strokesOf(count, random);
  const segments = eachOnce(segmentsOf(strokes));
  const places = Array.from({ length: 20 }, (_, i) =>
    i % 4 ? { x: 140 * random() - 20, y: 100 * random() - 20 } : { x: 2000 * random() - 1000, y: -300 },
  );

  test('the tree holds each segment once, those of a stroke together', () => {
    const tree = segmentTreeOf(rowOf(strokes, 120));
    expect(tree.count).toBe(segments.length);
    const ours = Array.from({ length: tree.count }, (_, i): Segment => {
      const [ax, ay, bx, by] = tree.segments.subarray(4 * i, 4 * i + 4);
      return [ax, ay, bx, by];
    }).map(eitherWay);
    const isTwice = new Set(segmentsOf(strokes).map(eitherWay)).size < segmentsOf(strokes).length;
    const inOrder = strokes.map((line) => segmentsOf([line]).map(eitherWay).join(' '));
    if (!isTwice) for (const stroke of inOrder) expect(ours.join(' ')).toContain(stroke);
    expect(ours.sort()).toEqual(segments.map(eitherWay).sort());
  });

  test('the nearest is the nearest of all, or the limit where none is nearer', () => {
    const tree = segmentTreeOf(rowOf(strokes, 120));
    for (const at of places) {
      const nearest = Math.min(...segments.map((segment) => nearestOn(segment, at).mm));
      expect(nearestMm(tree, at.x, at.y, Infinity)).toBeCloseTo(nearest, 9);
      for (const share of [0, 0.5, 0.999, 1.001, 3])
        expect(nearestMm(tree, at.x, at.y, share * nearest)).toBeCloseTo(Math.min(1, share) * nearest, 9);
    }
  });

  test('those within a distance are seen, each at its nearest place', () => {
    const tree = segmentTreeOf(rowOf(strokes, 120));
    for (const at of places)
      for (const withinMm of [0, 3, 12, 500]) {
        const seen: string[] = [];
        const told = (x: number, y: number, mm: number) => [x, y, mm].map((v) => v.toFixed(6)).join();
        within(
          tree,
          at.x,
          at.y,
          withinMm,
          (...foot) => seen.push(told(...foot)),
          () => false,
        );
        const all = segments.map((segment) => nearestOn(segment, at)).filter(({ mm }) => mm <= withinMm);
        expect(seen.sort()).toEqual(all.map(({ x, y, mm }) => told(x, y, mm)).sort());
      }
  });
});

test('a segment just as far away as is asked for is within', () => {
  const tree = segmentTreeOf(rowOf([points(0, 0, 10, 0), points(20, 0, 20, 10)], 30));
  const seen: number[][] = [];
  within(
    tree,
    5,
    4,
    4,
    (...foot) => seen.push(foot),
    () => false,
  );
  expect(seen).toEqual([[5, 0, 4]]);
});
