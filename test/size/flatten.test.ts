/** Curves as polylines, held against bezier-js, against the exact circle, and against published lengths. */
import { Bezier } from 'bezier-js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Artwork } from '../../shared/artwork.js';
import type { Polyline } from '../../shared/plane.js';
import { defaultLimits, defaultSetup, type Setup } from '../../shared/setup.js';
import { Op, type Subpath } from '../../shared/subpath.js';
import { lengthOf, polylineOf } from '../../src/geometry/polyline.js';
import { pointToSegment } from '../../src/geometry/segment.js';
import { toMotif } from '../../src/size/index.js';

function artwork(...lines: Subpath[]): Artwork {
  return { name: 'test', lines, assumedSize: false, statedSizeMm: null, credit: {}, notes: [] };
}

function path(op: number, coords: readonly number[]): Subpath {
  return { ops: Uint8Array.of(op), coords: Float64Array.from(coords), closed: false };
}

function sized(line: Subpath, setup: Partial<Setup> = {}): Polyline {
  return toMotif(artwork(line), { ...defaultSetup, ...setup }).strokes[0];
}

function distanceTo(line: Polyline, x: number, y: number): number {
  let least = Infinity;
  for (let i = 2; i < line.length; i += 2) {
    least = Math.min(least, pointToSegment(x, y, line[i - 2], line[i - 1], line[i], line[i + 1]));
  }
  return least;
}

const number = fc.double({ min: -200, max: 200, noNaN: true });
const flattened = 0.01;

describe('flattening', () => {
  it('keeps every place of a cubic or quadratic within 0.01 mm (places and lengths by bezier-js)', () => {
    fc.assert(
      fc.property(fc.constantFrom(6, 8), fc.array(number, { minLength: 8, maxLength: 8 }), (size, all) => {
        const c = all.slice(0, size);
        const curve = new Bezier(c);
        const { x, y } = curve.bbox();
        fc.pre(x.max - x.min > 1 && y.max - y.min > 1);
        const line = sized(path(size === 6 ? Op.quadratic : Op.cubic, c));
        for (let k = 0; k <= 60; k++) {
          const place = curve.get(k / 60);
          // bezier-js's box is exact up to its root finding.
          expect(distanceTo(line, place.x - x.min, place.y - y.min)).toBeLessThan(flattened + 1e-6);
        }
        // bezier-js's own length is a quadrature, which cusps upset: the chords between 4,000 of its places are not.
        const long = lengthOf(polylineOf(Array.from({ length: 4001 }, (_, k) => curve.get(k / 4000))));
        expect(lengthOf(line)).toBeLessThan(long * (1 + 1e-5) + 1e-3);
        expect(lengthOf(line)).toBeGreaterThan(long * 0.9995 - 0.01);
      }),
      { seed: 11, numRuns: 150 },
    );
  });

  it('keeps an arc within 0.01 mm of the exact circle, where one cubic a quarter turn would leave it by 0.03 %', () => {
    const r = 400;
    const quarter = { ops: Uint8Array.of(Op.arc), closed: false };
    const coords = [r, 0, 0, 0, r, 0, 0, r, 0, Math.PI / 2, 0, r];
    const arc = sized({ ...quarter, coords: Float64Array.from(coords) });
    for (let i = 2; i < arc.length; i += 2) {
      const [mx, my] = [(arc[i] + arc[i - 2]) / 2, (arc[i + 1] + arc[i - 1]) / 2];
      expect(Math.abs(Math.hypot(arc[i], arc[i + 1]) - r)).toBeLessThan(1e-6);
      expect(r - Math.hypot(mx, my)).toBeLessThan(flattened);
    }
    expect(lengthOf(arc)).toBeCloseTo((Math.PI / 2) * r, 1);
  });

  it('makes a straight curve two points, also one whose controls lie unevenly', () => {
    expect(sized(path(Op.cubic, [0, 0, 1, 0.5, 8, 4, 10, 5])).length).toBe(4);
    expect(sized(path(Op.quadratic, [0, 0, 9, 0, 10, 0])).length).toBe(4);
  });

  it('keeps the turning place of a straight curve that runs past its end and back', () => {
    const line = sized(path(Op.quadratic, [0, 0, 100, 0, 20, 0]));
    // Greatest x of the quadratic with x = 0, 100, 20: at t = 5/9 it is 500/9.
    expect(Math.max(...line.filter((_, i) => i % 2 === 0))).toBeCloseTo(500 / 9, 2);
  });

  it('scales before it flattens: larger is finer, and both orders agree to the tolerance', () => {
    fc.assert(
      fc.property(
        fc.array(number, { minLength: 8, maxLength: 8 }),
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        (c, k) => {
          const { x, y } = new Bezier(c).bbox();
          fc.pre(x.max - x.min > 5 && y.max - y.min > 5);
          const large = sized(path(Op.cubic, c), { widthMm: (x.max - x.min) * k });
          const small = sized(path(Op.cubic, c));
          for (let i = 0; i < large.length; i += 2) {
            expect(distanceTo(small, large[i] / k, large[i + 1] / k)).toBeLessThan(flattened + 1e-6);
          }
          for (let i = 0; i < small.length; i += 2) {
            expect(distanceTo(large, small[i] * k, small[i + 1] * k)).toBeLessThan(
              flattened * Math.max(k, 1) + 1e-6,
            );
          }
        },
      ),
      { seed: 12, numRuns: 100 },
    );
  });

  it('keeps lengths under rotation and mirroring to what flattening allows', () => {
    fc.assert(
      fc.property(
        fc.array(number, { minLength: 8, maxLength: 8 }),
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        (c, turn) => {
          const { x, y } = new Bezier(c).bbox();
          fc.pre(x.max - x.min > 5 && y.max - y.min > 5);
          const turned = c.map((_, i) =>
            i % 2 === 0
              ? c[i] * Math.cos(turn) - c[i + 1] * Math.sin(turn)
              : c[i - 1] * Math.sin(turn) + c[i] * Math.cos(turn),
          );
          const mirrored = c.map((value, i) => (i % 2 === 0 ? -value : value));
          const long = lengthOf(sized(path(Op.cubic, c)));
          expect(lengthOf(sized(path(Op.cubic, turned)))).toBeCloseTo(long, 0);
          expect(Math.abs(lengthOf(sized(path(Op.cubic, turned))) / long - 1)).toBeLessThan(5e-4);
          expect(Math.abs(lengthOf(sized(path(Op.cubic, mirrored))) / long - 1)).toBeLessThan(1e-9);
        },
      ),
      { seed: 13, numRuns: 100 },
    );
  });
});

