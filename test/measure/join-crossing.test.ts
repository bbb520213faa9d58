/** Where the row crosses itself at a join: a pass that comes in on one side of the row's line and leaves on the other. */
import { describe, expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { chained, reversed } from '../../src/geometry/polyline.js';
import { crossesAtJoin } from '../../src/measure/company/join-crossing.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { line, randomFrom } from './lines.js';
import { arc, turned } from './shapes.js';

const dx = 500;
const rad = (deg: number) => (deg * Math.PI) / 180;
/** A place so far from the start, or from the join, in this direction. */
const out = (mm: number, deg: number, fromX = 0) => [
  fromX + mm * Math.cos(rad(deg)),
  mm * Math.sin(rad(deg)),
];

/** From one direction to another far round the start. */
function round(fromDeg: number, toDeg: number): number[] {
  const by = (((toDeg - fromDeg) % 360) + 360) % 360;
  return [0, 1, 2, 3, 4].flatMap((k) => out(60, fromDeg + (by * k) / 4));
}

/** Leaves the start this way, comes back to it and runs through it, and comes to the join from that way. */
function passing({
  on,
  back,
  in: inDeg,
  out: outDeg,
}: Record<'on' | 'back' | 'in' | 'out', number>): Polyline {
  return line(
    ...[0, 0, ...out(30, on), ...round(on, inDeg), ...out(30, inDeg), 0, 0, ...out(30, outDeg)],
    ...[...out(60, outDeg), 250, 400, ...out(60, back, dx), ...out(30, back, dx), dx, 0],
  );
}

const crosses = (drawn: Polyline, join = { x: dx, y: 0 }) =>
  crossesAtJoin(new SegmentIndex([drawn]), { repeat: { dx, dy: 0 }, join });

/** Does one of two directions lie between two others, and the other not? */
function parts(a: number, b: number, [p, q]: readonly [number, number]): boolean {
  const turn = (deg: number) => (((deg - a) % 360) + 360) % 360;
  return turn(p) < turn(b) !== turn(q) < turn(b);
}

test('a pass crosses the row at a join where its two ways lie on either side of the line', () => {
  const random = randomFrom(31);
  const apart = (a: number, b: number) => Math.abs(((((a - b) % 360) + 540) % 360) - 180);
  let crossed = 0;
  for (let turn = 0; turn < 300; turn++) {
    const ways = { on: 360 * random(), back: 360 * random(), in: 360 * random(), out: 360 * random() };
    const gaps = [ways.in, ways.out].flatMap((way) => [ways.on, ways.back].map((arm) => apart(way, arm)));
    // Within five degrees it runs along the line, and does not cross it.
    const wanted = Math.min(...gaps) > 5 && parts(ways.on, ways.back, [ways.in, ways.out]);
    const drawn = passing(ways);
    // Left and right changed about, it passes the join.
    const other = drawn.map((v, i) => (i % 2 ? v : dx - v));
    for (const each of [drawn, reversed(drawn), other, reversed(other)])
      expect(crosses(each), JSON.stringify(ways)).toBe(wanted);
    // In a row that climbs.
    const climbing = turned(drawn, 60 * random() - 30);
    const start = { x: climbing[0], y: climbing[1] };
    const join = { x: climbing[climbing.length - 2], y: climbing[climbing.length - 1] };
    const repeat = { dx: join.x - start.x, dy: join.y - start.y };
    for (const each of [climbing, reversed(climbing)])
      expect(crossesAtJoin(new SegmentIndex([each]), { repeat, join })).toBe(wanted);
    if (wanted) crossed++;
  }
  expect(crossed).toBeGreaterThan(50);
});

describe('no crossing', () => {
  test('where the line only comes in and goes on', () => {
    expect(crosses(line(0, 0, 250, 90, dx, 0))).toBe(false);
  });
  test('where the line curls at its start or its end within two millimetres, whichever way', () => {
    for (const radius of [0.12, 0.2, 0.3]) {
      for (let deg = 0; deg < 360; deg += 15) {
        const curl = chained([
          arc(radius * Math.cos(rad(deg)), radius * Math.sin(rad(deg)), radius, deg + 180, deg + 540),
          line(0, 0, ...out(30, deg + 70), 250, 400, ...out(30, 110, dx), dx, 0),
        ]);
        const other = curl.map((v, i) => (i % 2 ? v : dx - v));
        for (const each of [curl, reversed(curl), other, reversed(other)]) expect(crosses(each)).toBe(false);
      }
    }
  });
  test('where it passes by half a millimetre off', () => {
    const ways = { on: 0, back: 180, in: 90, out: 270 };
    const aside = passing(ways).map((v, i, all) => (v === 0 && i > 1 && all[i ^ 1] === 0 ? v + 0.5 : v));
    expect(crosses(passing(ways))).toBe(true);
    expect(crosses(aside)).toBe(false);
  });
});
