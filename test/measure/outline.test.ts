import { describe, expect, test } from 'vitest';
import type { Point, Polyline } from '../../shared/plane.js';
import { chained, moved, reversed } from '../../src/geometry/polyline.js';
import { pointToSegment } from '../../src/geometry/segment.js';
import { outlineOf } from '../../src/measure/drawing/outline.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { bufferOutline, walkedOutline } from '../pen-outline.js';
import { curve, hilbert, line, loops } from './lines.js';
import { arc, circle, densified, mirrored, turned } from './shapes.js';

function outline(...strokes: Polyline[]) {
  return outlineOf(new SegmentIndex(strokes));
}

const swell = curve(300, (t) => [240 * t, 30 * Math.sin(4 * Math.PI * t)]);
const coil = loops(6, 34, 22);
const zigzag = line(0, 0, 30, 40, 60, 0, 90, 40, 120, 0, 150, 40);
const leaf = (() => {
  const closed = curve(200, (t) => [
    60 * Math.cos(2 * Math.PI * t),
    25 * Math.sin(2 * Math.PI * t) * (1 + 0.4 * Math.cos(6 * Math.PI * t)),
  ]);
  closed.set(closed.subarray(0, 2), closed.length - 2);
  return closed;
})();

describe('the outline of a pen stroke', () => {
  test('drawn by the jsts buffer or walked along both sides: the width of the pen to 2 percent', () => {
    for (const drawn of [swell, coil, zigzag]) {
      for (const penMm of [0.3, 1, 2, 3]) {
        for (const strokes of [bufferOutline(drawn, penMm), [walkedOutline(drawn, penMm)]]) {
          const found = outline(...strokes);
          expect(Math.abs((found?.penMm ?? 0) - penMm)).toBeLessThan(0.02 * penMm);
        }
      }
    }
  });

  test('may be as much narrower on a slope as a wave that was moved straight down by its height', () => {
    // On a slope of 30 / 240 * 4 pi the band of 3 mm is 3 cos 57.5 deg wide; on most of the wave it is within a quarter.
    const gentle = curve(300, (t) => [240 * t, 15 * Math.sin(4 * Math.PI * t)]);
    const band = chained([gentle, line(240, 0, 240, 3), reversed(moved(gentle, 0, 3)), line(0, 3, 0, 0)]);
    const penMm = outline(band)?.penMm ?? 0;
    expect(penMm).toBeGreaterThan(3 * Math.cos(Math.atan(Math.PI / 4)));
    expect(penMm).toBeLessThan(3);
  });

  test('of a closed line is two rings', () => {
    for (const closed of [leaf, circle(0, 0, 40)]) {
      const rings = bufferOutline(closed, 1.5);
      expect(rings).toHaveLength(2);
      expect(Math.abs((outline(...rings)?.penMm ?? 0) - 1.5)).toBeLessThan(0.03);
      expect(Math.abs((outline(rings[0], reversed(rings[1]))?.penMm ?? 0) - 1.5)).toBeLessThan(0.03);
    }
  });

  test('may be of several shapes, as long as their pens differ by a fifth at most', () => {
    const shape = (penMm: number, down: number) => moved(walkedOutline(swell, penMm), 0, down);
    expect(outline(shape(1, 0), shape(1.15, 200), shape(0.85, 400))?.strokes).toEqual([0, 1, 2]);
    expect(outline(shape(1, 0), shape(1.25, 200), shape(0.75, 400), shape(3, 600))?.strokes).toEqual([0]);
    // A closed shape that is no pen's stroke is left out.
    expect(outline(moved(leaf, 0, 300), shape(1, 0))?.strokes).toEqual([1]);
    expect(outline(shape(1, 0), moved(swell, 0, 300))).toBeNull();
  });

  test('is the same mirrored, turned, reversed, moved or drawn with more points', () => {
    const [drawn] = bufferOutline(swell, 1);
    for (const other of [
      mirrored(drawn),
      turned(drawn, 37),
      reversed(drawn),
      moved(drawn, 500, -300),
      densified(drawn, 0.05),
    ])
      expect(Math.abs((outline(other)?.penMm ?? 0) - 1)).toBeLessThan(0.02);
  });
});

/** A band between two straight sides, this wide at its ends. */
function band(lengthMm: number, fromMm: number, toMm = fromMm): Polyline {
  return line(0, -fromMm / 2, lengthMm, -toMm / 2, lengthMm, toMm / 2, 0, fromMm / 2, 0, -fromMm / 2);
}

