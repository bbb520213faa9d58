import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { moved, reversed, scaled } from '../../src/geometry/polyline.js';
import { crossingsOf } from '../../src/measure/crossings/crossings.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { curve, hilbert, line, loops, scribble, studied } from './lines.js';

function crossings(...lines: Polyline[]) {
  return crossingsOf(new SegmentIndex(lines), 0.01, 1_000_000).places;
}

function at(...lines: Polyline[]) {
  return crossings(...lines).map(({ at: { x, y }, angleDeg, passes }) => [
    Number(x.toFixed(3)),
    Number(y.toFixed(3)),
    Math.round(angleDeg),
    passes,
  ]);
}

// What is a crossing and what a touch follows from the plane alone: a line that ends up on the other side crosses.
test('lines cross inside segments, at a point of one and at a point of both', () => {
  const rising = line(0, 0, 10, 10);
  expect(at(rising, line(0, 10, 10, 0))).toEqual([[5, 5, 90, 2]]);
  expect(at(rising, line(0, 10, 5, 5, 10, 0))).toEqual([[5, 5, 90, 2]]);
  expect(at(line(0, 0, 5, 5, 10, 10), line(0, 10, 5, 5, 10, 0))).toEqual([[5, 5, 90, 2]]);
  expect(at(line(0, 0, 5, 5, 5, 5, 5, 5, 10, 10), line(0, 10, 5, 5, 5, 5, 10, 0))).toEqual([[5, 5, 90, 2]]);
});

test('lines that touch at a point, meet end on, or turn back on themselves do not cross', () => {
  expect(crossings(line(0, 5, 10, 5), line(0, 0, 5, 5, 10, 0))).toEqual([]);
  expect(crossings(line(0, 10, 5, 5, 10, 10), line(0, 0, 5, 5, 10, 0))).toEqual([]);
  expect(crossings(line(0, 5, 10, 5), line(5, 0, 5, 5))).toEqual([]);
  expect(crossings(line(0, 0, 10, 0, 4, 0, 4, 5))).toEqual([]);
  expect(crossings(line(0, 0, 5, 5, 10, 0, 10, 10, 5, 5, 0, 10, 0, 0))).toEqual([]);
});

test('a point meant to lie on a slanting line touches it, though rounding pushes it through', () => {
  // 7/90 of the way along it, as well as doubles can say.
  const slanting = line(0, 0, 30, 10.1);
  for (let part = 1; part < 90; part++) {
    const [x, y] = [(30 * part) / 90, (10.1 * part) / 90];
    expect(crossings(slanting, line(x - 3, y + 9, x, y, x + 4, y + 9))).toEqual([]);
    expect(crossings(slanting, line(x - 3, y + 9, x, y, x + 4, y - 9))).toHaveLength(1);
    expect(crossings(slanting, line(x - 3, y + 9, x, y))).toEqual([]);
  }
});

test('a shared stretch is one crossing where the lines change sides over it, else none', () => {
  const across = line(0, 10, 3, 5, 7, 5, 10, 0);
  expect(at(line(0, 0, 3, 5, 7, 5, 10, 10), across)).toEqual([[5, 5, 0, 2]]);
  expect(at(reversed(line(0, 0, 3, 5, 7, 5, 10, 10)), across)).toEqual([[5, 5, 0, 2]]);
  expect(at(line(0, 5, 10, 5), line(2, 0, 4, 5, 6, 5, 8, 10))).toEqual([[5, 5, 0, 2]]);
  expect(crossings(line(0, 10, 3, 5, 7, 5, 10, 10), line(0, 0, 3, 5, 7, 5, 10, 0))).toEqual([]);
  expect(crossings(line(0, 5, 10, 5), line(2, 0, 4, 5, 6, 5, 8, 0))).toEqual([]);
});

test('closed lines cross at the point where they are closed as anywhere else', () => {
  const eight = line(5, 5, 10, 0, 10, 10, 5, 5, 0, 0, 0, 10, 5, 5);
  expect(at(eight)).toEqual([[5, 5, 90, 2]]);
  expect(at(line(0, 0, 10, 10, 10, 0, 5, 5, 0, 10, 0, 0))).toEqual([[5, 5, 90, 2]]);
});

