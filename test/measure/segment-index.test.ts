import { expect, test } from 'vitest';
import { pointToSegment, segmentToSegment } from '../../src/geometry/segment.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { line, loops, randomFrom, scribble } from './lines.js';

/** Legs that slant by 37 degrees, so many that the boxes are turned. */
const slanting = line(
  ...Array.from({ length: 300 }, (_, i) => [0.3 * i + (i % 2 ? 40 : 0), (i % 2 ? 30 : 0) - 0.2 * i]).flat(),
);

const drawings = [
  [slanting, line(-5, 3, 90, -40)],
  [slanting.map((mm) => -mm), line(5, -3, -90, 40)],
  [scribble(1, 40), scribble(2, 30, 20, 20), line(3, 3, 3, 3, 9, 9)],
  [loops(8, 9, 7)],
];

test('queries find what trying every segment finds', () => {
  for (const strokes of drawings) {
    const index = new SegmentIndex(strokes);
    const segments = Array.from(index.strokeOf.keys()).filter(
      (p) => index.strokeOf[p] === index.strokeOf[p + 1],
    );
    const ends = (s: number) =>
      Array.from(index.points.subarray(2 * s, 2 * s + 4)) as [number, number, number, number];
    const random = randomFrom(3);
    for (let trial = 0; trial < 200; trial++) {
      // Near one of the points, or far off all of them.
      const point = 2 * Math.floor(random() * index.strokeOf.length);
      const [x, y] = [0, 1].map(
        (axis) => index.points[point + axis] + 30 * random() ** 3 * Math.sign(random() - 0.5),
      );
      const within = 10 * random();
      const near: number[] = [];
      index.visitNearPoint(x, y, within, (s) => near.push(s));
      expect(near.sort((a, b) => a - b)).toEqual(
        segments.filter((s) => pointToSegment(x, y, ...ends(s)) <= within),
      );
      const s = segments[Math.floor(random() * segments.length)];
      const beside: number[] = [];
      index.visitNearSegment(s, within, (t) => beside.push(t));
      expect(beside.sort((a, b) => a - b)).toEqual(
        segments.filter((t) => t !== s && segmentToSegment(...ends(s), ...ends(t)) <= within),
      );
    }
  }
});

test('of chains moved, those that come near the others are found', () => {
  const random = randomFrom(8);
  for (const strokes of [...drawings, [loops(8, 9, 7), slanting]]) {
    const index = new SegmentIndex(strokes);
    const { points, chainStarts, chainEnds } = index;
    const segmentsOf = (c: number) =>
      Array.from({ length: chainEnds[c] - chainStarts[c] }, (_, k) => chainStarts[c] + k);
    for (let trial = 0; trial < 60; trial++) {
      const c = Math.floor(random() * chainStarts.length);
      const [dx, dy, within] = [80 * (random() - 0.5), 60 * (random() - 0.5), 2 * random()];
      const found: number[] = [];
      index.visitChainsNear(c, within, (d) => found.push(d), dx, dy);
      for (let d = 0; d < chainStarts.length; d++) {
        const isNear = segmentsOf(c).some((s) =>
          segmentsOf(d).some((t) => {
            const [ax, ay, bx, by] = points.subarray(2 * s, 2 * s + 4);
            const [cx, cy, ex, ey] = points.subarray(2 * t, 2 * t + 4);
            return segmentToSegment(ax + dx, ay + dy, bx + dx, by + dy, cx, cy, ex, ey) <= within;
          }),
        );
        if (isNear) expect(found).toContain(d);
      }
    }
  }
});

test('of lines that slant the same way only near ones are looked at, and none is missed', () => {
  const index = new SegmentIndex([slanting]);
  const chains = index.chainStarts.length;
  let looked = 0;
  for (let c = 0; c < chains; c++) {
    const near: number[] = [];
    index.visitChainsNear(c, 1, (d) => near.push(d));
    looked += near.length;
    for (let d = 0; d < chains; d++) {
      const ends = [c, d].map((one) => Array.from(index.points.subarray(2 * one, 2 * one + 4)));
      const [[ax, ay, bx, by], [cx, cy, dx, dy]] = ends;
      if (segmentToSegment(ax, ay, bx, by, cx, cy, dx, dy) <= 1) expect(near).toContain(d);
    }
  }
  expect(chains).toBe(299);
  expect(looked / chains).toBeLessThan(30);
});

test('running lengths begin anew with each stroke', () => {
  const index = new SegmentIndex([line(0, 0, 3, 4, 3, 10), line(5, 5, 5, 7)]);
  expect([...index.runMm]).toEqual([0, 5, 11, 0, 2]);
  expect([...index.strokeOf]).toEqual([0, 0, 0, 1, 1]);
  expect([index.strokeLengthMm(0), index.strokeLengthMm(1)]).toEqual([11, 2]);
});
