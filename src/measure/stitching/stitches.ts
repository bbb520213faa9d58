/**
 * The stitches of a motif, laid as on cloth: the next needle hole is the first place along the line that lies a
 * stitch length, measured straight, from the last hole. So a stitch is a chord of the curve, and what it cuts off a
 * circle is the sagitta of the circle segment tables. A spike or a loop smaller than a stitch would be missed that
 * way; so a hole falls at the latest after half a circle with the stitch as its diameter (a way of pi/2 stitches).
 * Each stroke begins and ends with a hole.
 *
 * Thread: by the text-book formula for the lockstitch (ISO 4915, stitch type 301) needle and bobbin thread together
 * take 2 + 2TS per unit of seam, T the thickness and S the stitches per unit, half of it each: the seam's length on
 * the face and once through the cloth a stitch.
 */

import type { Point, Polyline } from '../../../shared/plane.js';
import { type Setup, stitchLengthMm } from '../../../shared/setup.js';
import type { Stitches } from '../../../shared/study.js';
import { distanceBetween } from '../../geometry/point.js';
import { lengthOf } from '../../geometry/polyline.js';
import { exitShare, pointToSegment } from '../../geometry/segment.js';

/**
 * Lays the stitches. Beyond `setup.limits.stitches` the rest of the count is the rest of the length over the stitch
 * length, and the chord error is that of the stitches laid.
 */
export function stitchesOf(strokes: readonly Polyline[], setup: Setup): Stitches {
  const stitch = stitchLengthMm(setup);
  const worst = { errorMm: 0, at: { x: 0, y: 0 } };
  let count = 0;
  let seamMm = 0;
  for (const line of strokes) {
    const laid = layStitches(line, stitch, setup.limits.stitches - count, worst);
    count += laid.count + Math.ceil(laid.leftMm / stitch);
    seamMm += lengthOf(line);
  }
  const threadM = threadMm(seamMm, stitch, setup.quiltThicknessMm, setup.threadWastePercent) / 1000;
  return {
    stitchLengthMm: stitch,
    count,
    chordErrorMm: worst.errorMm,
    chordErrorAt: worst.at,
    needleThreadM: threadM,
    bobbinThreadM: threadM,
  };
}

/** Needle thread, and as much bobbin thread, of a seam: (1 + TS) times its length, and the waste. */
export function threadMm(
  seamMm: number,
  stitchMm: number,
  quiltThicknessMm: number,
  wastePercent: number,
): number {
  return seamMm * (1 + quiltThicknessMm / stitchMm) * (1 + wastePercent / 100);
}

interface Worst {
  errorMm: number;
  at: Point;
}

/** Lays at most `most` stitches along one stroke and returns how many, and how much of the line is left. */
function layStitches(line: Polyline, stitch: number, most: number, worst: Worst) {
  const farthestWay = (Math.PI / 2) * stitch;
  const last = line.length - 2;
  let count = 0;
  // The last hole, the place reached, the way from one to the other, and the first point of the line after the hole.
  let holeX = line[0];
  let holeY = line[1];
  let x = holeX;
  let y = holeY;
  // The way counts from one of these places to the next, so that a tremble on the spot is no way.
  let countedX = x;
  let countedY = y;
  let way = 0;
  let after = 2;
  let next = 2;
  while (next <= last) {
    if (count >= most) return { count, leftMm: way + lengthFrom(line, x, y, next) };
    const dx = line[next] - x;
    const dy = line[next + 1] - y;
    const step = Math.sqrt(dx * dx + dy * dy);
    if (step === 0) {
      next += 2;
      continue;
    }
    const reach = Math.min(exitShare(x - holeX, y - holeY, dx, dy, stitch) * step, farthestWay - way);
    if (reach >= step) {
      x = line[next];
      y = line[next + 1];
      const counted = distanceBetween(x, y, countedX, countedY);
      if (counted >= trembleMm) {
        way += counted;
        countedX = x;
        countedY = y;
      }
      next += 2;
      continue;
    }
    x += (reach / step) * dx;
    y += (reach / step) * dy;
    measureStitch(line, after, next, holeX, holeY, x, y, worst);
    count++;
    holeX = countedX = x;
    holeY = countedY = y;
    way = 0;
    after = next;
  }
  if (way + distanceBetween(x, y, countedX, countedY) > rounding * stitch) {
    measureStitch(line, after, next, holeX, holeY, x, y, worst);
    count++;
  }
  return { count, leftMm: 0 };
}

/** Steps shorter than this are a pen that trembles or points that are repeated, mm. */
const trembleMm = 0.05;

/** A last stitch shorter than this share of a stitch is rounding, not a stitch. */
const rounding = 1e-6;

/** Keeps the farthest that the line between two holes lies from the stitch. Its farthest place is a point of it. */
function measureStitch(
  line: Polyline,
  from: number,
  to: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  worst: Worst,
): void {
  for (let i = from; i < to; i += 2) {
    const error = pointToSegment(line[i], line[i + 1], ax, ay, bx, by);
    if (error <= worst.errorMm) continue;
    worst.errorMm = error;
    worst.at = { x: line[i], y: line[i + 1] };
  }
}

function lengthFrom(line: Polyline, x: number, y: number, next: number): number {
  return distanceBetween(line[next], line[next + 1], x, y) + lengthOf(line.subarray(next));
}
