/** Rows of loops of which each crosses the next, so that a repeat of them crosses the next one just so. */
import { expect, test } from 'vitest';
import type { Point, Polyline } from '../../shared/plane.js';
import { distance } from '../../src/geometry/point.js';
import { firstPoint, lastPoint, moved } from '../../src/geometry/polyline.js';
import { repeatMeetingOf } from '../../src/measure/company/repeat-meeting.js';
import { withoutSeamless } from '../../src/measure/company/seamless.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { curve, line } from './lines.js';

/** Loops 40 mm apart and high, on a slope. */
const loops = (count: number, slope: number) =>
  curve(60 * count, (t) => {
    const angle = 2 * Math.PI * count * t;
    const x = 40 * count * t - 26 * Math.sin(angle);
    return [x, 20 * Math.cos(angle) + slope * x];
  });

function rowOf(drawn: Polyline) {
  const index = new SegmentIndex([drawn]);
  const [first, last] = [firstPoint(drawn), lastPoint(drawn)];
  const repeat = { dx: last.x - first.x, dy: last.y - first.y };
  return { index, repeat, meeting: repeatMeetingOf(index, { repeat, join: last }, 0.8, 100) };
}

const by = (at: Point, dx: number, dy: number) => ({ x: at.x + dx, y: at.y + dy });

test('what each loop does to the next is seamless wherever it is drawn, and at another place it is not', () => {
  for (const count of [2, 4])
    for (const slope of [0, 0.4, -0.7])
      for (const [x, y] of [
        [0, 0],
        [-2000, -3000],
        [2000, 3000],
      ]) {
        const { index, repeat, meeting } = rowOf(moved(loops(count, slope), x, y));
        const { crossings } = meeting;
        expect(crossings.length).toBeGreaterThan(0);
        const own = crossings.map((at) => by(at, -40, -40 * slope));
        const without = { ...meeting, crossings: [], leastMm: Infinity };
        expect(withoutSeamless(meeting, index, repeat, () => own)).toEqual(without);
        const elsewhere = crossings.map((at) => by(at, -20, -20 * slope));
        expect(withoutSeamless(meeting, index, repeat, () => elsewhere)).toEqual(meeting);
      }
});

// A spike of three millimetres at a point of the line 5 to 8 mm from the seam, in this repeat or in the next.
test('a quarter of the height about the place is looked at, on both sides of the seam, wherever it is drawn', () => {
  let [before, after] = [0, 0];
  for (const slope of [0, 0.4])
    for (const [x, y] of [
      [0, 0],
      [-2000, -3000],
    ]) {
      const plain = moved(loops(4, slope), x, y);
      const { meeting, repeat } = rowOf(plain);
      const [seam] = meeting.crossings;
      for (const [first, over] of [
        [182, 0],
        [2, 1],
      ])
        for (let k = first; k < first + 56; k++) {
          const at = { x: plain[2 * k], y: plain[2 * k + 1] };
          const inRow = by(at, over * repeat.dx, over * repeat.dy);
          const offMm = distance(inRow, seam);
          if (offMm < 5.2 || offMm > 8) continue;
          // Across the line, on the side that is away from the seam.
          const [ax, ay] = plain.subarray(2 * k - 2, 2 * k);
          const [bx, by1] = plain.subarray(2 * k + 2, 2 * k + 4);
          const side = (inRow.x - seam.x) * (ay - by1) + (inRow.y - seam.y) * (bx - ax) < 0 ? -3 : 3;
          const chordMm = Math.hypot(bx - ax, by1 - ay);
          const tip = by(at, (side * (ay - by1)) / chordMm, (side * (bx - ax)) / chordMm);
          const spiked = line(...plain.subarray(0, 2 * k + 2), tip.x, tip.y, ...plain.subarray(2 * k));
          const found = rowOf(spiked);
          const own = meeting.crossings.map((place) => by(place, -80, -80 * slope));
          const left = withoutSeamless(found.meeting, found.index, repeat, () => own).crossings;
          expect(Math.min(...left.map((place) => distance(place, seam)))).toBeLessThan(1e-6);
          if (over) after++;
          else before++;
        }
    }
  expect(Math.min(before, after)).toBeGreaterThan(3);
});

test('a row that does not cross itself, lies on itself or does so all over is told as it is', () => {
  const { index, repeat, meeting } = rowOf(loops(4, 0));
  const own = () => meeting.crossings.map((at) => by(at, -40, 0));
  const times = (count: number) => Array.from({ length: count }, () => meeting.crossings[0]);
  for (const each of [
    { ...meeting, crossings: [], leastMm: 0.3 },
    { ...meeting, lyingMm: 7 },
    { ...meeting, crossings: times(41) },
  ])
    expect(withoutSeamless(each, index, repeat, own)).toEqual(each);
  expect(withoutSeamless({ ...meeting, crossings: times(40) }, index, repeat, own).crossings).toEqual([]);
});

test('it is held against two hundred of the crossings of the motif', () => {
  const { index, repeat, meeting } = rowOf(loops(4, 0));
  const own = meeting.crossings.map((at) => by(at, -40, 0));
  const after = (count: number) => () => [...Array.from({ length: count }, () => by(own[0], 15, 3)), ...own];
  expect(withoutSeamless(meeting, index, repeat, after(200 - own.length)).crossings).toEqual([]);
  expect(withoutSeamless(meeting, index, repeat, after(200)).crossings).toEqual(meeting.crossings);
});

// Half a millimetre.
test('loops drawn by hand look alike though they are not alike to a hair', () => {
  const { index, repeat, meeting } = rowOf(loops(4, 0));
  const leftWhenOff = (dx: number, dy: number) =>
    withoutSeamless(meeting, index, repeat, () => meeting.crossings.map((at) => by(at, dx - 40, dy)))
      .crossings;
  for (const [x, y] of [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ]) {
    expect(leftWhenOff(0.5 * x, 0.5 * y)).toEqual([]);
    expect(leftWhenOff(x, y)).toEqual(meeting.crossings);
  }
});

// Two lines through the seam, joined by an upright before it: the ends of the other one meet there. A ring's side only
// touches the next ring's.
test('a line that was drawn through the seam goes on there; what only touches along the edge is told', () => {
  const left = (drawn: Polyline) => {
    const { index, repeat, meeting } = rowOf(drawn);
    expect(meeting.crossings.length).toBeGreaterThan(0);
    return withoutSeamless(meeting, index, repeat, () => []).crossings.length;
  };
  for (const slope of [0, 0.5, -1.5]) {
    const at = (x: number, y: number): [number, number] => [x, y + slope * Math.min(x, 100 - x)];
    const spur = [at(60, 30), at(100, 30), at(60, 30)].flat();
    const back = [at(40, 30), at(0, 30), at(40, 30)].flat();
    expect(left(line(...at(0, 0), ...at(40, 0), ...back, ...spur, ...at(60, 0), ...at(100, 0)))).toBe(0);
  }
  const side = (x: number, sign: number) =>
    Array.from({ length: 61 }, (_, i) => {
      const angle = (Math.PI * (i - 30)) / 60;
      return [x - sign * 20 * (1 - Math.cos(angle)), 40 + 20 * Math.sin(angle)];
    }).flat();
  expect(
    left(line(0, 0, 20, 0, ...side(0, -1), 60, 60, 80, 20, ...side(100, 1), 80, 0, 100, 0)),
  ).toBeGreaterThan(0);
});
