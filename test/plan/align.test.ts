/** Lining up, held against motions that are known. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alignmentOf } from '../../src/plan/align.js';

const place = fc.tuple(
  fc.double({ min: -2000, max: 2000, noNaN: true }),
  fc.double({ min: -2000, max: 2000, noNaN: true }),
);

/** Turned clockwise as seen with y down, about the origin, then moved. */
function motion(deg: number, dx: number, dy: number) {
  const [cos, sin] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return ([x, y]: readonly [number, number]) => [cos * x - sin * y + dx, sin * x + cos * y + dy] as const;
}

describe('a pass lined up', () => {
  it('follows a turn and a move of the quilt, a thousand of them', () => {
    fc.assert(
      fc.property(
        place,
        place,
        fc.double({ min: -179, max: 179, noNaN: true }),
        place,
        fc.array(place, { minLength: 1, maxLength: 5 }),
        (a, b, deg, [dx, dy], line) => {
          fc.pre(Math.hypot(a[0] - b[0], a[1] - b[1]) > 25);
          const move = motion(deg, dx, dy);
          const { turnDeg, stretchPercent, warning, apply } = alignmentOf([a, b], [move(a), move(b)]);
          expect(turnDeg).toBeCloseTo(deg, 6);
          expect(stretchPercent).toBeCloseTo(0, 6);
          expect(warning).toBeNull();
          const moved = apply(Float64Array.from(line.flat()));
          const expected = line.flatMap(move);
          for (const [i, value] of expected.entries()) expect(moved[i]).toBeCloseTo(value, 6);
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('turns clockwise by a positive angle', () => {
    // East to south, as seen on the quilt, is a quarter turn clockwise.
    expect(
      alignmentOf(
        [
          [0, 0],
          [100, 0],
        ],
        [
          [0, 0],
          [0, 100],
        ],
      ).turnDeg,
    ).toBeCloseTo(90, 9);
  });

  it('misses both places by as little as can be where they were found nearer together', () => {
    const expected = [
      [0, 0],
      [1000, 0],
    ] as const;
    const found = [
      [3, 7],
      [973, 27],
    ] as const;
    const missed = (apply: (line: Float64Array) => Float64Array) => {
      const [ax, ay, bx, by] = apply(Float64Array.from(expected.flat()));
      return (ax - 3) ** 2 + (ay - 7) ** 2 + (bx - 973) ** 2 + (by - 27) ** 2;
    };
    const { apply, warning, stretchPercent } = alignmentOf(expected, found);
    expect(stretchPercent).toBeCloseTo((Math.hypot(970, 20) / 1000 - 1) * 100, 9);
    expect(warning).toMatch(/3\.0 % nearer together/);
    const least = missed(apply);
    // Any other rigid motion near it does worse.
    for (const [deg, dx, dy] of [
      [0.1, 0, 0],
      [-0.1, 0, 0],
      [0, 0.5, 0],
      [0, -0.5, 0],
      [0, 0, 0.5],
      [0, 0, -0.5],
    ]) {
      const more = motion(deg, dx, dy);
      const other = (line: Float64Array) => {
        const once = apply(line);
        const flat = [...more([once[0], once[1]]), ...more([once[2], once[3]])];
        return Float64Array.from(flat);
      };
      expect(missed(other)).toBeGreaterThan(least);
    }
  });

  it('is refused where places coincide', () => {
    const two = [
      [0, 0],
      [100, 0],
    ] as const;
    const one = [
      [5, 5],
      [5, 5],
    ] as const;
    expect(() => alignmentOf(two, one)).toThrow(/two found places are one and the same/);
    expect(() => alignmentOf(one, two)).toThrow(/two expected places are one and the same/);
  });
});
