import { describe, expect, test } from 'vitest';
import type { Point, Polyline } from '../../shared/plane.js';
import { distance } from '../../src/geometry/point.js';
import { boundsOf, lastPoint, moved, reversed } from '../../src/geometry/polyline.js';
import { repeatMeetingOf } from '../../src/measure/company/repeat-meeting.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { curve, line, loops, randomFrom, studied } from './lines.js';
import { leastDistance } from './nearness.js';
import { nodesOf } from './noder.js';
import { densified, mirrored } from './shapes.js';

function meeting(stroke: Polyline, withinMm = 0.8, dx = lastPoint(stroke).x - stroke[0]) {
  const dy = lastPoint(stroke).y - stroke[1];
  const join = { x: stroke[0] + dx, y: stroke[1] + dy };
  return repeatMeetingOf(new SegmentIndex([stroke]), { repeat: { dx, dy }, join }, withinMm, 10_000);
}

/** From (0, 0) to (100, 0) with an arm that reaches over the join, to this far right of it at a height of 20. */
function arm(reachMm: number): Polyline {
  return line(0, 0, 20, 30, 50, 30, 60, -20, 100 + reachMm, -20, 70, -10, 100, 0);
}

describe('neighbouring repeats', () => {
  test('that only join do not meet, whatever the angle of the join', () => {
    expect(meeting(curve(300, (t) => [200 * t, 20 * Math.sin(4 * Math.PI * t)])).leastMm).toBe(Infinity);
    for (const rise of [0, 1, 5, 20, 100, 400]) {
      const { crossings, leastMm } = meeting(line(0, 0, 50, rise, 100, 0));
      expect(crossings).toEqual([]);
      expect(leastMm).toBe(Infinity);
    }
    // Both ends leave the join downwards, 3 degrees apart.
    const { crossings, leastMm } = meeting(line(0, 0, 2, 40, 50, 50, 98, 41, 100, 0));
    expect(crossings).toEqual([]);
    expect(leastMm).toBe(Infinity);
  });

  test('that cross at more places than are told say so', () => {
    // Level passes on the left, upright ones on the right: moved by 200, the former lie over the latter.
    const woven = (passes: number): Polyline => {
      const points = [0, 0];
      for (let k = 0; k < passes; k++)
        points.push(k % 2 === 0 ? 100 : 0, 2 * k, k % 2 === 0 ? 100 : 0, 2 * k + 2);
      for (let k = 0; k < passes; k++)
        points.push(201 + 2 * k, k % 2 === 0 ? 150 : -10, 203 + 2 * k, k % 2 === 0 ? 150 : -10);
      return line(...points, 200, -20, 200, 0);
    };
    const [few, many] = [10, 40].map((passes) => meeting(woven(passes), 0.8, 200));
    // Nine uprights, crossed by ten level passes and by the way from the one part to the other.
    expect(few.crossings).toHaveLength(9 * 10 + 9);
    expect(few.more).toBe(false);
    expect(many.crossings).toHaveLength(1000);
    expect(many.more).toBe(true);
  });

  test('may overhang as long as they keep clear', () => {
    // The arm of this repeat lies 20 above the next one's first stretch.
    expect(meeting(arm(25))).toMatchObject({ crossings: [], leastMm: Infinity });
  });

  test('that come near: the least distance by jsts, and where', () => {
    // A post of the next repeat stands at 100 + 40, and the arm ends short of it.
    for (const gapMm of [0.1, 0.3, 0.5, 0.79]) {
      const posted = line(0, 0, 30, 0, 40, -30, 50, 0, 60, -20, 135 - gapMm, -15, 70, -10, 100, 0);
      const { crossings, leastMm, at } = meeting(posted);
      expect(crossings).toEqual([]);
      const tip = line(120, -16, 135 - gapMm, -15, 120, -14);
      expect(leastMm).toBeCloseTo(leastDistance(tip, moved(posted, 100, 0)), 9);
      expect(distance(at, { x: 135 - gapMm, y: -15 })).toBeLessThan(1);
    }
  });

  // The next repeat goes from (100, 0) on to (130, 0), down to (140, -30), and up to (150, 0).
  test('that come near with a tip, or with a leg that passes a tip of the next: where, exactly', () => {
    const random = randomFrom(41);
    for (let round = 0; round < 40; round++) {
      const gapMm = 0.05 + 0.7 * random();
      const share = 0.3 + 0.3 * random();
      const tip = {
        x: 130 + 10 * share - 0.3 * Math.sqrt(10) * gapMm,
        y: -30 * share - 0.1 * Math.sqrt(10) * gapMm,
      };
      const tipped = line(0, 0, 30, 0, 40, -30, 50, 0, 60, -20, tip.x, tip.y, 70, -10, 100, 0);
      // Below the tip of the next at this slope.
      const slope = 0.4 * (random() - 0.5);
      const [nx, ny] = [slope / Math.hypot(1, slope), -1 / Math.hypot(1, slope)];
      const foot = { x: 140 + gapMm * nx, y: -30 + gapMm * ny };
      const at = (x: number) => [x, foot.y + slope * (x - foot.x)];
      const passing = line(0, 0, 30, 0, 40, -30, 50, 0, 60, -60, 148, -60, ...at(148), ...at(70), 100, 0);
      for (const [drawn, place] of [
        [tipped, tip],
        [passing, foot],
      ] as const)
        for (const each of [drawn, densified(drawn, 7)]) {
          const found = meeting(each);
          expect(found.crossings).toEqual([]);
          expect(found.leastMm).toBeCloseTo(gapMm, 9);
          expect(distance(found.at, place)).toBeLessThan(1e-6);
        }
    }
  });

  test('that cross: the places where the jsts noder cuts them', () => {
    const random = randomFrom(17);
    let crossed = 0;
    for (let round = 0; round < 30; round++) {
      const inner = Array.from({ length: 20 }, () => [160 * random() - 30, 60 * random()]).flat();
      const drawn = line(0, 0, 5, 30, ...inner, 95, 30, 100, 0);
      const next = moved(drawn, 100, 0);
      const { crossings } = meeting(drawn);
      const own = new Set(
        nodesOf([drawn])
          .concat(nodesOf([next]))
          .map(({ x, y }) => `${x.toFixed(6)} ${y.toFixed(6)}`),
      );
      const both = nodesOf([drawn, next]).filter(({ x, y }) => !own.has(`${x.toFixed(6)} ${y.toFixed(6)}`));
      const isFarFromJoin = ({ x, y }: { x: number; y: number }) => Math.hypot(x - 100, y) > 1;
      const wanted = both.filter(isFarFromJoin);
      for (const place of wanted)
        expect(Math.min(...crossings.map((found) => distance(found, place)))).toBeLessThan(0.05);
      for (const found of crossings.filter(isFarFromJoin))
        expect(Math.min(...both.map((place) => distance(found, place)))).toBeLessThan(0.05);
      crossed += wanted.length;
    }
    expect(crossed).toBeGreaterThan(300);
  });

  test('meet at the join too where the line comes back to it', () => {
    const { crossings } = meeting(line(0, 0, 30, 30, 60, 0, 110, 5, 110, -15, 60, -15, 100, 0));
    expect(crossings.length).toBeGreaterThan(0);
  });

  test('beyond the next one count as well', () => {
    // The arm reaches 130 beyond the start, repeats follow every 55.
    const long = line(0, 0, 10, 20, 130, 20, 130, 26, 10, 26, 10, 40, 30, 40, 55, 0);
    const { crossings } = meeting(long);
    expect(crossings.some(({ x, y }) => x > 110 && y > 19)).toBe(true);
    expect(
      repeatMeetingOf(new SegmentIndex([long]), { repeat: { dx: 55, dy: 0 }, join: { x: 55, y: 0 } }, 0.8, 1)
        .crossings.length,
    ).toBeLessThan(crossings.length);
  });
});