describe('a band between two sides', () => {
  const allWays = (drawn: Polyline) => [
    drawn,
    mirrored(drawn),
    reversed(drawn),
    turned(drawn, 33),
    turned(drawn, 90),
    moved(turned(drawn, 147), -300, 40),
  ];

  test('is as wide as they are apart, and its place lies on it', () => {
    for (const penMm of [0.12, 0.5, 2, 3.9]) {
      for (const drawn of allWays(band(200, penMm))) {
        const found = outline(drawn)!;
        expect(found.penMm).toBeCloseTo(penMm, 9);
        expect(found.strokes).toEqual([0]);
        expect(Math.min(...distances(drawn, found.at))).toBeLessThan(1e-9);
      }
    }
  });

  test('is no pen where it is wider than 4 mm or a fortieth of its girth, or narrower than 0.1 mm', () => {
    for (const [lengthMm, penMm] of [
      [200, 4.1],
      [200, 0.09],
      [30, 1.65],
      [60, 3.2],
    ])
      for (const drawn of allWays(band(lengthMm, penMm))) expect(outline(drawn)).toBeNull();
    expect(outline(band(30, 1.5))?.penMm).toBeCloseTo(1.5, 9);
    expect(outline(band(60, 3.1))?.penMm).toBeCloseTo(3.1, 9);
  });

  // From 1 - d to 1 + d of its middle width, what is within a quarter of that is 1 / 4 d of the whole: four fifths at 0.31.
  test('may widen by less than a third of its width either way', () => {
    for (const drawn of allWays(band(200, 2 * 0.71, 2 * 1.29)))
      expect(Math.abs(outline(drawn)!.penMm - 2)).toBeLessThan(0.05);
    for (const drawn of allWays(band(200, 2 * 0.66, 2 * 1.34))) expect(outline(drawn)).toBeNull();
  });

  test('may have a fifth of its girth without another side across', () => {
    // A stem with a square of 20 mm at its end: sides of 80 mm less the stem's width see nothing within 4 mm.
    const stem = (mm: number) =>
      line(0, 0, mm, 0, mm, -9.5, mm + 20, -9.5, mm + 20, 10.5, mm, 10.5, mm, 1, 0, 1, 0, 0);
    for (const drawn of allWays(stem(200))) expect(outline(drawn)?.penMm).toBeCloseTo(1, 9);
    for (const drawn of allWays(stem(120))) expect(outline(drawn)).toBeNull();
  });

  test('may have as near a neighbour on the outer side on three tenths of its girth', () => {
    // A band 1 mm wide that goes out and comes back, so far from itself; on the inside of the bend it sees itself.
    const hook = (gapMm: number, backMm: number) => {
      const [inner, outer] = [gapMm / 2, gapMm / 2 + 1];
      return line(
        ...[0, -outer, 100, -outer, 100, outer, 100 - backMm, outer, 100 - backMm, inner],
        ...[99, inner, 99, -inner, 0, -inner, 0, -outer],
      );
    };
    for (const drawn of allWays(hook(1.45, 45))) expect(outline(drawn)?.penMm).toBeCloseTo(1, 9);
    for (const drawn of allWays(hook(1.45, 90))) expect(outline(drawn)).toBeNull();
    // Farther away than one and a half times its width it is another line of it.
    for (const drawn of allWays(hook(1.55, 90))) expect(outline(drawn)?.penMm).toBeCloseTo(1, 9);
  });

  test('is closed where its ends are 0.05 mm apart, and not where they are farther', () => {
    const gap = (mm: number) => Float64Array.of(...band(200, 1).slice(0, -1), -0.5 + mm);
    expect(outline(gap(0.04))?.penMm).toBeCloseTo(1, 6);
    expect(outline(gap(0.06))).toBeNull();
  });

  test('is one of its own beside another only where it is a small share of its own girth', () => {
    const long = band(300, 1);
    const rings = (radius: number) => [circle(50, 60, radius), circle(50, 60, radius - 0.9)];
    expect(outline(long, ...rings(9))?.strokes).toEqual([0, 1, 2]);
    expect(outline(long, ...rings(3.1))?.strokes).toEqual([0]);
    expect(outline(...rings(9), long)?.strokes).toEqual([0, 1, 2]);
    // Rings drawn one after another see only their own other side.
    const apart = [circle(0, 60, 9), circle(50, 60, 9), circle(50, 60, 8.1), circle(0, 60, 8.1)];
    expect(outline(...apart)?.strokes.toSorted()).toEqual([0, 1, 2, 3]);
  });
});

function distances(drawn: Polyline, { x, y }: Point): number[] {
  return Array.from({ length: drawn.length / 2 - 1 }, (_, k) => {
    const [ax, ay, bx, by] = drawn.subarray(2 * k, 2 * k + 4);
    return pointToSegment(x, y, ax, ay, bx, by);
  });
}

describe('what is no outline', () => {
  test('lines with two ends, even where they run out and back side by side', () => {
    expect(outline(swell)).toBeNull();
    expect(outline(chained([swell, moved(reversed(swell), 0, 2)]))).toBeNull();
    const open = walkedOutline(swell, 1).slice(0, -2);
    expect(outline(open)).toBeNull();
  });

  test('a line retraced to its beginning', () => {
    expect(outline(chained([swell, reversed(swell)]))).toBeNull();
  });

  test('closed shapes', () => {
    expect(outline(leaf)).toBeNull();
    expect(outline(circle(0, 0, 20))).toBeNull();
    expect(outline(line(0, 0, 100, 0, 100, 60, 0, 60, 0, 0))).toBeNull();
    expect(outline(circle(0, 0, 20), circle(0, 0, 30))).toBeNull();
    // Round, with a stem a millimetre thick.
    const round = chained([
      line(-0.5, 90, -0.5, 25),
      arc(0, 0, 25, 91.146, 448.854),
      line(0.5, 25, 0.5, 90, -0.5, 90),
    ]);
    expect(outline(round)).toBeNull();
    // A leaf whose sides run together at both ends.
    expect(outline(chained([arc(0, 40, 50, 217, 323), arc(0, -20.18, 50, 37, 143)]))).toBeNull();
  });

  // E. H. Moore's closed variant of Hilbert's curve: four of Hilbert's, with neighbours on both sides throughout.
  test('a closed line that fills the ground row by row', () => {
    const quarter = hilbert(4);
    const place = (deg: number, x: number, y: number) => moved(turned(quarter, deg), x, y);
    const moore = chained([place(90, 15, 0), place(90, 15, 16), place(-90, 16, 31), place(-90, 16, 15)]);
    const closed = chained([moore, moore.subarray(0, 2)]);
    expect(outline(closed.map((value) => 3 * value))).toBeNull();
  });
});
