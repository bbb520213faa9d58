/**
 * The line held against the picture it was traced from: drawn again with the pen, it covers the ink and nothing else.
 *
 * Round the line two tracks are laid on a mask of the picture's pixels: one a quarter of a pen wider than the pen, which
 * all ink must keep within, one a quarter narrower on either side, which must lie on ink throughout. What fails is
 * gathered into places by squares a pen across. In the same round darkness is summed up: over the length of the line
 * that is the pen's width, whatever the threshold makes of blurred edges. Time: linear in the pixels.
 *
 * What was left out on purpose (`spots`, `leftOut`) proves nothing either way. Limits: where two passes lie on one another
 * the one covers the other's ink; what is smaller than half a pen squared is grain.
 */
import type { Point, Polyline } from '../../../shared/plane.js';
import { totalLength } from '../../geometry/polyline.js';
import type { Levels } from './darkness.js';
import { Mask } from './mask.js';
import { Places } from './places.js';

export interface Proof {
  readonly coveredShare: number;
  readonly onInkShare: number;
  readonly uncovered: readonly Point[];
  readonly offInk: readonly Point[];
  /** Marks paler than the ink, apart from it: graph paper, pencil. */
  readonly paler: readonly Point[];
  readonly penPx: number;
}

export interface Redrawn {
  readonly strokes: readonly Polyline[];
  /** Width of the ink at the threshold. */
  readonly penPx: number;
  /** What it was under and over for a twentieth of the line each. */
  readonly widthsPx: readonly [number, number];
  /** Lines that were found and left out. */
  readonly leftOut: readonly Polyline[];
  /** A place on the border of each blot that was left out. */
  readonly spots: readonly Point[];
  /** Within filled shapes. */
  readonly shapes: readonly { readonly at: Point }[];
}

/** A quarter of a pen, in radii. */
const allowedRadii = 0.5;
const leastCore = 0.25;
/** A pen is uneven by no more than this; what is wider is two passes. */
const unevenShare = 0.25;
/** Less than this, in squares of the radius, is grain, or the tip of a corner. */
const leastUncovered = 2;
const leastOffInk = 1;
const leastPaler = 60;

const track = 1;
const core = 2;
const apart = 4;

export function proofOf(
  dark: Uint8Array,
  width: number,
  height: number,
  levels: Levels,
  drawn: Redrawn,
): Proof {
  const { threshold, paper, pale, full } = levels;
  const radius = drawn.penPx / 2;
  // A pen that presses unevenly is not blamed for it.
  const [thinnest, thickest] = drawn.widthsPx.map((px) =>
    Math.max((1 - unevenShare) * radius, Math.min(px / 2, (1 + unevenShare) * radius)),
  );
  const mask = new Mask(width, height);
  for (const line of drawn.strokes) {
    mask.draw(line, thickest + allowedRadii * radius, track);
    mask.draw(line, Math.max(thinnest - allowedRadii * radius, leastCore * radius), core);
  }
  for (const line of drawn.leftOut) mask.draw(line, 2 * (1 + allowedRadii) * radius, apart);
  for (const at of [...drawn.spots, ...drawn.shapes.map(({ at }) => at)])
    mask.flood(dark, threshold, at, apart);

  const square = Math.max(2, 2 * radius);
  const uncovered = new Places(square, leastUncovered * radius * radius);
  const offInk = new Places(square, leastOffInk * radius * radius);
  const paler = new Places(2 * square, leastPaler * radius * radius);
  let [ink, covered, cores, onInk, darkness] = [0, 0, 0, 0, 0];
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      const value = dark[i];
      const marks = mask.marks[i];
      if (marks === 0) {
        if (value <= pale) continue;
        if (value > threshold) {
          ink++;
          uncovered.add(x, y);
        } else paler.add(x, y);
        continue;
      }
      if (marks & track) darkness += Math.max(0, Math.min(1, (value - paper) / (full - paper)));
      if (marks & apart) continue;
      if (value > threshold) {
        ink++;
        covered++;
      }
      if (!(marks & core)) continue;
      cores++;
      if (value > threshold) onInk++;
      else offInk.add(x, y);
    }
  return {
    coveredShare: ink > 0 ? covered / ink : 1,
    onInkShare: cores > 0 ? onInk / cores : 1,
    uncovered: uncovered.largest(),
    offInk: offInk.largest(),
    paler: paler.largest(),
    penPx: darkness / Math.max(1, totalLength(drawn.strokes)),
  };
}