describe('what runs through the join', () => {
  const arc = (x: number, side: 1 | -1, way: 1 | -1) =>
    Array.from({ length: 181 }, (_, i) => {
      const angle = (Math.PI * i) / 180;
      return [x - way * 20 * Math.cos(angle), side * 20 * Math.sin(angle)];
    });
  const drawn = (...stretches: number[][][]) => Float64Array.from(stretches.flat(2));

  test('lies on the next repeat along the half ring that both have', () => {
    // The last ring stands on the half ring that the next repeat begins with: half its girth, but for 5 mm at the join.
    const found = meeting(drawn(arc(20, -1, 1), [[80, 0]], arc(100, -1, 1), arc(100, 1, -1)), 0.8, 80);
    expect(found.lyingMm).toBeGreaterThan(20 * Math.PI - 6);
    expect(found.lyingMm).toBeLessThan(20 * Math.PI);
    expect(found.leastMm).toBe(0);
  });

  test('lies on the next repeat along its first stretch where the line comes back over it', () => {
    // The last 30 mm, from 130 back to the join, lie on the first 30 of the next repeat; 5 mm of them belong to the join.
    const back = (mm: number) =>
      meeting(line(0, 0, mm, 0, mm + 40, 40, 95, 45, 95, 30, 100 + mm, 30, 100 + mm, 0, 100, 0), 0.8, 100);
    expect(back(30).lyingMm).toBeCloseTo(25, 6);
    expect(back(30).crossings).toContainEqual({ x: expect.closeTo(117.5, 6), y: 0 });
    expect(back(11).lyingMm).toBeCloseTo(6, 6);
    // What is left of less is too short to tell from lines that meet.
    expect(back(9.5).lyingMm).toBe(0);
  });

  test('is told apart from a stretch that lies on the next repeat elsewhere', () => {
    // The level stretch at -40 of the next repeat, under an arm that goes over it; within 0.1 mm of its ends as well.
    const over = (mm: number) =>
      meeting(
        line(
          0,
          0,
          20,
          -40,
          20 + mm,
          -40,
          60,
          0,
          60,
          -80,
          110,
          -80,
          110,
          -40,
          155,
          -40,
          155,
          -90,
          60,
          -90,
          100,
          0,
        ),
        0.8,
        100,
      );
    for (const mm of [20, 8]) {
      expect(over(mm).lyingMm).toBeGreaterThan(mm + 0.199);
      expect(over(mm).lyingMm).toBeLessThan(mm + 0.3);
    }
    expect(over(4).lyingMm).toBe(0);
  });

  test('is no meeting where a ring only touches it', () => {
    // Half round, half round again the other way: both repeats' rings touch at the join and part at once.
    const ringed = drawn(arc(20, -1, 1), arc(20, 1, -1), arc(20, -1, 1));
    expect(meeting(ringed)).toMatchObject({ crossings: [], leastMm: Infinity, lyingMm: 0 });
  });

  test('is one where the row crosses itself there', () => {
    // A post stands across the start, so the line that comes in from the last repeat runs through it.
    const posted = line(0, 0, 40, 0, 40, 20, 0, 20, 0, -20, 60, -20, 80, 0);
    expect(meeting(posted).crossings).toContainEqual({ x: 80, y: 0 });
  });
});