// Out to a tip and back over the same way; another line comes onto it, runs along it to the tip, or short of it, and on.
test('a line that goes round the tip of a spur crosses nothing, wherever the line with the spur is closed', () => {
  const corners = [5, 5, 0, 5, 0, 9, -5, 9, -5, 5, 0, 5];
  for (let first = 0; first < corners.length; first += 2) {
    const begun = [...corners.slice(first), ...corners.slice(0, first)];
    const spur = line(...begun, begun[0], begun[1]);
    for (const each of [spur, reversed(spur)])
      for (const way of [(drawn: Polyline) => drawn, reversed]) {
        expect(at(each, way(line(2, 0, 3, 5, 5, 5, 8, 10)))).toEqual([]);
        expect(at(each, way(line(2, 0, 3, 5, 5, 5, 8, 0)))).toEqual([]);
        // Short of the tip it crosses both ways, the one out and the one back.
        expect(at(each, way(line(2, 0, 3, 5, 4, 5, 7, 10)))).toEqual([[3.5, 5, 0, 3]]);
      }
  }
});

test('of three lines that share a stretch each two are looked at for themselves', () => {
  const level = line(0, 5, 10, 5);
  const down = line(2, 0, 4, 5, 6, 5, 8, 10);
  const up = line(2, 10, 4, 5, 6, 5, 8, 0);
  const dip = line(1, 0, 4, 5, 6, 5, 9, 0);
  for (const way of [(drawn: Polyline) => drawn, reversed]) {
    // Each crosses both others.
    expect(at(level, down, way(up))).toEqual([[5, 5, 0, 3]]);
    expect(at(way(up), level, down)).toEqual([[5, 5, 0, 3]]);
    // One only touches the level line, and so does another like it; those two keep their sides.
    expect(at(level, way(dip), line(2, 0, 4, 5, 6, 5, 8, 0))).toEqual([]);
    expect(at(level, way(dip))).toEqual([]);
    // It crosses the one that goes down, under it first and then above, as the level line does.
    expect(at(level, down, way(dip))).toEqual([[5, 5, 0, 3]]);
  }
});

// A square that is closed at 5 of its upper side, which another line shares from 3 to 8, or from 2 to 4.
test('a shared stretch over the point where a line is closed is one crossing where the other changes sides, else none', () => {
  const square = line(5, 0, 10, 0, 10, 10, 0, 10, 0, 0, 5, 0);
  for (const ring of [square, reversed(square)])
    for (const [from, to] of [
      [3, 8],
      [2, 4],
      [4, 5],
      [5, 9],
    ]) {
      const through = line(from - 1, -5, from, 0, to, 0, to - 1, 5);
      const beside = line(from - 1, -5, from, 0, to, 0, to + 1, -5);
      for (const way of [(drawn: Polyline) => drawn, reversed]) {
        expect(at(ring, way(through))).toEqual([[(from + to) / 2, 0, 0, 2]]);
        expect(at(way(through), ring)).toEqual([[(from + to) / 2, 0, 0, 2]]);
        expect(at(ring, way(beside))).toEqual([]);
        expect(at(way(beside), ring)).toEqual([]);
      }
    }
});

test('a place where several passes cross is one place with all of them', () => {
  const star = [line(0, 5, 10, 5), line(5, 0, 5, 10), line(0, 0, 10, 10), line(0, 10, 10, 0)];
  expect(at(...star)).toEqual([[5, 5, 45, 4]]);
  const hair = [line(0, 5, 10, 5), line(5, 0, 5, 10), line(0, 0.02, 10, 10)];
  expect(at(...hair)).toHaveLength(1);
});

const wave = (t: number) => [100 * t, 20 * Math.sin(9 * t)] as const;

test('a curve stitched there and back does not cross itself, however it was flattened', () => {
  const there = curve(100, wave);
  for (const steps of [100, 101, 137, 163]) {
    const back = curve(steps, (t) => wave(1 - t));
    expect(crossings(Float64Array.from([...there, ...back]))).toEqual([]);
  }
  const shaken = reversed(there.map((value, i) => value + 1e-13 * Math.sin(i)));
  expect(crossings(Float64Array.from([...there, ...shaken]))).toEqual([]);
});

test('a curve that runs along another for a while crosses it once or not at all', () => {
  const along = curve(70, (t) => wave(0.3 + 0.5 * t));
  const from = [50, -40];
  expect(crossings(curve(100, wave), Float64Array.from([...from, ...along, 60, 60]))).toHaveLength(1);
  expect(crossings(curve(100, wave), Float64Array.from([...from, ...along, 100, -40]))).toEqual([]);
});

