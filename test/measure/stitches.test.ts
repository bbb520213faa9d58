import { expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { lengthOf } from '../../src/geometry/polyline.js';
import { nearestShare, pointToSegment } from '../../src/geometry/segment.js';
import { stitchesOf, threadMm } from '../../src/measure/stitching/stitches.js';
import { curve, line, randomFrom } from './lines.js';

const stitch = 25.4 / 11;

function halfTurn(radius: number) {
  return curve(20_000, (t) => [-radius * Math.cos(Math.PI * t), radius * Math.sin(Math.PI * t)]);
}

// Circle segment tables (Machinery's Handbook): s = r - sqrt(r² - (c/2)²).
test.each([
  [3, 0.231],
  [2, 0.367],
])('a stitch of 11 to the inch on a radius of %d mm cuts %d mm', (radius, published) => {
  const { chordErrorMm, chordErrorAt } = stitchesOf([halfTurn(radius)], defaultSetup);
  expect(chordErrorMm).toBeCloseTo(published, 3);
  expect(chordErrorMm).toBeCloseTo(radius - Math.sqrt(radius ** 2 - (stitch / 2) ** 2), 5);
  expect(Math.hypot(chordErrorAt.x, chordErrorAt.y)).toBeCloseTo(radius, 6);
});

test('a straight line takes its length over the stitch length, and nothing is cut', () => {
  const sewn = (mm: number) => stitchesOf([line(0, 0, mm, 0)], defaultSetup);
  expect(sewn(254).count).toBe(110);
  expect(sewn(254.1).count).toBe(111);
  expect(sewn(2).count).toBe(1);
  expect(sewn(254).chordErrorMm).toBe(0);
  expect(stitchesOf([line(0, 0, 254, 0), line(0, 9, 254, 9)], defaultSetup).count).toBe(220);
});

test('points along a straight line, repeated ones too, change nothing', () => {
  const many = line(...Array.from({ length: 2541 }, (_, i) => [i / 10, 0, i / 10, 0]).flat());
  const { count, chordErrorMm } = stitchesOf([many], defaultSetup);
  expect(count).toBe(110);
  expect(chordErrorMm).toBeCloseTo(0, 12);
});

// A right angle met in the middle of a stitch: the hypotenuse passes its corner at half the stitch length at most.
test('a pen that trembles by hundredths of a millimetre takes no more stitches', () => {
  // 200 mm in steps of 0.005 mm, each off by up to 0.01 mm: eight times as much way, if every step of it counted.
  const random = randomFrom(1890);
  const trembling = Float64Array.from({ length: 2 * 40_001 }, (_, i) =>
    i % 2 === 0 ? (i / 2) * 0.005 : 0.02 * (random() - 0.5),
  );
  const level = Float64Array.of(0, 0, 200, 0);
  const count = (line: Polyline) => stitchesOf([line], defaultSetup).count;
  expect(Math.abs(count(trembling) - count(level))).toBeLessThanOrEqual(1);
});

test('a corner is cut by at most half a stitch, and a spike within a stitch is not passed over', () => {
  const corner = stitchesOf(
    [line(0, 0, 10 * stitch + stitch / Math.SQRT2, 0, 10 * stitch + stitch / Math.SQRT2, 30)],
    defaultSetup,
  );
  expect(corner.chordErrorMm).toBeCloseTo(stitch / 2, 6);
  // Ways of 1 mm there and back: a hole at least every pi/2 stitches of way.
  const comb = line(...Array.from({ length: 200 }, (_, i) => [0.001 * i, i % 2]).flat());
  expect(stitchesOf([comb], defaultSetup).count).toBeGreaterThanOrEqual(
    Math.floor(199 / ((Math.PI / 2) * stitch)),
  );
});

// Lockstitch, ISO 4915 type 301: needle and bobbin thread together 2 + 2TS per unit of seam, half each.
test('thread follows the lockstitch formula', () => {
  const { needleThreadM, bobbinThreadM } = stitchesOf([line(0, 0, 1000, 0)], {
    ...defaultSetup,
    threadWastePercent: 0,
  });
  const [thickness, perMm] = [3, 11 / 25.4];
  expect(needleThreadM + bobbinThreadM).toBeCloseTo(2 + 2 * thickness * perMm, 9);
  expect(needleThreadM).toBe(bobbinThreadM);
  expect(threadMm(1000, stitch, 3, 15)).toBeCloseTo(1.15 * threadMm(1000, stitch, 3, 0), 9);
  // Thread makers' tables: about 2.5 units for both together in ordinary apparel plies, here 0.6 mm at 10 to the inch.
  expect((2 * threadMm(1000, 2.54, 0.6, 0)) / 1000).toBeCloseTo(2.5, 1);
});

test('beyond the limit the count is worked out from the length', () => {
  const setup = { ...defaultSetup, limits: { ...defaultSetup.limits, stitches: 10 } };
  expect(stitchesOf([line(0, 0, 254, 0)], setup).count).toBe(110);
  expect(stitchesOf([line(0, 0, 254, 0), line(0, 9, 100, 9)], setup).count).toBe(
    110 + Math.ceil(100 / stitch),
  );
});

/** The definition walked in steps of a two-thousandth of a stitch: holes, the farthest the line is cut, and what is left after `most`. */
function walkedFinely(drawn: Polyline, most: number) {
  const fine: [number, number][] = [[drawn[0], drawn[1]]];
  for (let i = 2; i < drawn.length; i += 2) {
    const [ax, ay, bx, by] = drawn.subarray(i - 2, i + 2);
    const steps = Math.ceil(Math.hypot(bx - ax, by - ay) / (stitch / 2000));
    for (let k = 1; k <= steps; k++) fine.push([ax + ((bx - ax) * k) / steps, ay + ((by - ay) * k) / steps]);
  }
  const apart = (i: number, j: number) => Math.hypot(fine[i][0] - fine[j][0], fine[i][1] - fine[j][1]);
  let [hole, way, count, cutMm] = [0, 0, 0, 0];
  const lay = (to: number) => {
    for (let i = hole; i <= to; i++) {
      const share = nearestShare(...fine[i], ...fine[hole], ...fine[to]);
      const [x, y] = [0, 1].map((k) => fine[hole][k] + share * (fine[to][k] - fine[hole][k]));
      cutMm = Math.max(cutMm, Math.hypot(fine[i][0] - x, fine[i][1] - y));
    }
    [hole, way, count] = [to, 0, count + 1];
  };
  for (let i = 1; i < fine.length; i++) {
    way += apart(i - 1, i);
    if (apart(hole, i) >= stitch || way >= (Math.PI / 2) * stitch) lay(i);
    if (count === most) {
      let leftMm = 0;
      for (let k = i + 1; k < fine.length; k++) leftMm += apart(k - 1, k);
      return { count, cutMm, leftMm };
    }
  }
  lay(fine.length - 1);
  return { count, cutMm, leftMm: 0 };
}

test('random lines are stitched as the definition says, walked in fine steps; beyond the limit by length', () => {
  const random = randomFrom(301);
  for (let round = 0; round < 60; round++) {
    let [x, y] = [0, 0];
    // Legs shorter and longer than a stitch, spikes among them, in two strokes.
    const legs = () =>
      Float64Array.from(
        Array.from({ length: 12 }, () => {
          const [longMm, turn] = [0.3 + 7 * random() ** 2, 2 * Math.PI * random()];
          [x, y] = [x + longMm * Math.cos(turn), y + longMm * Math.sin(turn)];
          return [x, y];
        }).flat(),
      );
    const strokes = [legs(), legs()];
    const walked = strokes.map((each) => walkedFinely(each, Infinity));
    const laid = stitchesOf(strokes, defaultSetup);
    // The last stitch of a stroke may be a hair long or not there.
    expect(Math.abs(laid.count - walked[0].count - walked[1].count)).toBeLessThanOrEqual(1);
    const cutMm = Math.max(...walked.map((each) => each.cutMm));
    expect(Math.abs(laid.chordErrorMm - cutMm)).toBeLessThan(0.02);
    const { x: atX, y: atY } = laid.chordErrorAt;
    const off = strokes.map((each) => Math.min(...nearest(each, atX, atY)));
    expect(Math.min(...off)).toBeLessThan(1e-9);
    const most = 2 + Math.floor(6 * random());
    const setup = { ...defaultSetup, limits: { ...defaultSetup.limits, stitches: most } };
    const begun = walkedFinely(strokes[0], most);
    const expected = begun.count + begun.leftMm / stitch;
    if (begun.count < most) continue;
    const counted = stitchesOf([strokes[0]], setup).count;
    expect(counted).toBeGreaterThan(expected - 0.1);
    expect(counted).toBeLessThan(expected + 1.1);
    expect(stitchesOf(strokes, setup).count - counted).toBe(Math.ceil(lengthOf(strokes[1]) / stitch));
  }
});

function nearest(drawn: Polyline, x: number, y: number): number[] {
  return Array.from({ length: drawn.length / 2 - 1 }, (_, i) => {
    const [ax, ay, bx, by] = drawn.subarray(2 * i, 2 * i + 4);
    return pointToSegment(x, y, ax, ay, bx, by);
  });
}