describe('loops that overlap in the row as they do in the motif', () => {
  // A prolate cycloid, cut at the bottom of a loop: each loop crosses the next one, in the motif and in the row.
  const row = (count: number) =>
    curve(60 * count, (t) => {
      const angle = 2 * Math.PI * count * t;
      return [40 * count * t - 26 * Math.sin(angle), 20 * Math.cos(angle)];
    });

  test('are no collision; a last one that is half as wide again is', () => {
    expect(studied([row(5)]).repeatMeeting(0.8)).toMatchObject({ crossings: [], leastMm: Infinity });
    // What crosses there is not what crosses elsewhere.
    const wide = row(5).map((v, i) => (i % 2 === 0 && i > 480 ? v + 0.34 * (i - 480) : v));
    expect(studied([wide]).repeatMeeting(0.8)?.crossings).not.toEqual([]);
  });

  test('leave what crosses besides', () => {
    // From the top of the third loop, at 100, an arm goes up to -80, over to 150, down to -40, across to 340 and back. It
    // reaches over the way up of the next repeat's, at 300, and its way down, from 290 to the loop.
    const arm = [100, -80, 150, -80, 150, -40, 340, -40, 340, -50, 160, -50, 160, -90, 90, -90];
    const [before, after] = [row(5).slice(0, 302), row(5).slice(302)];
    const drawn = line(...before, ...arm, ...after);
    const { crossings, at, leastMm } = studied([drawn]).repeatMeeting(0.8)!;
    const down = (y: number) => 290 + ((after[0] - 90) * (y + 90)) / (after[1] + 90);
    const { minX, minY } = boundsOf([drawn]);
    const wanted = [-40, -50].flatMap((y) => [300, down(y)].map((x) => ({ x: x - minX, y: y - minY })));
    expect(crossings).toHaveLength(4);
    for (const place of wanted)
      expect(Math.min(...crossings.map((found) => distance(found, place)))).toBeLessThan(1e-9);
    expect(at).toEqual(crossings[0]);
    expect(leastMm).toBe(0);
  });
});