test('two lines that cross twice at a shallow angle cross twice', () => {
  expect(at(line(0, 0, 10, 0), line(0, -0.01, 5, 0.01, 10, -0.01))).toEqual([
    [2.5, 0, 0, 2],
    [7.5, 0, 0, 2],
  ]);
});

// Hilbert, Math. Annalen 38 (1891): 4^n - 1 unit steps, no crossing, both ends on one side.
test('a Hilbert curve has no crossing and 4^n - 1 steps', () => {
  for (let order = 1; order <= 7; order++) {
    const study = studied([hilbert(order)]);
    expect(study.crossings).toEqual({ places: [], more: false });
    expect(study.lengthMm).toBeCloseTo(4 ** order - 1, 9);
    expect(study.repeat).toEqual({ dx: 2 ** order - 1, dy: 0, assumed: false });
  }
});

test('a row of loops crosses itself once a loop', () => {
  expect(crossings(loops(12, 20, 5))).toHaveLength(12);
});

test('the search ends at the limit and says so', () => {
  const index = new SegmentIndex([scribble(5, 60)]);
  const all = crossingsOf(index, 0.01, 1_000_000);
  expect(all.more).toBe(false);
  const some = crossingsOf(index, 0.01, 50);
  expect(some.more).toBe(true);
  expect(some.places.length).toBeLessThanOrEqual(50);
  expect(some.places.length).toBeGreaterThan(40);
});

const seeds = fc.tuple(fc.integer({ min: 1, max: 1_000_000 }), fc.integer({ min: 4, max: 60 }));

function sameAfter(change: (line: Polyline) => Polyline, back: (x: number, y: number) => [number, number]) {
  fc.assert(
    fc.property(seeds, ([seed, points]) => {
      const drawn = scribble(seed, points);
      const before = crossings(drawn);
      const after = crossings(change(drawn));
      expect(after.length).toBe(before.length);
      for (const place of after) {
        const [x, y] = back(place.at.x, place.at.y);
        const same = before.filter((p) => Math.hypot(p.at.x - x, p.at.y - y) < 1e-9);
        expect(same.map(({ passes }) => passes)).toEqual([place.passes]);
        expect(same[0].angleDeg).toBeCloseTo(place.angleDeg, 6);
      }
    }),
    { seed: 7, numRuns: 60 },
  );
}

test('reversing changes no crossing', () => {
  sameAfter(reversed, (x, y) => [x, y]);
});

test('mirroring changes no crossing', () => {
  sameAfter(
    (drawn) => drawn.map((value, i) => (i % 2 ? value : 256 - value)),
    (x, y) => [256 - x, y],
  );
});

test('turning by half a turn changes no crossing', () => {
  sameAfter(
    (drawn) => drawn.map((value) => 256 - value),
    (x, y) => [256 - x, 256 - y],
  );
});

test('moving changes no crossing', () => {
  sameAfter(
    (drawn) => moved(drawn, 64, -32),
    (x, y) => [x - 64, y + 32],
  );
});

test('scaling by two leaves crossings alone and doubles lengths', () => {
  for (let seed = 1; seed < 40; seed++) {
    // Coarse enough that no two of the crossings fall into one place at either size.
    const drawn = [scribble(seed, 12, 4000, 2000)];
    const [once, twice] = [studied(drawn), studied([scaled(drawn[0], 2)])];
    expect(twice.crossings.places.map(({ passes }) => passes)).toEqual(
      once.crossings.places.map(({ passes }) => passes),
    );
    expect(twice.lengthMm).toBeCloseTo(2 * once.lengthMm, 6);
  }
});

/** From three nodes of a small grid up to so many. */
function nodesOnGrid(most: number) {
  const step = fc.integer({ min: 0, max: 4 });
  return fc.array(fc.tuple(step, step), { minLength: 3, maxLength: most });
}

// On a small grid nearly everything is a special case: shared points and stretches, reversals, repeats, seams.
test('moving each point by a hair changes no crossing of lines drawn on a small grid', () => {
  const drawn = fc.record({
    nodes: nodesOnGrid(11),
    closed: fc.boolean(),
    hairs: fc.array(fc.double({ min: -1e-9, max: 1e-9, noNaN: true }), { minLength: 24, maxLength: 24 }),
  });
  fc.assert(
    fc.property(drawn, ({ nodes, closed, hairs }) => {
      // A line is closed where it ends exactly where it starts: an open one must not.
      const through = closed ? [...nodes, nodes[0]] : [...nodes, [9, 9]];
      const exact = Float64Array.from(through.flat());
      const aside = exact.map((value, i) => value + hairs[closed ? i % (2 * nodes.length) : i]);
      expect(places(aside)).toEqual(places(exact));
    }),
    { seed: 11, numRuns: 2000 },
  );
});

