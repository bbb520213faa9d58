import fc from 'fast-check';
import { expect, test } from 'vitest';
import { segmentToSegment } from '../../src/geometry/segment.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { visitSegmentPairs } from '../../src/near/segment-pairs.js';
import { curve, scribble } from '../measure/lines.js';
import { turned } from '../measure/shapes.js';

const drawings = fc.record({
  seed: fc.integer({ min: 1, max: 1_000_000 }),
  points: fc.integer({ min: 2, max: 40 }),
  withinMm: fc.constantFrom(0, 0.5, 5, 40),
});

test('every pair of segments that lie near each other is visited once, but for those of one chain', () => {
  fc.assert(
    fc.property(drawings, ({ seed, points, withinMm }) => {
      const index = new SegmentIndex([scribble(seed, points), scribble(seed + 1, 7)]);
      const visited = new Set<string>();
      const all = visitSegmentPairs(index, withinMm, (s, t) => {
        expect(s).toBeLessThan(t);
        expect(visited.has(`${s} ${t}`)).toBe(false);
        visited.add(`${s} ${t}`);
        return true;
      });
      expect(all).toBe(true);
      for (const [s, t] of nearPairs(index, withinMm)) expect(visited.has(`${s} ${t}`)).toBe(true);
    }),
    { seed: 5, numRuns: 100 },
  );
});

// Waves of many small steps run one way for long: their chains hold dozens of segments, some backwards.
test('of finely drawn waves as well', () => {
  for (let round = 0; round < 6; round++) {
    const wave = (phase: number, back: boolean) =>
      curve(80 + 10 * round, (t) => {
        const x = 60 * (back ? 1 - t : t);
        return [x, 12 * Math.sin(x / 7 + phase) + 0.3 * (round % 3) * Math.cos(x)];
      });
    const waves = [wave(0, false), wave(1 + round, true), turned(wave(2, round % 2 === 0), 30 * round)];
    const index = new SegmentIndex(waves);
    expect(Math.max(...index.chainEnds.map((end, c) => end - index.chainStarts[c]))).toBeGreaterThan(16);
    for (const withinMm of [0, 0.3, 2]) {
      const visited = new Set<string>();
      visitSegmentPairs(index, withinMm, (s, t) => {
        if (s >= t || visited.has(`${s} ${t}`)) throw new Error(`${s} ${t}`);
        visited.add(`${s} ${t}`);
        return true;
      });
      // Others are visited only where their boxes come near.
      const farthest = [...visited].map((pair) => {
        const [s, t] = pair.split(' ').map((p) => index.points.subarray(2 * Number(p), 2 * Number(p) + 4));
        const gaps = [0, 1].map((axis) => {
          const [one, other] = [s, t].map((ends) => [ends[axis], ends[axis + 2]]);
          return Math.max(Math.min(...one) - Math.max(...other), Math.min(...other) - Math.max(...one));
        });
        return Math.max(...gaps);
      });
      expect(Math.max(0, ...farthest)).toBeLessThan(withinMm + 1e-9);
      expect(nearPairs(index, withinMm).filter(([s, t]) => !visited.has(`${s} ${t}`))).toEqual([]);
    }
  }
});

// So many that their boxes are turned to be looked at.
test('of long lines that slant the same way as well', () => {
  for (const [across, down] of [
    [40, 30],
    [-25, 35],
  ]) {
    const legs = Array.from({ length: 260 }, (_, i) => [
      0.3 * i + (i % 2) * across,
      (i % 2) * down - 0.2 * i,
    ]);
    const index = new SegmentIndex([Float64Array.from(legs.flat()), scribble(9, 12, 90, -60)]);
    for (const withinMm of [0, 0.7]) {
      const visited = new Set<string>();
      visitSegmentPairs(index, withinMm, (s, t) => {
        visited.add(`${s} ${t}`);
        return true;
      });
      expect(nearPairs(index, withinMm).filter(([s, t]) => !visited.has(`${s} ${t}`))).toEqual([]);
    }
  }
});

/** All pairs held against each other, but for those of one chain. */
function nearPairs({ points, strokeOf, chainStarts, chainEnds }: SegmentIndex, withinMm: number) {
  const chains = strokeOf.slice();
  for (let c = 0; c < chainStarts.length; c++) chains.fill(c, chainStarts[c], chainEnds[c]);
  const pairs: [number, number][] = [];
  const isSegment = (s: number) => strokeOf[s] === strokeOf[s + 1];
  for (let s = 0; s + 1 < strokeOf.length; s++)
    for (let t = s + 1; t + 1 < strokeOf.length; t++) {
      if (!isSegment(s) || !isSegment(t) || chains[s] === chains[t]) continue;
      const [ax, ay, bx, by] = points.subarray(2 * s, 2 * s + 4);
      const [cx, cy, dx, dy] = points.subarray(2 * t, 2 * t + 4);
      if (segmentToSegment(ax, ay, bx, by, cx, cy, dx, dy) <= withinMm) pairs.push([s, t]);
    }
  return pairs;
}

test('the search ends where it is told to', () => {
  let seen = 0;
  const ended = visitSegmentPairs(new SegmentIndex([scribble(3, 60)]), 0, () => ++seen < 10);
  expect([ended, seen]).toEqual([false, 10]);
});