// 40 mm high: a quarter of that about a place is looked at.
test('loops that overlap otherwise than in the motif within a quarter of its height are a collision', () => {
  const row = (count: number) =>
    curve(60 * count, (t) => {
      const angle = 2 * Math.PI * count * t;
      return [40 * count * t - 26 * Math.sin(angle), 20 * Math.cos(angle)];
    });
  const plain = row(4);
  const [seam] = meeting(plain).crossings;
  // In the last loop of the repeat, and in the first of the next.
  for (const [first, overMm] of [
    [180, 0],
    [1, 160],
  ]) {
    let [near, far] = [0, 0];
    for (let k = first; k < first + 59; k++) {
      const [x, y] = plain.subarray(2 * k, 2 * k + 2);
      const offMm = Math.hypot(x + overMm - seam.x, y - seam.y);
      // A spike of three millimetres across the line, on the side that is away from the seam.
      const [ax, ay, bx, by] = [...plain.subarray(2 * k - 2, 2 * k), ...plain.subarray(2 * k + 2, 2 * k + 4)];
      const side = (x + overMm - seam.x) * (ay - by) + (y - seam.y) * (bx - ax) < 0 ? -3 : 3;
      const chordMm = Math.hypot(bx - ax, by - ay);
      const [sx, sy] = [x + (side * (ay - by)) / chordMm, y + (side * (bx - ax)) / chordMm];
      const spiked = line(...plain.subarray(0, 2 * k + 2), sx, sy, ...plain.subarray(2 * k));
      const { crossings } = studied([spiked]).repeatMeeting(0.8)!;
      if (offMm > 5.2 && offMm < 8) {
        expect(crossings).not.toEqual([]);
        near++;
      }
      if (offMm > 12) {
        expect(crossings).toEqual([]);
        far++;
      }
    }
    expect(Math.min(near, far)).toBeGreaterThan(0);
  }
});

test('loops that overlap as they do in the motif are none in a row that climbs either', () => {
  const row = (count: number) =>
    curve(60 * count, (t) => {
      const angle = 2 * Math.PI * count * t;
      return [40 * count * t - 26 * Math.sin(angle), 20 * Math.cos(angle)];
    });
  // Moved down by so much of the way across, what lies over what stays the same.
  for (const slope of [-0.3, 0.2, 0.7]) {
    const climbing = (drawn: Polyline) => drawn.map((v, i) => (i % 2 ? v + slope * drawn[i - 1] : v));
    for (const drawn of [row(4), densified(row(4), 0.5), mirrored(row(4))])
      expect(studied([climbing(drawn)]).repeatMeeting(0.8)).toMatchObject({
        crossings: [],
        leastMm: Infinity,
      });
    const wide = row(4).map((v, i) => (i % 2 === 0 && i > 360 ? v + 0.08 * (i - 360) : v));
    expect(studied([climbing(wide)]).repeatMeeting(0.8)?.crossings).not.toEqual([]);
  }
});

