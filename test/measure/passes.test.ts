/** Passes through a disc: as many as walking the line finds, and a bound that never says fewer. */
import { describe, expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { moved } from '../../src/geometry/polyline.js';
import { pointToSegment } from '../../src/geometry/segment.js';
import { mostPasses, passesAt } from '../../src/measure/company/passes.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { dallying, passesBy } from './dallying.js';
import { curve, line, loops, randomFrom } from './lines.js';
import { arc, densified, turned } from './shapes.js';

const radiusMm = 25.4 / 22;

const segmentsOf = (drawn: Polyline) => Array.from({ length: drawn.length / 2 - 1 }, (_, s) => s);

/** Segments whose boxes touch that of the stretch from one segment up to another, made wider by the radius. */
function nearStretch(drawn: Polyline, from: number, to: number): number[] {
  const axis = (s: number, e: number, k: number) =>
    Array.from({ length: e - s + 1 }, (_, p) => drawn[2 * (s + p) + k]).sort((a, b) => a - b);
  return segmentsOf(drawn).filter((s) =>
    [0, 1].every((k) => {
      const [own, other] = [axis(from, to, k), axis(s, s + 1, k)];
      return other[0] <= own[own.length - 1] + radiusMm && other[1] >= own[0] - radiusMm;
    }),
  );
}

test('at any place as many passes as walking the line finds, none farther off than the radius', () => {
  const random = randomFrom(5);
  let most = 0;
  for (let round = 0; round < 60; round++) {
    const drawn = dallying(random, 2 + (round % 6), 3 + (round % 5));
    const index = new SegmentIndex([drawn]);
    for (let k = 0; k < 20; k++) {
      const at = { x: 5 * (random() - 0.5), y: 5 * (random() - 0.5) };
      const { passes, spreadMm } = passesAt(index, segmentsOf(drawn), at.x, at.y, radiusMm);
      expect([0, 1e-6, -1e-6].map((mm) => passesBy(drawn, at, radiusMm + mm))).toContain(passes);
      expect(spreadMm).toBeLessThanOrEqual(radiusMm);
      most = Math.max(most, passes);
    }
  }
  expect(most).toBeGreaterThan(7);
});

test('of straight strokes as many as come within the radius, the farthest of them so far off', () => {
  const random = randomFrom(6);
  for (let round = 0; round < 60; round++) {
    const strokes = Array.from({ length: 6 }, () =>
      Float64Array.from({ length: 4 }, () => 6 * (random() - 0.5)),
    );
    const off = strokes
      .map(([ax, ay, bx, by]) => pointToSegment(0, 0, ax, ay, bx, by))
      .filter((mm) => mm <= radiusMm);
    // The last point of a stroke begins no segment.
    const { passes, spreadMm } = passesAt(new SegmentIndex(strokes), [0, 2, 4, 6, 8, 10], 0, 0, radiusMm);
    expect(passes).toBe(off.length);
    expect(spreadMm).toBeCloseTo(Math.max(0, ...off), 9);
  }
});

describe('the bound', () => {
  const drawings = (random: () => number) => [
    ...Array.from({ length: 40 }, (_, round) => dallying(random, 1 + (round % 5), 2 + (round % 7))),
    loops(3, 3, 2),
    loops(4, 1, 0.6),
    densified(dallying(random, 4, 4), 0.3),
    arc(0, 0, 0.7, 0, 1800),
    curve(60, (t) => [4 * t, 0.8 * Math.sin(40 * t)]),
  ];

  test('is never less than there are anywhere on the segment, nor on the segments next to it', () => {
    const random = randomFrom(7);
    let [tight, all] = [0, 0];
    for (const drawn of drawings(random)) {
      const index = new SegmentIndex([drawn]);
      const segments = segmentsOf(drawn);
      for (const from of segments.filter((s) => s < 40)) {
        const counts = [from, from + 1].map((s) => {
          if (s === segments.length) return 0;
          const [ax, ay, bx, by] = drawn.subarray(2 * s, 2 * s + 4);
          const passes = Array.from({ length: 8 }, (_, k) => {
            const share = (k + random()) / 8;
            return passesAt(index, segments, ax + share * (bx - ax), ay + share * (by - ay), radiusMm).passes;
          });
          return Math.max(...passes);
        });
        const one = mostPasses(index, nearStretch(drawn, from, from + 1), radiusMm, radiusMm);
        const to = Math.min(from + 2, segments.length);
        const several = mostPasses(index, nearStretch(drawn, from, to), radiusMm, 0);
        if (one < counts[0] || several < Math.max(...counts)) expect([one, several]).toEqual(counts);
        if (one === counts[0]) tight++;
        all++;
      }
    }
    expect(tight).toBeGreaterThan(all / 10);
  });

  test('is one for a stretch that runs ahead, and one for each of several', () => {
    for (const deg of [0, 50, 200]) {
      const ahead = [
        line(0, 0, 1, 0, 5, 0, 6, 0, 20, 0),
        arc(0, 0, 20, 0, 44),
        arc(0, 0, 3, 44, 0),
        line(0, 0, 1, 0, 2, 0.9, 3, 0.9, 4, 0, 5, 0),
      ].map((drawn) => turned(drawn, deg));
      for (const drawn of ahead) {
        const index = new SegmentIndex([drawn]);
        expect(mostPasses(index, segmentsOf(drawn), radiusMm, radiusMm)).toBe(1);
        expect(mostPasses(index, segmentsOf(drawn), radiusMm, 0)).toBe(1);
      }
      const index = new SegmentIndex([line(0, 0, 9, 0, 9, 9, 0, 9, 0, 1), moved(ahead[0], 3, 3)]);
      expect(mostPasses(index, [0, 2, 5, 6, 7], radiusMm, radiusMm)).toBe(3);
    }
  });

  test('is two for a bend between long legs, and one for each stitch of what stays about', () => {
    const bend = new SegmentIndex([line(0, 0, 9, 0, 0, 2)]);
    expect(mostPasses(bend, [0, 1], radiusMm, radiusMm)).toBe(2);
    // Steps of 0.6 mm to and fro: 20 of them are 12 mm, which is five stitches and a bit.
    const tremble = new SegmentIndex([
      line(...Array.from({ length: 21 }, (_, k) => [k % 2 ? 0.6 : 0, 0]).flat()),
    ]);
    expect(
      mostPasses(
        tremble,
        Array.from({ length: 20 }, (_, k) => k),
        radiusMm,
        radiusMm,
      ),
    ).toBe(5);
    // Of a long step there is no more than a stitch in a disc.
    const far = new SegmentIndex([line(0, 0, 50, 0, 0, 1, 50, 1)]);
    expect(mostPasses(far, [0, 1, 2], radiusMm, radiusMm)).toBe(3);
  });
});
