import { expect, test, vi } from 'vitest';
import type { Point, Polyline } from '../../shared/plane.js';
import { crossingsOf } from '../../src/measure/crossings/crossings.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { curve, loops, randomFrom, scribble } from './lines.js';
import { nodesOf } from './noder.js';

// Only for the sake of machines that are busy with something else.
vi.setConfig({ testTimeout: 60_000 });

/** Places nearer than 0.05 mm, also by way of others, taken together; all pairs. */
function apart(places: readonly Point[]): Point[][] {
  let groups: Point[][] = [];
  for (const place of places) {
    const near = groups.filter((group) =>
      group.some((at) => Math.hypot(at.x - place.x, at.y - place.y) <= 0.05),
    );
    groups = [...groups.filter((group) => !near.includes(group)), [...near.flat(), place]];
  }
  return groups;
}

function expectNoderAgrees(lines: readonly Polyline[]): number {
  const ours = crossingsOf(new SegmentIndex(lines), 0.01, 1_000_000);
  const groups = apart(nodesOf(lines));
  expect(ours.places.length).toBe(groups.length);
  for (const group of groups) {
    const distances = ours.places.map(({ at }) =>
      Math.min(...group.map((p) => Math.hypot(at.x - p.x, at.y - p.y))),
    );
    expect(Math.min(...distances)).toBeLessThan(1e-6);
  }
  return groups.length;
}

// Each count and place is held against the noder of jsts 2.12 (MCIndexNoder with RobustLineIntersector).
test('crossings of 150 random lines are those of the noder, in number and place', () => {
  let total = 0;
  for (let seed = 0; seed < 150; seed++) total += expectNoderAgrees([scribble(seed, 10 + (seed % 25))]);
  expect(total).toBeGreaterThan(5_000);
});

test('crossings of 40 drawings of several random strokes are those of the noder', () => {
  for (let seed = 0; seed < 40; seed++) {
    expectNoderAgrees([scribble(seed, 12), scribble(seed + 1000, 8), scribble(seed + 2000, 15)]);
  }
});

test('crossings of 80 drawn curves of thousands of tiny segments are those of the noder', () => {
  let total = 0;
  for (let seed = 0; seed < 40; seed++) {
    const random = randomFrom(seed);
    const [a, b, phase] = [2 + 5 * random(), 2 + 5 * random(), random()];
    const wander = curve(2000, (t) => [
      100 * t + 20 * Math.sin(a * 7 * t + phase) + 5 * Math.sin(31 * b * t),
      30 * Math.sin(b * 9 * t) + 8 * Math.cos(27 * a * t + phase),
    ]);
    total += expectNoderAgrees([wander]);
    total += expectNoderAgrees([loops(5 + (seed % 7), 9 + random(), 8 + 4 * random(), 0.5 + random())]);
  }
  expect(total).toBeGreaterThan(1000);
});
