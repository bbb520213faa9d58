/**
 * A stroke made ready to be walked: repeated points and steps of a hundredth of a millimetre left out, the length
 * walked known at each point, and a closed stroke carried on beyond both its ends, so that no place on it is
 * special.
 */
import type { Polyline } from '../../../shared/plane.js';
import { isClosed, runningLengths } from '../../geometry/polyline.js';

/** Steps shorter than this say nothing about where a line leads, mm. */
const tinyMm = 0.02;

export interface WalkedLine {
  readonly points: Polyline;
  /** Length walked at each point, mm; at the stroke's first point 0, before it negative. */
  readonly runMm: Float64Array;
  /** By how much the line has turned, either way, up to each point and in it, radians. */
  readonly turnedRad: Float64Array;
  readonly closed: boolean;
  /** Of the stroke itself. */
  readonly lengthMm: number;
}

/**
 * Strokes ready for every question about turns: closed ones carried on by six stitches, as many as one stitch may need
 * (`tight-curves.ts`), and 2 mm at least; steps shorter than `stepMm` left out.
 */
export function walkedLines(strokes: readonly Polyline[], stitchMm: number, stepMm = tinyMm): WalkedLine[] {
  return strokes.map((stroke) => walkedLine(stroke, Math.max(2, 6 * stitchMm), stepMm));
}

/** `overMm` is how far a closed stroke is carried on; at most once round. */
function walkedLine(stroke: Polyline, overMm: number, stepMm: number): WalkedLine {
  const own = withoutTinySteps(stroke, stepMm);
  const closed = isClosed(own);
  const ownRun = runningLengths(own);
  const lengthMm = ownRun[ownRun.length - 1];
  if (!closed)
    return {
      points: own,
      runMm: ownRun,
      turnedRad: turnedUpTo(own),
      closed,
      lengthMm,
    };
  const last = ownRun.length - 1;
  let ahead = 1;
  while (ahead < last && ownRun[ahead] < overMm) ahead++;
  let behind = last - 1;
  while (behind > 0 && lengthMm - ownRun[behind] < overMm) behind--;
  const runMm = new Float64Array(last - behind + last + 1 + ahead);
  const points = new Float64Array(2 * runMm.length);
  for (let p = 0; p < runMm.length; p++) {
    const i = (behind + p) % last;
    points[2 * p] = own[2 * i];
    points[2 * p + 1] = own[2 * i + 1];
    // Exactly 0 and the whole length where the stroke begins and ends.
    runMm[p] = ownRun[i] + (Math.floor((behind + p) / last) - 1) * lengthMm;
  }
  return {
    points,
    runMm,
    turnedRad: turnedUpTo(points),
    closed,
    lengthMm,
  };
}

function withoutTinySteps(stroke: Polyline, stepMm: number): Polyline {
  const out = new Float64Array(stroke.length);
  out[0] = stroke[0];
  out[1] = stroke[1];
  let n = 2;
  const last = stroke.length - 2;
  for (let i = 2; i <= last; i += 2) {
    const dx = stroke[i] - out[n - 2];
    const dy = stroke[i + 1] - out[n - 1];
    if (dx * dx + dy * dy < stepMm * stepMm) {
      // The last point stays, in place of the one before it.
      if (i < last || n === 2) continue;
      n -= 2;
    }
    out[n++] = stroke[i];
    out[n++] = stroke[i + 1];
  }
  return out.subarray(0, n);
}

function turnedUpTo(points: Polyline): Float64Array {
  const turned = new Float64Array(points.length >> 1);
  let ux = points[2] - points[0];
  let uy = points[3] - points[1];
  for (let p = 1; p + 1 < turned.length; p++) {
    const vx = points[2 * p + 2] - points[2 * p];
    const vy = points[2 * p + 3] - points[2 * p + 1];
    turned[p] = turned[p - 1] + Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy));
    ux = vx;
    uy = vy;
  }
  if (turned.length > 1) turned[turned.length - 1] = turned[turned.length - 2];
  return turned;
}

/** The points, but for the ends, round which the line turns by so much, either way, within `reachMm` on both sides. */
export function turningPoints({ runMm, turnedRad }: WalkedLine, reachMm: number, leastRad: number): number[] {
  const found: number[] = [];
  let behind = 0;
  let ahead = 0;
  for (let p = 1; p + 1 < runMm.length; p++) {
    while (runMm[behind + 1] < runMm[p] - reachMm) behind++;
    while (ahead + 1 < runMm.length && runMm[ahead] < runMm[p] + reachMm) ahead++;
    if (turnedRad[ahead] - turnedRad[behind] >= leastRad) found.push(p);
  }
  return found;
}

/** Reads places off a line by the length walked to them; quickest where the next place is near the last one. */
export class PlaceFinder {
  x = 0;
  y = 0;
  private at = 0;

  constructor(private readonly line: WalkedLine) {}

  /** Writes the place to `x` and `y`; beyond the line it is the line's end. */
  goTo(alongMm: number): void {
    const { points, runMm } = this.line;
    this.at = this.segmentAt(alongMm);
    const share = Math.max(
      0,
      Math.min((alongMm - runMm[this.at]) / (runMm[this.at + 1] - runMm[this.at]), 1),
    );
    const i = 2 * this.at;
    this.x = points[i] + share * (points[i + 2] - points[i]);
    this.y = points[i + 1] + share * (points[i + 3] - points[i + 1]);
  }

  /** Looks in strides that double, away from the last place, then halves what is left. */
  private segmentAt(alongMm: number): number {
    const { runMm } = this.line;
    const last = runMm.length - 2;
    let low = this.at;
    let high = this.at + 1;
    for (let stride = 1; low > 0 && runMm[low] > alongMm; stride *= 2) {
      high = low;
      low = Math.max(0, low - stride);
    }
    for (let stride = 1; high <= last && runMm[high] < alongMm; stride *= 2) {
      low = high;
      high = Math.min(last + 1, high + stride);
    }
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (runMm[middle] <= alongMm) low = middle;
      else high = middle;
    }
    return low;
  }
}
