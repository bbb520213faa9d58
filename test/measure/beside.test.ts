/** Stretches with an earlier pass beside them, against every place of the line held against all of it, a step at a time. */
import { describe, expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import {
  chained,
  lastPoint,
  placeAlong,
  pointsOf,
  polylineOf,
  reversed,
  runningLengths,
} from '../../src/geometry/polyline.js';
import { nearestShare } from '../../src/geometry/segment.js';
import { type Beside, visitBeside } from '../../src/measure/company/beside.js';
import type { SideBySide } from '../../src/measure/company/place-beside.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { curve, line, randomFrom } from './lines.js';
import { densified, mirrored, turned } from './shapes.js';

const wanted: SideBySide = { withinMm: 0.8, enoughMm: 0.1, apartMm: 2.4, turnDeg: 90, leastMm: 2 };

function besides(strokes: readonly Polyline[], rest: Partial<SideBySide> = {}): Beside[] {
  const found: Beside[] = [];
  const all = visitBeside(new SegmentIndex(strokes), { ...wanted, ...rest }, (beside) => {
    found.push(beside);
    return [];
  });
  expect(all).toBe(true);
  return found;
}

/** A line of straight pieces of 3 to 7 mm that turns a little from piece to piece. */
function gentle(random: () => number, pieces: number): Polyline {
  const flat = [0, 0];
  let angle = 0;
  for (let k = 0; k < pieces; k++) {
    const mm = 3 + 4 * random();
    flat.push(flat[2 * k] + mm * Math.cos(angle), flat[2 * k + 1] + mm * Math.sin(angle));
    angle += 0.25 * (random() - 0.5);
  }
  return Float64Array.from(flat);
}

/** Straight pieces that go along a line, now on its left, now on its right, now far off. */
function wandering(along: Polyline, random: () => number, stepMm: number, widest: number): Polyline {
  const run = runningLengths(along);
  const points = [];
  for (let mm = 1; mm < run[run.length - 1] - 1; mm += stepMm * (1 + random())) {
    const [a, b] = [placeAlong(along, run, mm - 0.5), placeAlong(along, run, mm + 0.5)];
    const off = widest * (2 * random() - 1);
    points.push({ x: (a.x + b.x) / 2 - off * (b.y - a.y), y: (a.y + b.y) / 2 + off * (b.x - a.x) });
  }
  return polylineOf(points);
}

interface Near {
  readonly offMm: number;
  readonly otherMm: number;
}

/** How far off the nearest earlier pass is of those that run in nearly the same direction, by trying all segments. */
function nearestBy(strokes: readonly Polyline[], { apartMm, turnDeg }: SideBySide) {
  const runs = strokes.map(runningLengths);
  const mostSine = Math.sin((turnDeg * Math.PI) / 180) + 1e-12;
  const segments = strokes.flatMap((points, stroke) =>
    Array.from({ length: points.length / 2 - 1 }, (_, p) => {
      const [ax, ay, bx, by] = points.subarray(2 * p, 2 * p + 4);
      const mm = Math.hypot(bx - ax, by - ay);
      return { stroke, fromMm: runs[stroke][p], mm, ax, ay, bx, by, ux: (bx - ax) / mm, uy: (by - ay) / mm };
    }),
  );
  return (stroke: number, s: number): Near => {
    const { x, y } = placeAlong(strokes[stroke], runs[stroke], s);
    const here = segments.findLast((each) => each.stroke === stroke && each.fromMm <= s)!;
    let [offMm, otherMm] = [Infinity, 0];
    for (const each of segments) {
      const upToMm = each.stroke < stroke ? Infinity : each.stroke > stroke ? 0 : s - apartMm;
      if (each.fromMm >= upToMm || Math.abs(here.ux * each.uy - here.uy * each.ux) > mostSine) continue;
      const share = nearestShare(x, y, each.ax, each.ay, each.bx, each.by);
      const dx = each.ax + share * (each.bx - each.ax) - x;
      const dy = each.ay + share * (each.by - each.ay) - y;
      const off = Math.sqrt(dx * dx + dy * dy);
      const mm = each.fromMm + share * each.mm;
      if (off < offMm && mm < upToMm) [offMm, otherMm] = [off, mm];
    }
    return { offMm, otherMm };
  };
}

interface Stretch {
  readonly stroke: number;
  readonly fromMm: number;
  readonly toMm: number;
  readonly acrossMm: number;
}

const stepMm = 0.05;

function stretchesBy(strokes: readonly Polyline[], asked: SideBySide): Stretch[] {
  const nearest = nearestBy(strokes, asked);
  return strokes.flatMap((own, stroke) => {
    const lengthMm = runningLengths(own)[own.length / 2 - 1];
    const found: Stretch[] = [];
    let places: { s: number; otherMm: number }[] = [];
    for (let s = stepMm / 2; s < lengthMm + stepMm; s += stepMm) {
      const { offMm, otherMm } = s < lengthMm ? nearest(stroke, s) : { offMm: Infinity, otherMm: 0 };
      if (offMm <= asked.withinMm) places.push({ s, otherMm });
      else if (places.length > 0) {
        const others = places.map((place) => place.otherMm);
        found.push({
          stroke,
          fromMm: places[0].s - stepMm / 2,
          toMm: places[places.length - 1].s + stepMm / 2,
          acrossMm: Math.max(...others) - Math.min(...others),
        });
        places = [];
      }
    }
    return found;
  });
}

/** The line's two parts as two strokes or as one that comes back the other way, so that one lies beside the other. */
function drawings(first: Polyline, second: Polyline, bothWays: boolean): Polyline[][] {
  const end = lastPoint(first);
  const back = reversed(second);
  const far = line(end.x, end.y, end.x + 40, end.y - 60, back[0] + 40, back[1] - 60, back[0], back[1]);
  return [
    [first, second],
    ...(bothWays ? [[second, first]] : []),
    [first, back],
    [chained([first, far, back])],
  ];
}

// What is shorter than a step of the walk may be missed, stretches and gaps alike: drawings with such are passed over.
function isClear(stretches: readonly Stretch[], { leastMm }: SideBySide): boolean {
  return stretches.every(({ stroke, fromMm, toMm, acrossMm }, k) => {
    const next = stretches[k + 1];
    const gapMm = next?.stroke === stroke ? next.fromMm - toMm : Infinity;
    const mm = Math.min(toMm - fromMm, acrossMm);
    return gapMm > 1 && Math.abs(mm - leastMm) > 4 * stepMm;
  });
}

test.each([
  ['whatever its direction', 90, 1.3],
  ['within 30 degrees of its direction', 30, 2],
])('of two lines: each stretch beside the other, %s, and how far off it is', (_, turnDeg, widestMm) => {
  const random = randomFrom(1700 + turnDeg);
  const asked = { ...wanted, turnDeg };
  let found = 0;
  for (let round = 0; round < (turnDeg === 90 ? 8 : 24); round++) {
    // Of a line that is not straight other pieces run in nearly the same direction as one goes on, and are as far off by leaps.
    const isFree = turnDeg === 90;
    const along = isFree ? gentle(random, 6) : line(0, 0, 11, 0, 23, 0, 30, 0);
    for (const drawn of drawings(along, wandering(along, random, 2.5, widestMm), isFree)) {
      const strokes = drawn.map((each) => turned(each, 77 * round));
      const stretches = stretchesBy(strokes, asked);
      if (!isClear(stretches, asked)) continue;
      const long = stretches.filter(({ fromMm, toMm, acrossMm }) => Math.min(toMm - fromMm, acrossMm) > 2);
      const given = besides(strokes, asked).sort(
        (a, b) => a.stroke - b.stroke || a.alongMm[0] - b.alongMm[0],
      );
      expect(given).toHaveLength(long.length);
      const nearest = nearestBy(strokes, asked);
      long.forEach(({ stroke, fromMm, toMm }, k) => {
        const { alongMm, offMm } = given[k];
        expect(given[k].stroke).toBe(stroke);
        expect(Math.abs(alongMm[0] - fromMm)).toBeLessThan(stepMm);
        expect(Math.abs(alongMm[alongMm.length - 1] - toMm)).toBeLessThan(stepMm);
        for (let p = 1; p < alongMm.length; p++) {
          expect(alongMm[p]).toBeGreaterThan(alongMm[p - 1]);
          for (const share of [0, 0.3, 0.8]) {
            const s = alongMm[p - 1] + share * (alongMm[p] - alongMm[p - 1]);
            const off = offMm[p - 1] + share * (offMm[p] - offMm[p - 1]);
            expect(Math.abs(nearest(stroke, s).offMm - off)).toBeLessThan(share === 0 ? 1e-6 : 0.005);
          }
        }
      });
      found += long.length;
    }
  }
  expect(found).toBeGreaterThan(40);
});

// A hairpin of legs of 60 mm at the angle a: from u beyond the tip the other leg is u sin a off, and u + u cos a away along
// the line; so it is beside as far as 0.8 / sin a, from where it is 2.4 mm away. The tip is the fold.
test('of a hairpin: beside each other from its tip on, as far as its legs are apart', () => {
  for (const deg of [2, 4, 9]) {
    for (const way of [0, 50, 130, 250]) {
      const a = (deg * Math.PI) / 180;
      const hairpin = turned(line(-60, 0, 0, 0, -60 * Math.cos(a), 60 * Math.sin(a)), way);
      for (const drawn of [hairpin, mirrored(hairpin), reversed(hairpin), densified(hairpin, 7)]) {
        const [beside, ...others] = besides([drawn]);
        expect(others).toEqual([]);
        const { alongMm, offMm, foldMm } = beside;
        const fromMm = 2.4 / (1 + Math.cos(a));
        expect(Math.abs(alongMm[0] - 60 - fromMm)).toBeLessThan(0.001);
        expect(Math.abs(alongMm[alongMm.length - 1] - 60 - 0.8 / Math.sin(a))).toBeLessThan(0.001);
        alongMm.forEach((mm, k) => {
          expect(Math.abs(offMm[k] - (mm - 60) * Math.sin(a))).toBeLessThan(1e-9);
        });
        expect(Math.abs(foldMm! - 60)).toBeLessThan(0.02);
      }
    }
  }
});

// The legs of an acute angle that a straight line comes beside run towards its tip and back from it.
test('where either turns back at a corner, what goes on is another pass', () => {
  const straight = line(-20, 0, 60, 0);
  const angle = line(40, 0.7, 0, 0.1, 40, -0.5);
  for (const way of [0, 77, 190]) {
    const [one, two] = [turned(straight, way), turned(angle, way)];
    const legs = besides([one, two]).map(({ alongMm }) => [alongMm[0], alongMm[alongMm.length - 1]]);
    const legMm = Math.hypot(40, 0.6);
    expect(legs.map((leg) => leg.map((mm) => Math.round(100 * mm) / 100))).toEqual([
      [0, Math.round(100 * legMm) / 100],
      [Math.round(100 * legMm) / 100, Math.round(200 * legMm) / 100],
    ]);
    // The straight line comes beside a leg and goes on beside it, though the other comes nearer.
    const strays = besides([two, one])
      .filter(({ stroke }) => stroke === 1)
      .map(({ alongMm, offMm }) =>
        [1, -1].map((side) =>
          Math.max(
            ...alongMm.map((s, k) =>
              s > 21 && s < 59 ? Math.abs(Math.abs(0.1 + side * 0.015 * (s - 20)) - offMm[k]) : 0,
            ),
          ),
        ),
      );
    expect(strays.length).toBeGreaterThan(0);
    for (const each of strays) expect(Math.min(...each)).toBeLessThan(0.003);
  }
});

test('points that are repeated change nothing', () => {
  const random = randomFrom(77);
  const twice = (drawn: Polyline) =>
    Float64Array.from([...pointsOf(drawn)].flatMap(({ x, y }) => [x, y, x, y, x, y]));
  for (let round = 0; round < 6; round++) {
    const along = gentle(random, 5);
    for (const strokes of drawings(along, wandering(along, random, 2.5, 0.7), true)) {
      const [plain, repeated] = [besides(strokes), besides(strokes.map(twice))];
      expect(repeated).toHaveLength(plain.length);
      repeated.forEach(({ alongMm, stroke }, k) => {
        const own = plain[k].alongMm;
        expect(stroke).toBe(plain[k].stroke);
        expect(alongMm[0]).toBeCloseTo(own[0], 2);
        expect(alongMm[alongMm.length - 1]).toBeCloseTo(own[own.length - 1], 2);
      });
    }
  }
});

test('no fold is where another stroke, or the line much later, comes beside', () => {
  const level = line(0, 0, 60, 0);
  expect(besides([level, line(10, 0.5, 50, 0.5)]).map(({ foldMm }) => foldMm)).toEqual([null]);
  const back = (up: number) => besides([line(0, 0, 60, 0, 60 + up, up, 60 + 2 * up, 0.5, 0, 0.5)])[0].foldMm;
  expect(back(0.5)).not.toBeNull();
  expect(back(2)).toBeNull();
});

// The pieces across turn too much to be beside the straight line, so what is beside it is as long as the level piece.
test('what is a little longer than asked for is found wherever it lies, and what is just within reach', () => {
  const random = randomFrom(5);
  const flat = [0, 3];
  const dips: number[] = [];
  for (let x = 1 + random(); x < 97; x += 2 + 2 * random()) {
    dips.push(x);
    flat.push(x, 3, x, 0.497, x + 0.7, 0.497, x + 0.7, 3);
  }
  const found = besides([line(-10, 0, 110, 0), line(...flat)], {
    withinMm: 0.5,
    turnDeg: 30,
    leastMm: 0.6,
  });
  expect(found).toHaveLength(dips.length);
  for (const [k, { alongMm, offMm }] of found.entries()) {
    const fromMm = dips[k] + (2 * k + 1) * 2.503;
    expect(Math.abs(alongMm[0] - fromMm)).toBeLessThan(0.001);
    expect(Math.abs(alongMm[alongMm.length - 1] - fromMm - 0.7)).toBeLessThan(0.001);
    for (const mm of offMm) expect(mm).toBeCloseTo(0.497, 9);
  }
});

// From the end of the line 0.375 mm off to 0.625 from it are 0.5, wherever the walk has its steps of 0.75.
test('each place is given once, where the other pass ends at a step of the walk, too', () => {
  for (let mm = 20.25; mm < 21; mm += 0.03125) {
    const strokes = [line(0, 0, mm - 0.5, 0), line(0, 0.375, 60, 0.375)];
    const [{ alongMm }, ...others] = besides(strokes, { withinMm: 0.625 });
    expect(others).toEqual([]);
    expect(Math.abs(alongMm[alongMm.length - 1] - mm)).toBeLessThan(0.001);
    for (let k = 1; k < alongMm.length; k++) expect(alongMm[k]).toBeGreaterThan(alongMm[k - 1]);
  }
});

// Each stretch must be one of those beside one of the two alone, and the nearer of them must be given at every place.
test('of two lines that go along a third: the one that is nearer, and each as if it were alone', () => {
  const random = randomFrom(4711);
  let places = 0;
  for (let round = 0; round < 12; round++) {
    const along = gentle(random, 12);
    const two = [wandering(along, random, 4, 1), wandering(along, random, 4, 1)];
    for (const own of [along, reversed(along)]) {
      const alone = two.map((other) => ({
        stretches: stretchesBy([other, own], wanted).filter(({ stroke }) => stroke === 1),
        nearest: nearestBy([other, own], wanted),
      }));
      if (!alone.every(({ stretches }) => isClear(stretches, wanted))) continue;
      const given = besides([...two, own], { enoughMm: 0 }).filter(({ stroke }) => stroke === 2);
      const offs = given.map((beside) => offAt(beside));
      const of = given.map(({ alongMm, offMm }) =>
        alone.findIndex(({ nearest }) =>
          // Followed piece by piece: in a bend another piece may be a little nearer.
          alongMm.every((s, k) => Math.abs(offMm[k] - nearest(1, s).offMm) < 0.02),
        ),
      );
      expect(Math.min(...of, 0)).toBe(0);
      for (let s = 1; s < runningLengths(own)[own.length / 2 - 1] - 1; s += 0.2) {
        const off = alone.map(({ nearest }) => nearest(1, s).offMm);
        given.forEach((_, k) => {
          const mm = offs[k](s);
          if (mm !== null) expect(Math.abs(mm - off[of[k]])).toBeLessThan(0.02);
        });
        const nearer = off[0] < off[1] ? 0 : 1;
        const isLong = alone[nearer].stretches.some(
          ({ fromMm, toMm, acrossMm }) =>
            fromMm < s && s < toMm && Math.min(toMm - fromMm, acrossMm) > wanted.leastMm,
        );
        // Where the other becomes the nearer between two steps, it may be found only at the next.
        const isNearest = [-0.8, -0.4, 0, 0.4, 0.8].every((mm) => {
          const [one, other] = [nearer, 1 - nearer].map((k) => alone[k].nearest(1, s + mm).offMm);
          return one < Math.min(wanted.withinMm, other) - 0.01;
        });
        if (!isLong || !isNearest) continue;
        places++;
        expect(given.some((_, k) => of[k] === nearer && offs[k](s) !== null)).toBe(true);
      }
    }
  }
  expect(places).toBeGreaterThan(1000);
});

/** How far off the other pass is there; null before and after the stretch. */
function offAt({ alongMm, offMm }: Beside): (s: number) => number | null {
  return (s) => {
    const k = alongMm.findIndex((mm) => mm > s);
    if (k <= 0) return null;
    return offMm[k - 1] + ((s - alongMm[k - 1]) / (alongMm[k] - alongMm[k - 1])) * (offMm[k] - offMm[k - 1]);
  };
}

// Of what is settled nobody asks again; of the rest only where another pass is nearer.
describe('passes over one another', () => {
  const passes = (count: number, apartMm: number) =>
    Array.from({ length: count }, (_, k) => line(0, k * apartMm, 50, k * apartMm));

  test('each later one is asked once', () => {
    for (const apartMm of [0, 0.05, 0.15]) {
      const asked: number[] = [];
      visitBeside(
        new SegmentIndex(passes(5, apartMm)),
        { ...wanted, withinMm: 0.2 },
        ({ stroke, alongMm }) => {
          asked.push(stroke);
          expect([alongMm[0], alongMm[alongMm.length - 1]]).toEqual([0, 50]);
          return [0, 50];
        },
      );
      expect(asked).toEqual([1, 2, 3, 4]);
    }
  });

  // One pass lies 0.15 off throughout, the other 0.05 from 5 on.
  test('a nearer one is asked about only where nothing is settled', () => {
    const strokes = [line(0, 0, 50, 0), line(5, 0.2, 50, 0.2), line(0, 0.15, 50, 0.15)];
    const asked = (settled: number[]) => {
      const found: number[][] = [];
      visitBeside(new SegmentIndex(strokes), { ...wanted, withinMm: 0.2 }, ({ stroke, alongMm, offMm }) => {
        if (stroke < 2) return [];
        found.push([alongMm[0], alongMm[alongMm.length - 1], offMm[offMm.length - 1]]);
        return found.length === 1 ? settled : [];
      });
      return found;
    };
    const nearFromMm = 5 - Math.sqrt(0.2 ** 2 - 0.05 ** 2);
    const far = [0, 50, 0.15];
    const close = (found: number[][], expected: number[][], stepMm: number) => {
      expect(found).toHaveLength(expected.length);
      found.forEach((numbers, k) => {
        numbers.forEach((mm, n) => {
          expect(Math.abs(mm - expected[k][n])).toBeLessThan(n < 2 ? stepMm : 1e-6);
        });
      });
    };
    close(asked([]), [far, [nearFromMm, 50, 0.05]], 0.001);
    close(asked([0, 50]), [far], 0.001);
    // Stretches reach a step of the walk into what is settled.
    const parts = [
      [nearFromMm, 10, 0.05],
      [20, 30, 0.05],
      [40, 50, 0.05],
    ];
    close(asked([10, 20, 30, 40]), [far, ...parts], 0.76);
  });

  test('the nearest of them', () => {
    const strokes = [line(0, 0, 50, 0), line(0, 0.3, 50, 0.3), line(0, 0.5, 50, 0.5)];
    const found = besides(strokes);
    expect(found.map(({ stroke }) => stroke)).toEqual([1, 2]);
    expect([...found[1].offMm].every((mm) => Math.abs(mm - 0.2) < 1e-9)).toBe(true);
  });

  test('of two, one after the other, both', () => {
    const strokes = [line(0, 0, 30, 0), line(20, 1, 50, 1), line(0, 0.6, 50, 0.6)];
    const found = besides(strokes).map(({ alongMm }) => [alongMm[0], alongMm[alongMm.length - 1]]);
    const ends = found.sort((a, b) => a[0] - b[0]);
    // From the end of a line to the places at 0.6, or 0.4, across from it and 0.8 from it.
    expect(ends).toHaveLength(2);
    expect(Math.abs(ends[0][1] - 30 - Math.sqrt(0.28))).toBeLessThan(0.002);
    expect(Math.abs(ends[1][0] - 20 + Math.sqrt(0.48))).toBeLessThan(0.002);
  });
});

// A pass that falls away from the last leg of the line, from 0.67 to 0.92 mm. The leg before it ends nearer than that, but
// 5 mm of the line before a place are merely next to it.
test('what is merely next to a place along its line hides no pass farther off', () => {
  const slope = Math.tan((16 * Math.PI) / 180);
  const pass = line(5, 0.7 - 5 * slope, 14, 0.7 + 4 * slope);
  const drawn = line(0, 10 * slope, 10, 0, 10.9, 0);
  const found = besides([pass, drawn], { withinMm: 1, enoughMm: 0, apartMm: 5, turnDeg: 30, leastMm: 0.8 });
  expect(found.length).toBeGreaterThan(0);
  for (const { stroke, alongMm } of found) {
    expect(stroke).toBe(1);
    expect(alongMm.at(-1)! - alongMm[0]).toBeCloseTo(0.9, 2);
  }
});

// On circles about one place what lies side by side is as long as the radius is. The later pass comes and goes straight from
// and to the side where the other is not.
test('stretches shorter than the least on either pass are not given', () => {
  const at = (radius: number, rad: number) => [radius * Math.cos(rad), radius * Math.sin(rad)] as const;
  const arc = (radius: number, from: number, to: number) =>
    curve(100, (t) => at(radius, from + t * (to - from)));
  for (const [innerMm, count] of [
    [7.9, 0],
    [8.8, 1],
  ]) {
    const rad = innerMm / 5;
    for (const [radius, later, away] of [
      [5.7, 5, 2.5],
      [5, 5.7, 9],
    ]) {
      const drawn = line(...at(away, 0), ...arc(later, 0, rad), ...at(away, rad));
      expect(besides([arc(radius, -0.4, rad + 0.4), drawn], { turnDeg: 30, leastMm: 8 })).toHaveLength(count);
    }
  }
});

test('what is just as long as asked for is given, and what is a little shorter is not', () => {
  const along = (mm: number) => besides([line(-10, 0, 20, 0), line(3, 0.5, 3 + mm, 0.5)]);
  expect(along(2).map(({ alongMm }) => [alongMm[0], alongMm[alongMm.length - 1]])).toEqual([[0, 2]]);
  expect(along(2 - 1e-6)).toEqual([]);
});

// Steps are 0.75 mm. From 20.25 to 21.75 there is only one, at 21, that has no other pass beside it, and one after it has none.
describe('a pass that is the nearest at a single step is found', () => {
  const own = line(0, 0, 60, 0);
  const ends = (...others: Polyline[]) =>
    besides([...others, own], { withinMm: 0.6 })
      .filter(({ stroke }) => stroke === others.length)
      .map(({ alongMm }) => [alongMm[0], alongMm[alongMm.length - 1]].map((mm) => mm.toFixed(2)));
  // Where another pass ends at `endMm`, it is beside for as long as that is no farther off than 0.6 mm.
  const goneAt = (endMm: number, offMm: number) => (endMm + Math.sqrt(0.36 - offMm ** 2)).toFixed(2);

  test.each([0.05, 0.3])('after one that was %d mm off', (offMm) => {
    const found = ends(line(0, offMm, 20.3, offMm), line(0, -0.5, 21, -0.5));
    expect(found).toEqual([
      ['0.00', goneAt(20.3, offMm)],
      ['0.00', goneAt(21, 0.5)],
    ]);
  });
  test('after one that has just become the nearest itself', () => {
    const [level, nearer] = [line(0, 0.4, 20.3, 0.4), line(0, -0.45, 20, -0.45, 20.3, -0.3)];
    expect(ends(level, nearer, line(0, 0.5, 21, 0.5))).toEqual([
      ['0.00', goneAt(20.3, 0.4)],
      ['0.00', goneAt(20.3, 0.3)],
      ['0.00', goneAt(21, 0.5)],
    ]);
  });
  test('at the very end of the line, and at its start', () => {
    const slope = line(40, 0.8, 60, 0.28);
    const fromMm = 40 + (0.2 * 20) / 0.52;
    expect(Math.abs(Number(ends(line(0, -0.3, 60, -0.3), slope)[1][0]) - fromMm)).toBeLessThan(0.02);
    const back = line(20, 0.8, 0, 0.28);
    expect(Math.abs(Number(ends(line(0, -0.3, 60, -0.3), back)[0][1]) - (60 - fromMm))).toBeLessThan(0.02);
  });
});

// The later line has one pass 0.1 mm off up to 100, and another one 0.3 mm off all along it: that is followed back from there.
test('a pass is followed as far as it goes where another one is known to be nearer, or to coincide', () => {
  for (const nearMm of [0.1, 0]) {
    const strokes = [line(0, 0.3, 200, 0.3), line(0, -nearMm, 100, -nearMm), line(0, 0, 200, 0)];
    for (const drawn of [strokes, strokes.map((stroke) => densified(stroke, 5))]) {
      const found = besides(drawn).filter(({ stroke }) => stroke === 2);
      expect(found.map(({ offMm }) => Math.min(...offMm).toFixed(6))).toEqual([
        nearMm.toFixed(6),
        '0.300000',
      ]);
      const ends = found.map(({ alongMm }) => [alongMm[0], alongMm[alongMm.length - 1]]);
      expect(Math.abs(ends[0][1] - 100 - Math.sqrt(0.64 - nearMm ** 2))).toBeLessThan(0.001);
      expect(ends[1]).toEqual([0, 200]);
    }
  }
});

// Of three lines that go along a curve each is now nearer to one of the others and now to the other.
test('a pass is given once, however often it becomes the nearer, just as if it were the only one', () => {
  let found = 0;
  for (let seed = 80; seed <= 110; seed++) {
    const random = randomFrom(31 * seed);
    const high = 5 + 30 * random();
    const strokes = [0.9, 0.9, 0].map((widest) => {
      const along = (x: number) => [x, high * Math.sin(x / 15) + widest * (random() - 0.5)];
      return line(...Array.from({ length: 75 }, (_, k) => along(2 * k + random())).flat());
    });
    const asked = { turnDeg: 45, leastMm: 5 };
    const ends = (...drawn: Polyline[]) =>
      besides(drawn, asked)
        .map(({ alongMm, offMm }) => [alongMm, offMm].flatMap((mm) => [mm[0], mm[mm.length - 1]]))
        .map((numbers) => numbers.map((mm) => mm.toFixed(2)).join(' '));
    const [one, two, three] = strokes;
    const alone = [ends(one, two), ends(one, three), ends(two, three)].flat();
    const given = ends(...strokes);
    expect(new Set(given).size, `seed ${seed}`).toBe(given.length);
    for (const each of given) expect(alone, `seed ${seed}`).toContain(each);
    found += given.length;
  }
  expect(found).toBeGreaterThan(90);
});