describe('however it is drawn', () => {
  /** From (0, 0) to (100, 4) and about: anyhow, or level and upright by turns, so that passes lie over one another. */
  const drawings = Array.from({ length: 24 }, (_, round) => {
    const random = randomFrom(300 + round);
    const inner: number[] = [];
    let [x, y] = [4, 20];
    for (let k = 0; k < 14; k++) {
      if (round % 2 === 0) [x, y] = [160 * random() - 30, 40 * random()];
      else if (k % 2) x = 4 * Math.round(40 * random() - 8);
      else y = 4 * Math.round(10 * random());
      inner.push(x, y);
    }
    return line(0, 0, 4, 20, ...inner, 96, 24, 100, 4);
  });

  const found = drawings.map((drawn) => meeting(drawn));

  /** Places nearer than 0.05 mm to one another are told as one of them. */
  function expectSame(
    other: ReturnType<typeof meeting>,
    { crossings, leastMm, lyingMm }: ReturnType<typeof meeting>,
    back = ({ x, y }: Point) => ({ x, y }),
  ) {
    const places = other.crossings.map(back);
    const isNear = (all: readonly Point[]) => (at: Point) => all.some((each) => distance(each, at) < 0.06);
    expect(places.filter((at) => !isNear(crossings)(at))).toEqual([]);
    expect(crossings.filter((at) => !isNear(places)(at))).toEqual([]);
    expect([other.leastMm.toFixed(6), other.lyingMm.toFixed(6)]).toEqual([
      leastMm.toFixed(6),
      lyingMm.toFixed(6),
    ]);
  }

  test('there are crossings, and stretches that lie on each other', () => {
    expect(found.flatMap(({ crossings }) => crossings).length).toBeGreaterThan(150);
    expect(found.filter(({ lyingMm }) => lyingMm > 0).length).toBeGreaterThan(3);
  });

  test.each<[string, (drawn: Polyline) => Polyline, (at: Point) => Point]>([
    ['mirrored top to bottom', mirrored, ({ x, y }) => ({ x, y: -y })],
    ['moved', (drawn) => moved(drawn, 30, -70), ({ x, y }) => ({ x: x - 30, y: y + 70 })],
  ])('%s it meets the next as before', (_, change, back) => {
    drawings.forEach((drawn, k) => {
      expectSame(meeting(change(drawn)), found[k], back);
    });
  });

  test('with more points it comes as near and lies on as much', () => {
    drawings.forEach((drawn, k) => {
      const again = meeting(densified(drawn, 7));
      expect(again.leastMm).toBeCloseTo(found[k].leastMm, 6);
      expect(again.lyingMm).toBeCloseTo(found[k].lyingMm, 6);
    });
  });

  test('backwards, and mirrored left to right, it meets the next as before', () => {
    drawings.forEach((drawn, k) => {
      const row = { repeat: { dx: 100, dy: 4 }, join: { x: 100, y: 4 } };
      expectSame(repeatMeetingOf(new SegmentIndex([reversed(drawn)]), row, 0.8, 10_000), found[k]);
      // What was the later repeat is the earlier one.
      const across = meeting(reversed(drawn.map((v, i) => (i % 2 ? v : 100 - v))));
      expect(across.leastMm).toBeCloseTo(found[k].leastMm, 6);
      expect(across.crossings.length > 0).toBe(found[k].crossings.length > 0);
    });
  });
});

test('mirroring, reversing, moving and more points change nothing', () => {
  const drawn = loops(5, 20, 24);
  const found = meeting(drawn);
  expect(found.crossings.length).toBeGreaterThan(0);
  const backwards = repeatMeetingOf(
    new SegmentIndex([reversed(drawn)]),
    { repeat: { dx: 100, dy: 0 }, join: lastPoint(drawn) },
    0.8,
    100,
  );
  expect(backwards.crossings).toHaveLength(found.crossings.length);
  for (const other of [mirrored(drawn), moved(drawn, 33, -200), densified(drawn, 0.2)])
    expect(meeting(other).crossings).toHaveLength(found.crossings.length);
});

test('the study knows no meeting where the repeat is assumed', () => {
  expect(studied([line(0, 0, 50, 50, 0, 100)]).repeatMeeting(0.8)).toBeNull();
  expect(studied([line(0, 0, 50, 50, 100, 0)]).repeatMeeting(0.8)?.leastMm).toBe(Infinity);
});
