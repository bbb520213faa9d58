/** A line of chords given back the arcs it was flattened from. */
import { describe, expect, test } from 'vitest';
import { roundedOut } from '../../src/measure/stitching/rounded-out.js';
import { line } from './lines.js';

/** The points of a circle about (0, 0) at these angles, degrees. */
function onCircle(radius: number, degs: readonly number[]) {
  return line(...degs.flatMap((deg) => [deg, deg + 90].map((d) => radius * Math.sin((d * Math.PI) / 180))));
}

/** Every place of one line stands where that of the other does. */
function expectSame(found: Float64Array, wanted: Float64Array) {
  expect(found).toHaveLength(wanted.length);
  wanted.forEach((value, i) => {
    expect(found[i]).toBeCloseTo(value, 9);
  });
}

describe('a line of chords', () => {
  test('of a circle has the middles of its arcs on the circle too, whichever way round', () => {
    for (const step of [59, 20, 3, -3, -20, -59]) {
      for (const count of [2, 3, 6]) {
        const radius = 7;
        const chords = Array.from({ length: count + 1 }, (_, k) => 10 + step * k);
        const arcs = Array.from({ length: 2 * count + 1 }, (_, k) => 10 + (step / 2) * k);
        expectSame(roundedOut(onCircle(radius, chords), radius), onCircle(radius, arcs));
      }
    }
  });

  test('has them only where an arc leaves its chord by no more than one and a half times what flattening may', () => {
    for (const step of [10, 40]) {
      const chords = onCircle(7, [0, step, 2 * step, 3 * step]);
      const heightMm = 7 * (1 - Math.cos((step * Math.PI) / 360));
      expect(roundedOut(chords, heightMm / 1.501)).toEqual(chords);
      expect(roundedOut(chords, heightMm / 1.499)).toHaveLength(14);
    }
  });

  test('is left as it is where it is straight, has corners, or turns one way and then the other', () => {
    for (const drawn of [
      line(0, 0, 5, 0),
      line(0, 0, 5, 0, 9, 0, 12, 0),
      line(0, 0, 5, 0, 5, 5, 0, 5, 0, 0),
      // Corners of 61 degrees.
      onCircle(7, [0, 61, 122, 183]),
    ])
      expect(roundedOut(drawn, 10)).toEqual(drawn);
    // Only the first and the last step of a zigzag of 30 degrees turn but one way.
    const zigzag = line(0, 0, 4, 0, 4 + 4 * Math.cos(Math.PI / 6), 2, 8 + 4 * Math.cos(Math.PI / 6), 2);
    const rounded = roundedOut(zigzag, 10);
    expect(rounded).toHaveLength(12);
    expect(rounded.slice(4, 8)).toEqual(zigzag.slice(2, 6));
  });

  // A quarter circle from a level leg into an upright one: the legs are tangent, and turn by half a chord's angle at its ends.
  test('is rounded as far as a corner and a straight leg', () => {
    const quarter = onCircle(6, [0, 15, 30, 45, 60, 75, 90]);
    const middles = onCircle(6, [0, 7.5, 15, 22.5, 30, 37.5, 45, 52.5, 60, 67.5, 75, 82.5, 90]);
    // From a corner of 90 degrees and more, which says nothing of the arc, on to another.
    const cornered = line(0, 12, ...quarter, 12, 0);
    const rounded = roundedOut(cornered, 1);
    expectSame(rounded, line(0, 12, ...middles, 12, 0));
  });
});