describe('published lengths', () => {
  it('one period of y = sin x is 7.640395578055424 long (OEIS A105419)', () => {
    const points = 20_000;
    const coords = Array.from({ length: points + 1 }, (_, i) => {
      const x = (2 * Math.PI * i) / points;
      return [x, Math.sin(x)];
    }).flat();
    const line = { ops: new Uint8Array(points), coords: Float64Array.from(coords), closed: false };
    expect(lengthOf(sized(line, { widthMm: 2 * Math.PI }))).toBeCloseTo(7.640395578055424, 6);
  });

  it('a Hilbert curve of order n is 4^n - 1 unit steps (Sagan, Space-Filling Curves, ch. 2)', () => {
    for (let n = 1; n <= 6; n++) {
      const coords = hilbert(n);
      const line = {
        ops: new Uint8Array(coords.length / 2 - 1),
        coords: Float64Array.from(coords),
        closed: false,
      };
      const motif = toMotif(artwork(line), defaultSetup);
      expect(lengthOf(motif.strokes[0])).toBeCloseTo(4 ** n - 1, 9);
      expect([motif.widthMm, motif.heightMm]).toEqual([2 ** n - 1, 2 ** n - 1]);
    }
  });
});

/** The curve through the cells of a 2^n grid, by turning left and right (a Lindenmayer system). */
function hilbert(n: number): number[] {
  let word = 'A';
  for (let i = 0; i < n; i++) {
    word = [...word].map((sign) => ({ A: '+BF-AFA-FB+', B: '-AF+BFB+FA-' })[sign] ?? sign).join('');
  }
  const places = [0, 0];
  let [x, y, dx, dy] = [0, 0, 1, 0];
  for (const sign of word) {
    if (sign === '+') [dx, dy] = [-dy, dx];
    if (sign === '-') [dx, dy] = [dy, -dx];
    if (sign !== 'F') continue;
    x += dx;
    y += dy;
    places.push(x, y);
  }
  return places;
}

describe('working size', () => {
  const box = path(Op.cubic, [10, 10, 10, 50, 90, 50, 90, 10]);

  it('is exact in the asked dimension, the other in proportion, the corner at the origin', () => {
    const { widthMm, heightMm, strokes } = toMotif(artwork(box), { ...defaultSetup, heightMm: 254 });
    // A cubic with these controls reaches 3/4 of the controls' height: 30 of 40.
    expect(heightMm).toBeCloseTo(254, 9);
    expect(widthMm).toBeCloseTo((80 / 30) * 254, 6);
    expect(strokes[0][0]).toBe(0);
  });

  it('refuses a drawing with no line, and a height for a flat one', () => {
    expect(() => toMotif(artwork(), defaultSetup)).toThrow(/nothing to stitch/i);
    const flat = path(Op.line, [0, 5, 100, 5]);
    expect(() => toMotif(artwork(flat), { ...defaultSetup, heightMm: 10 })).toThrow(/flat|height/i);
    expect(toMotif(artwork(flat), { ...defaultSetup, widthMm: 50 })).toMatchObject({
      widthMm: 50,
      heightMm: 0,
    });
  });

  it('ends in one sentence where the points would be too many', () => {
    const limits = { ...defaultLimits, points: 20 };
    expect(() => toMotif(artwork(box), { ...defaultSetup, heightMm: 254, limits })).toThrow(
      /20 points|at most 20/i,
    );
  });
});