test('repeating points changes no crossing of lines drawn on a small grid', () => {
  const drawn = fc.record({
    nodes: nodesOnGrid(11),
    closed: fc.boolean(),
    times: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 12, maxLength: 12 }),
  });
  fc.assert(
    fc.property(drawn, ({ nodes, closed, times }) => {
      const through = closed ? [...nodes, nodes[0]] : [...nodes, [9, 9]];
      const repeated = through.flatMap((node, i) => Array.from({ length: times[i] }, () => node));
      expect(places(Float64Array.from(repeated.flat()))).toEqual(places(Float64Array.from(through.flat())));
    }),
    { seed: 13, numRuns: 1000 },
  );
});

describe('drawings on a small grid, in which passes share points and stretches, cross at the same places', () => {
  const walk = nodesOnGrid(8);
  const drawings = fc.array(fc.record({ nodes: walk, closed: fc.boolean() }), { minLength: 1, maxLength: 3 });

  /** On a grid turned so that no direction is special; two points at least. */
  function strokeOf({ nodes, closed }: { nodes: [number, number][]; closed: boolean }): Polyline {
    const through = closed ? [...nodes, nodes[0]] : nodes;
    return Float64Array.from(
      through
        .filter((node, k) => String(node) !== String(through[k - 1]))
        .flatMap(([i, j]) => [8 * i + j, 8 * j - i]),
    );
  }

  const isRing = (drawn: Polyline) =>
    drawn.length >= 8 && drawn[0] === drawn.at(-2) && drawn[1] === drawn.at(-1);

  /** Begun at another of its points, where it is closed. */
  const begunLater = (drawn: Polyline) =>
    isRing(drawn) ? Float64Array.of(...drawn.subarray(2), drawn[2], drawn[3]) : drawn;

  /** A point more in the middle of each step, and each point twice. */
  const split = (drawn: Polyline) =>
    Float64Array.from(
      Array.from({ length: drawn.length / 2 - 1 }, (_, k) => {
        const [ax, ay, bx, by] = drawn.subarray(2 * k, 2 * k + 4);
        return [ax, ay, ax, ay, (ax + bx) / 2, (ay + by) / 2];
      })
        .flat()
        .concat([...drawn.subarray(-2)]),
    );

  const quarter = (drawn: Polyline) => drawn.map((_, i) => (i % 2 ? drawn[i - 1] : -drawn[i + 1]));

  test.each<[string, (strokes: Polyline[]) => Polyline[], (x: number, y: number) => [number, number]]>([
    ['backwards', (strokes) => strokes.map(reversed), (x, y) => [x, y]],
    ['the first stroke backwards', ([one, ...rest]) => [reversed(one), ...rest], (x, y) => [x, y]],
    ['turned by a right angle', (strokes) => strokes.map(quarter), (x, y) => [y, -x]],
    ['mirrored', (strokes) => strokes.map((each) => each.map((v, i) => (i % 2 ? v : -v))), (x, y) => [-x, y]],
    ['in another order', (strokes) => strokes.toReversed(), (x, y) => [x, y]],
    ['with more points', (strokes) => strokes.map(split), (x, y) => [x, y]],
    ['closed elsewhere', (strokes) => strokes.map(begunLater), (x, y) => [x, y]],
  ])('%s', (_, change, back) => {
    fc.assert(
      fc.property(drawings, (drawn) => {
        const strokes = drawn.map(strokeOf).filter((each) => each.length > 2);
        const key = (found: ReturnType<typeof crossings>, to: typeof back) =>
          found
            .map(({ at: place, angleDeg, passes }) => {
              const [x, y] = to(place.x, place.y);
              return `${Math.round(100 * x + 0.137)} ${Math.round(100 * y + 0.137)} ${angleDeg.toFixed(3)} ${passes}`;
            })
            .sort();
        expect(key(crossings(...change(strokes)), back)).toEqual(
          key(crossings(...strokes), (x, y) => [x, y]),
        );
      }),
      { seed: 5, numRuns: 200 },
    );
  });
});

function places(line: Polyline): string[] {
  return crossings(line)
    .map(
      ({ at: { x, y }, passes }) =>
        `${Math.round(1000 * x + 0.137)} ${Math.round(1000 * y + 0.137)} ${passes}`,
    )
    .sort();
}
