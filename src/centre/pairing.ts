/**
 * Which arms of a fork go on into one another: those that need the least turning beside what their own bend makes up.
 *
 * A line from one arm to the other whose curvature goes evenly from the one's bend to the other's enters at an angle
 * to the chord of L (a/3 + b/6) and leaves at L (a/6 + b/3), for a chord L and bends a and b. What the arms differ from
 * that is the mismatch. All ways to pair up are tried, those of the least sums of squares are given; arms that fit none
 * stay alone.
 */
import type { Heading } from './arm.js';

/** An arm left alone counts like a pair that mismatches by this, degrees. */
const aloneDeg = 50;
/** More arms than this are paired nearest first. */
const mostTried = 8;

export interface Pairing {
  readonly pairs: readonly (readonly [number, number])[];
  readonly alone: readonly number[];
  /** Squares of what the pairs mismatch by, and of what arms alone count, radians². */
  readonly cost: number;
}

/** The squared mismatch of going from arm a into arm b, radians². */
export function mismatch(a: Heading, b: Heading, radius: number): number {
  const cx = b.at.x - a.at.x;
  const cy = b.at.y - a.at.y;
  const length = Math.hypot(cx, cy);
  // Onward from b is back along the walk: direction and sense of the bend turn round.
  if (length < 0.05 * radius) return angle(a.dx, a.dy, -b.dx, -b.dy) ** 2;
  const most = 1 / radius;
  const bendA = Math.max(-most, Math.min(a.bend, most));
  const bendB = Math.max(-most, Math.min(-b.bend, most));
  const enter = angle(a.dx, a.dy, cx, cy) - length * (bendA / 3 + bendB / 6);
  const leave = angle(cx, cy, -b.dx, -b.dy) - length * (bendA / 6 + bendB / 3);
  return enter * enter + leave * leave;
}

/** From one direction to another, radians, -π to π. */
export function angle(ax: number, ay: number, bx: number, by: number): number {
  return Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
}

/** The ways to pair arms up that cost least, the best first: up to `most`, none by more than `over` above the best. */
export function pairingsOf(arms: readonly Heading[], radius: number, most: number, over: number): Pairing[] {
  if (arms.length === 2) return [{ pairs: [[0, 1]], alone: [], cost: 0 }];
  const costs = arms.map((a) => arms.map((b) => (a === b ? Infinity : mismatch(a, b, radius))));
  const alone = ((aloneDeg * Math.PI) / 180) ** 2;
  return arms.length <= mostTried ? best(costs, alone, most, over) : [nearestFirst(costs, alone)];
}

function best(costs: readonly (readonly number[])[], alone: number, most: number, over: number): Pairing[] {
  let found: Pairing[] = [];
  const go = (
    left: readonly number[],
    pairs: readonly (readonly [number, number])[],
    single: readonly number[],
    cost: number,
  ) => {
    if (found.length > 0 && cost > found[0].cost + over) return;
    if (left.length === 0) {
      const least = Math.min(cost, found[0]?.cost ?? Infinity);
      found = [...found, { pairs, alone: single, cost }]
        .filter((each) => each.cost <= least + over)
        .sort((p, q) => p.cost - q.cost)
        .slice(0, most);
      return;
    }
    const [first, ...rest] = left;
    for (const other of rest) {
      go(
        rest.filter((each) => each !== other),
        [...pairs, [first, other]],
        single,
        cost + costs[first][other],
      );
    }
    go(rest, pairs, [...single, first], cost + alone);
  };
  go(
    costs.map((_, i) => i),
    [],
    [],
    0,
  );
  return found;
}

function nearestFirst(costs: readonly (readonly number[])[], alone: number): Pairing {
  const pairs: [number, number][] = [];
  const free = new Set(costs.keys());
  const all = costs.flatMap((row, a) => row.map((cost, b) => ({ a, b, cost })).filter(({ b }) => b > a));
  for (const { a, b, cost } of all.sort((p, q) => p.cost - q.cost)) {
    if (cost > 2 * alone || !free.has(a) || !free.has(b)) continue;
    pairs.push([a, b]);
    free.delete(a);
    free.delete(b);
  }
  return { pairs, alone: [...free], cost: 0 };
}
