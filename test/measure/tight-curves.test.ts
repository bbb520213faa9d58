import { describe, expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { distance } from '../../src/geometry/point.js';
import { chained, lengthOf, moved, pointsOf, polylineOf, reversed } from '../../src/geometry/polyline.js';
import { pointToSegment } from '../../src/geometry/segment.js';
import { studyOf } from '../../src/measure/index.js';
import { tightCurvesOf } from '../../src/measure/stitching/tight-curves.js';
import { tightCurvesEndOf } from '../../src/measure/stitching/tight-curves-ended.js';
import { walkedLines } from '../../src/measure/stitching/walked-line.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { motifIn } from '../checked.js';
import { curve, line, loops, randomFrom } from './lines.js';
import { arc, circle, densified, mirrored, turned } from './shapes.js';
import { turtle } from './turtle.js';

const stitchMm = 25.4 / 11;

function tightCurves(line: Polyline, cutMm = 0.4) {
  return tightCurvesOf(walkedLines([line], stitchMm), stitchMm, cutMm).places;
}

/** Half a circle of this radius between two straight legs. */
function bend(radius: number): Polyline {
  return chained([line(-30, -radius, 0, -radius), arc(0, 0, radius, -90, 90), line(0, radius, -30, radius)]);
}

/** Half circles up and down in turn, with straight legs between them and straight lines at both ends. */
function ripples(count: number, radius: number, legMm: number): Polyline {
  const parts = [line(-20, 0, 0, 0)];
  for (let k = 0; k < count; k++) {
    const x = 4 * radius * k;
    parts.push(
      line(x, 0, x, -legMm),
      arc(x + radius, -legMm, radius, 180, 360),
      line(x + 2 * radius, -legMm, x + 2 * radius, 0),
      arc(x + 3 * radius, 0, radius, 180, 0),
    );
  }
  return chained([...parts, line(4 * radius * count, 0, 4 * radius * count + 20, 0)]);
}

describe('what a stitch cuts off', () => {
  // Machinery's Handbook, circular segments: a chord of 25.4 / 11 cuts 0.231 off radius 3 and 0.367 off radius 2.
  test('is the published height of the circular segment', () => {
    for (const [radius, cutMm] of [
      [3, 0.231],
      [2, 0.367],
    ]) {
      const [found, ...others] = tightCurves(bend(radius), 0.15);
      expect(others).toEqual([]);
      // Chords leave the arc by 0.005 mm, at either end of the stitch and in its middle.
      expect(Math.abs(found.cutMm - cutMm)).toBeLessThan(0.011);
      expect(Math.abs(found.radiusMm - radius)).toBeLessThan(0.05 * radius);
    }
  });

  test('goes over 0.4 mm at radius 1.866 and less', () => {
    for (const radius of [1.92, 2.5, 5, 50]) expect(tightCurves(bend(radius))).toEqual([]);
    for (const radius of [0.5, 1, 1.5, 1.8]) {
      const [found, ...others] = tightCurves(bend(radius));
      expect(others).toEqual([]);
      expect(Math.abs(distance(found.at, { x: 0, y: 0 }) - radius)).toBeLessThan(0.02);
      expect(Math.abs(found.radiusMm - radius)).toBeLessThan(0.1 * radius);
    }
  });

  test('on a circle smaller than a stitch, its radius', () => {
    for (const radius of [0.3, 0.5, 0.8]) {
      const [found] = tightCurves(circle(0, 0, radius));
      expect(Math.abs(found.radiusMm - radius)).toBeLessThan(0.1 * radius);
    }
  });

  test('does not depend on how densely the curve is drawn', () => {
    for (const radius of [1, 1.5, 1.8, 2.5]) {
      for (const cutMm of [0.2, 0.4]) {
        const drawn = bend(radius);
        const [coarse, ...others] = tightCurves(drawn, cutMm);
        expect(others).toEqual([]);
        for (const stepMm of [0.1, 0.03, 0.01]) {
          const [dense] = tightCurves(densified(drawn, stepMm), cutMm);
          const [a, b] = [dense?.cutMm ?? 0, coarse?.cutMm ?? 0];
          expect(Math.abs(a - b)).toBeLessThan(Math.max(0.03, 0.06 * b));
        }
      }
    }
  });

  test('on ripples far smaller than a stitch, each of them and its own radius', () => {
    for (const legMm of [0.4, 1]) {
      for (const radius of [0.15, 0.2]) {
        const found = tightCurves(ripples(160, radius, legMm));
        // Twice 160 half circles, and the corner between the last of them and the straight line.
        expect(found).toHaveLength(321);
        const round = found.filter(({ radiusMm }) => Math.abs(radiusMm - radius) < 0.15 * radius);
        expect(round.length).toBeGreaterThanOrEqual(319);
      }
    }
  });

  // At the top of A sin(k x) the radius is 1 / A k²: 1.7 mm. Of a stitch over it the cut and the radius say the same.
  test('and the radius said are those of one circle, on a curve that is none too', () => {
    const wave = curve(6000, (t) => [80 * t, 1.2 * Math.sin(0.7 * 80 * t)]);
    const found = tightCurves(wave, 0.25);
    expect(found.length).toBeGreaterThan(10);
    for (const { cutMm, radiusMm } of found)
      expect(radiusMm).toBeCloseTo((cutMm ** 2 + (stitchMm / 2) ** 2) / (2 * cutMm), 9);
  });

  test('counts each curve once', () => {
    const wave = curve(4000, (t) => [80 * t, 4 * Math.sin(16 * Math.PI * t)]);
    expect(tightCurves(wave)).toHaveLength(16);
    expect(tightCurves(loops(10, 14, 10))).toEqual([]);
  });
});

describe('corners', () => {
  const key = (side: number) =>
    line(
      ...[0, 1, 2, 3].flatMap((k) => [0, 0, 1, 0, 1, 1, 2, 1].map((v, i) => (i % 2 ? v : v + 2 * k) * side)),
    );

  test('are no tight curves: a key pattern of right angles is clean', () => {
    for (const side of [2.31, 3, 5, 20]) {
      expect(tightCurves(key(side))).toEqual([]);
      expect(tightCurves(densified(key(side), 0.05))).toEqual([]);
      expect(tightCurves(turned(key(side), 33))).toEqual([]);
    }
  });

  test('of any angle, between straight legs or curves, rounded by a tenth of a millimetre', () => {
    for (const deg of [0, 3, 20, 45, 60, 90, 120, 150])
      expect(tightCurves(chained([line(-20, 0, 0, 0), turned(line(0, 0, -20, 0), deg)]))).toEqual([]);
    for (const radius of [3, 8, 30])
      expect(
        tightCurves(chained([arc(-radius, 0, radius, 180, 360), arc(radius, 0, radius, 180, 360)])),
      ).toEqual([]);
    const rounded = chained([line(-20, -0.1, 0, -0.1), arc(0, 0, 0.1, -90, 0), line(0.1, 0, 0.1, 20)]);
    expect(tightCurves(rounded)).toEqual([]);
    expect(tightCurves(densified(rounded, 0.02))).toEqual([]);
  });

  test('with legs shorter than a stitch are tight', () => {
    expect(tightCurves(key(1.5)).length).toBeGreaterThan(3);
    expect(tightCurves(densified(key(1.5), 0.05))).toHaveLength(tightCurves(key(1.5)).length);
    expect(tightCurves(line(-20, 0, 0, 0, 0.6, 1.2, 1.2, 0, 1.8, 1.2, 2.4, 0, 20, 0)).length).toBeGreaterThan(
      1,
    );
  });

  // From a place before a right angle to one as far behind it a stitch cuts off half its length, and nowhere more.
  test('between steps shorter than a stitch cut off half a stitch, whichever way they lie', () => {
    const steps = line(
      -20,
      0,
      ...Array.from({ length: 6 }, (_, k) => [2 * ((k + 1) >> 1), 2 * (k >> 1)]).flat(),
      6,
      30,
    );
    for (const deg of [0, 20, 45, 135, 290]) {
      const found = tightCurves(turned(steps, deg));
      expect(found).toHaveLength(5);
      for (const { cutMm } of found) {
        expect(cutMm).toBeLessThan(stitchMm / 2 + 1e-9);
        expect(cutMm).toBeGreaterThan(0.497 * stitchMm);
      }
    }
  });

  test('of a closed line are corners where it begins as elsewhere', () => {
    expect(tightCurves(line(0, 0, 10, 0, 10, 10, 0, 10, 0, 0))).toEqual([]);
    expect(tightCurves(line(0, 0, 1, 0, 1, 1, 0, 1, 0, 0)).length).toBeGreaterThan(0);
  });
});

/** What the worst of all stitches cuts off, by laying one from every point of a line that has a point every few hundredths. */
function worstCut(drawn: Polyline): number {
  const at = [...pointsOf(drawn)];
  let worst = 0;
  for (let from = 0; from < at.length; from++) {
    let to = from + 1;
    while (to < at.length && distance(at[from], at[to]) < stitchMm) to++;
    if (to === at.length) break;
    const [{ x: ax, y: ay }, { x: bx, y: by }] = [at[from], at[to]];
    for (const { x, y } of at.slice(from + 1, to))
      worst = Math.max(worst, pointToSegment(x, y, ax, ay, bx, by));
  }
  return worst;
}

/** The least radius of the circles through three points of the line, a quarter of a millimetre and more apart. */
function sharpestMm(drawn: Polyline): number {
  const at = [...pointsOf(drawn)];
  let least = Infinity;
  for (let i = 4; i + 4 < at.length; i++) {
    const [a, b, c] = [at[i - 4], at[i], at[i + 4]];
    const twiceArea = Math.abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
    least = Math.min(least, (distance(a, b) * distance(b, c) * distance(c, a)) / (2 * twiceArea));
  }
  return least;
}

test('on random smooth lines the worst cut is that of all stitches laid one by one', () => {
  const random = randomFrom(8);
  let [tight, sound] = [0, 0];
  for (let round = 0; round < 40; round++) {
    const waves = [1, 2, 3, 4].map((k) => ({
      k: 3 * k,
      mm: ((round % 2 ? 4 : 2) * random()) / k,
      phase: 7 * random(),
    }));
    const swing = (t: number, phase: number) =>
      waves.reduce((sum, { k, mm, ...w }) => sum + mm * Math.sin(2 * Math.PI * k * t + w.phase + phase), 0);
    const drawn = curve(3000, (t) => [90 * t + 0.4 * swing(t, 2), swing(t, 0)]);
    // A bend of a tenth of a millimetre is a corner.
    if (sharpestMm(drawn) < 0.7) continue;
    const found = tightCurves(drawn);
    const worst = worstCut(drawn);
    // Points stand up to a tenth of a millimetre apart.
    if (found.length > 0) expect(Math.abs(found[0].cutMm - worst)).toBeLessThan(0.03);
    else expect(worst).toBeLessThan(0.42);
    if (found.length > 0) tight++;
    else sound++;
    expect(found).toEqual([...found].sort((a, b) => b.cutMm - a.cutMm));
  }
  expect(Math.min(tight, sound)).toBeGreaterThan(5);
});

test('a line that is tight all along is told by the first of it, and that there is more', () => {
  const teeth = (count: number) =>
    walkedLines([curve(count, (t) => [0.4 * count * t, Math.round(count * t) % 2])], stitchMm);
  expect(tightCurvesOf(teeth(1000), stitchMm, 0.4).more).toBe(false);
  const { places, more } = tightCurvesOf([...teeth(1000), ...teeth(60_000)], stitchMm, 0.4);
  expect(more).toBe(true);
  expect(places.length).toBeGreaterThan(1000);
});

test('an unsteady hand makes no tight curves', () => {
  const random = randomFrom(3);
  expect(tightCurves(curve(5000, (t) => [150 * t, 12 * Math.sin(9 * t) + 0.03 * random()]))).toEqual([]);
});

test('mirroring, turning, reversing and moving change nothing', () => {
  const drawn = chained([bend(1.2), moved(bend(3), 40, 20), moved(bend(0.7), 80, -10)]);
  const cuts = (l: Polyline) => tightCurves(l).map(({ cutMm }) => cutMm);
  const found = cuts(drawn);
  expect(found.length).toBeGreaterThan(1);
  for (const other of [
    mirrored(drawn),
    turned(drawn, 180),
    turned(drawn, 37),
    moved(drawn, 90, 40),
    reversed(drawn),
  ]) {
    const again = cuts(other);
    expect(again).toHaveLength(found.length);
    for (const [k, cutMm] of again.entries())
      expect(Math.abs(cutMm - found[k])).toBeLessThan(0.02 * found[k]);
  }
});

describe('what ends tight curves', () => {
  const endOf = (drawn: Polyline, perInch = 11, finest = 20) =>
    tightCurvesEndOf([drawn], 0.01, perInch, 0.4, finest, tightCurves(drawn));
  const enlarged = (drawn: Polyline, times: number) => drawn.map((value) => times * value);

  test('on a half circle is the size and the stitch of the circle segment', () => {
    // A chord of 25.4 / 11 cuts 0.4 off radius 1.866; on radius r the longest chord that does is 2 sqrt(0.4 (2r - 0.4)).
    for (const radius of [0.7, 1.2, 1.5, 1.8]) {
      const { timesAsLarge, stitchesPerInch } = endOf(bend(radius));
      expect(timesAsLarge! * radius).toBeGreaterThan(1.866);
      expect(timesAsLarge! * radius).toBeLessThan(1.1 * 1.866 + 0.05 * radius);
      const perInch = Math.ceil(25.4 / (2 * Math.sqrt(0.4 * (2 * radius - 0.4))));
      expect(stitchesPerInch).toBe(perInch > 20 ? null : perInch);
    }
  });

  test('is a whole number of stitches to the inch, no more than the finest', () => {
    // By the circle segment 12.45 and more would do for the first, 11.23 and more for the second.
    expect(endOf(bend(1.5), 11, 12.9).stitchesPerInch).toBeNull();
    expect(endOf(bend(1.8), 11, 11.9).stitchesPerInch).toBeNull();
    expect(endOf(bend(1.8), 11, 12.9).stitchesPerInch).toBe(12);
  });

  test('ends them: drawn anew at that size, none is left', () => {
    for (const radius of [0.55, 0.8, 1.3]) {
      for (const legMm of [1, 2.5]) {
        const { timesAsLarge } = endOf(ripples(12, radius, legMm));
        expect(tightCurves(ripples(12, timesAsLarge! * radius, timesAsLarge! * legMm))).toEqual([]);
        expect(tightCurves(enlarged(ripples(12, radius, legMm), 0.7 * timesAsLarge!))).not.toEqual([]);
      }
    }
  });

  // Its arcs drawn anew at each size. What a stitch cuts off may be 0.02 mm more there, and as much less.
  test('ends them on lines with bends of every kind, and no size a step less does', () => {
    let [sizes, stitches] = [0, 0];
    for (let seed = 1; seed <= 14; seed++) {
      const at = (size: number) => polylineOf(turtle(randomFrom(seed), 3, size).points);
      const drawn = at(1);
      const tight = tightCurves(drawn);
      if (tight.length === 0) continue;
      const end = tightCurvesEndOf([drawn], 0.002, 11, 0.4, 20, tight);
      const mirror = mirrored(turned(drawn, 33));
      expect(tightCurvesEndOf([mirror], 0.002, 11, 0.4, 20, tightCurves(mirror))).toEqual(end);
      const { timesAsLarge, stitchesPerInch } = end;
      if (timesAsLarge !== null) {
        for (const near of [0.98, 1, 1.02]) expect(tightCurves(at(near * timesAsLarge))).toEqual([]);
        expect(tightCurves(at(0.97 * (timesAsLarge - 0.05)), 0.35)).not.toEqual([]);
        expect(timesAsLarge).toBeCloseTo(0.05 * Math.round(20 * timesAsLarge), 9);
        sizes++;
      } else expect(tightCurves(at(0.97 * 6), 0.35)).not.toEqual([]);
      const isTight = (perInch: number) =>
        tightCurvesOf(walkedLines([drawn], stitchMm), 25.4 / perInch, 0.4).places.length > 0;
      expect(isTight(stitchesPerInch ?? 20)).toBe(stitchesPerInch === null);
      if (stitchesPerInch === null) continue;
      expect(isTight(stitchesPerInch - 1)).toBe(true);
      stitches++;
    }
    expect(Math.min(sizes, stitches)).toBeGreaterThan(3);
  });

  test('ends them in motifs of the corpus that are drawn too small: read anew at that size, none is left', async () => {
    for (const name of ['breakers', 'hawser', 'lighthouse', 'net', 'rope-coil']) {
      for (const widthMm of [40, 80]) {
        const file = new URL(`../../corpus/motifs/${name}.svg`, import.meta.url).pathname;
        const at = async (times: number, stitchesPerInch = 11) => {
          const setup = { ...defaultSetup, widthMm: times * widthMm, stitchesPerInch };
          return studyOf(await motifIn(file, setup), setup);
        };
        const small = await at(1);
        expect(small.tightCurves(0.4).places).not.toEqual([]);
        const end = small.tightCurvesEnd(0.4, 20);
        expect((await at(end.timesAsLarge!)).tightCurves(0.4).places).toEqual([]);
        if (end.stitchesPerInch !== null)
          expect((await at(1, end.stitchesPerInch)).tightCurves(0.4).places).toEqual([]);
      }
    }
  });

  test('is found where the largest size looked at will not do', async () => {
    // A bend of 0.07 mm asks for the largest size, and as it is drawn there another bend counts as too tight.
    const jagged =
      'M71.51 32.08L61.41 45.01Q43.49 56.02 62.34 55.59L48.15 37.14C43.69 47.52 44.35 55.8 48.81 53.48C62.07 72.94 67.11 58.35 71.77 57.91C76.32 43.54 92.88 55.3 110.81 57.83L92.63 76.93A14.65 4.91 0 1 1 100.35 90.41Q118.45 77.68 114.55 79.44L102.45 63.36L101.29 74.07L112.83 63.94';
    const wave =
      'M125.27 8.27Q111.35 11.66 122.51 24.52C109.46 39.22 99.59 57.18 100.69 65.67A16.9 19.96 0 0 1 90.81 59.08C107.32 45.17 95.5 32.46 80.83 26.87Q66.72 30.43 77.38 20.52';
    const at = async (times: number) => {
      const text = `<svg xmlns="http://www.w3.org/2000/svg" width="${200 * times}mm" height="${100 * times}mm" viewBox="0 0 200 100"><path fill="none" stroke="#000" d="${jagged}"/><path fill="none" stroke="#000" d="${wave}"/></svg>`;
      return studyOf(toMotif(await readArtwork(Buffer.from(text), 'jagged.svg'), defaultSetup), defaultSetup);
    };
    const { timesAsLarge } = (await at(1)).tightCurvesEnd(0.4, 20);
    expect(timesAsLarge).not.toBeNull();
    expect((await at(timesAsLarge!)).tightCurves(0.4).places).toEqual([]);
  });

  test('is no size that nobody would stitch: on a half circle of 0.3 mm it would be more than six times', () => {
    expect(endOf(bend(0.3))).toEqual({ timesAsLarge: null, stitchesPerInch: null });
  });

  test('is not looked for on a line of more than 100,000 points', () => {
    const drawn = bend(1.5);
    const dense = densified(drawn, lengthOf(drawn) / 99_000);
    expect(dense.length / 2).toBeGreaterThan(98_000);
    expect(endOf(drawn).timesAsLarge).not.toBeNull();
    expect(endOf(chained([dense, moved(dense, 0, 20)]))).toEqual({
      timesAsLarge: null,
      stitchesPerInch: null,
    });
  });

  test('is not said where no longarm does it', () => {
    expect(endOf(ripples(12, 0.15, 0.4), 8)).toEqual({ timesAsLarge: null, stitchesPerInch: null });
  });
});
