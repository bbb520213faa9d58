/** The direction of a line at its ends, where it can be worked out by hand. */
import { describe, expect, test } from 'vitest';
import { reversed } from '../../src/geometry/polyline.js';
import { endDirection, startDirection } from '../../src/measure/ends/tangent.js';
import { line } from './lines.js';

const degrees = ({ dx, dy }: { dx: number; dy: number }) => (Math.atan2(dy, dx) * 180) / Math.PI;
const rad = (deg: number) => (deg * Math.PI) / 180;

/** Two legs, the first of them level, the second turned by `turn` degrees. */
const legs = (first: number, second: number, turn: number) =>
  line(0, 0, first, 0, first + second * Math.cos(rad(turn)), second * Math.sin(rad(turn)));

/** Points of a circle round (0, 0), at these angles in degrees. */
const onCircle = (radius: number, ...angles: number[]) =>
  line(...angles.flatMap((angle) => [radius * Math.cos(rad(angle)), radius * Math.sin(rad(angle))]));

// Square to the radius: 90 degrees at angle 0. By the parabola through three places, the error falls with the cube
// of the angle between them: 2 sin(t / 2)^3 for equal chords that turn by t.
test.each([
  [0, 4, 8],
  [0, 4, 12],
  [0, 8, 12],
])(
  'at the end of a circle drawn at %d, %d and %d degrees it is the tangent to a fifth of a degree',
  (...at) => {
    const arc = onCircle(2, ...at, 40);
    expect(Math.abs(degrees(startDirection(arc)) - 90)).toBeLessThan(0.2);
    expect(Math.abs(degrees(endDirection(reversed(arc))) + 90)).toBeLessThan(0.2);
    expect(Math.hypot(startDirection(arc).dx, startDirection(arc).dy)).toBeCloseTo(1, 12);
  },
);

// Of a parabola by chord length, of equal legs along u and v: 1.5 u - 0.5 v.
const bent = (turn: number) =>
  degrees({ dx: 1.5 - 0.5 * Math.cos(rad(turn)), dy: -0.5 * Math.sin(rad(turn)) });

describe('what turns by 20 degrees at most is a curve', () => {
  test('a turn of 19 degrees', () => {
    expect(degrees(startDirection(legs(0.4, 0.4, 19)))).toBeCloseTo(bent(19), 9);
    expect(degrees(startDirection(legs(0.4, 0.4, -19)))).toBeCloseTo(-bent(19), 9);
  });
  test('a turn of 21 degrees is a corner', () => {
    expect(startDirection(legs(0.4, 0.4, 21))).toEqual({ dx: 1, dy: 0 });
  });
});

// A leg of length a under curvature k leaves its curve by a^2 k / 8: legs a that turn by t have k = t / a, and
// 10 degrees leave it by 0.02 mm at a = 0.917 mm.
describe('a leg that would leave the curve by more than 0.02 mm is straight', () => {
  test('0.9 mm at 10 degrees', () =>
    expect(degrees(startDirection(legs(0.9, 0.9, 10)))).toBeCloseTo(bent(10), 9));
  test('0.94 mm at 10 degrees', () => expect(startDirection(legs(0.94, 0.94, 10))).toEqual({ dx: 1, dy: 0 }));
  // Unequal legs: the curvature is the turn over half their sum. 1 mm and 3 mm, 10 degrees: 0.0109 mm.
  test('1 mm beside 3 mm', () => expect(degrees(startDirection(legs(1, 3, 10)))).toBeLessThan(-1));
  test('2 mm beside 1 mm', () => expect(startDirection(legs(2, 1, 10))).toEqual({ dx: 1, dy: 0 }));
});

describe('what lies within a tenth of a millimetre of the end does not count', () => {
  test('a hook of 0.09 mm', () =>
    expect(startDirection(line(0, 0, 0, 0.09, 10, 0))).toEqual({ dx: 1, dy: 0 }));
  test('a leg of 0.11 mm does', () =>
    expect(startDirection(line(0, 0, 0, 0.11, 10, 0))).toEqual({ dx: 0, dy: 1 }));
  test('nor what lies so near to the next place', () => {
    const [c, s] = [Math.cos(rad(10)), Math.sin(rad(10))];
    const hooked = line(0, 0, 0.4, 0, 0.4, 0.05, 0.4 + 0.4 * c, 0.4 * s);
    expect(degrees(startDirection(hooked))).toBeCloseTo(bent(10), 9);
  });
  test('a line that is no longer than that has the direction of its whole', () => {
    expect(startDirection(line(5, 5, 5, 5.03, 5, 5.06))).toEqual({ dx: 0, dy: 1 });
    expect(degrees(endDirection(line(5, 5, 5, 5.03, 5, 5.06)))).toBe(90);
  });
});

test('a line without length has a direction all the same', () => {
  for (const speck of [line(5, 5), line(5, 5, 5, 5), line(5, 5, 5, 5, 5, 5)]) {
    expect(startDirection(speck)).toEqual({ dx: 1, dy: 0 });
    expect(endDirection(speck)).toEqual({ dx: 1, dy: 0 });
  }
});
