/**
 * Places sampled along the lines of stacked rows: at the ends and corners of every stroke, and in even steps between.
 * Samples come by the repeat; a window of the stack takes the rows and repeats that reach into it.
 */

import { Growing } from '../geometry/growing.js';
import { stepTo } from '../geometry/polyline.js';
import { PointGrid } from '../near/point-grid.js';
import { TakenCells } from '../near/taken-cells.js';
import { perRowAnd, strokesLookedAt } from './row.js';
import { placed, repeatsIn, rowsIn, type Stack } from './stack.js';

/** A part of the plane, mm. */
export interface Span {
  readonly leftMm: number;
  readonly rightMm: number;
  readonly topMm: number;
  readonly bottomMm: number;
}

/** Samples in one triangulation, and looked at for it; where there would be more, the step is widened. */
const mostSamples = 300_000;
const mostLooks = 20_000_000;
/** The line lies denser in some windows than in others: so many times. */
const denser = 4;

/** [x, y] of each sample of all rows in the window and `marginMm` around it, each place once, or null where that is more than is good. */
export function samplesAround(
  stack: Stack,
  window: Span,
  stepMm: number,
  marginMm: number,
): Float64Array | null {
  const { row } = stack;
  const left = window.leftMm - marginMm;
  const right = window.rightMm + marginMm;
  const top = window.topMm - marginMm;
  const bottom = window.bottomMm + marginMm;
  const own = samplesOfRepeat(row, stepMm);
  const [firstRow, lastRow] = rowsIn(stack, top, bottom);
  const looks = (own.length / 2) * (lastRow - firstRow + 1) * ((right - left) / row.repeatMm + 1);
  // Of rows that reach far into each other only a small part lies in the window.
  const perSquareMm = own.length / 2 / (row.repeatMm * stack.spacingMm);
  const estimate = Math.min(looks, denser * perSquareMm * (right - left) * (bottom - top));
  if ((estimate > mostSamples || looks > mostLooks) && stepMm < row.repeatMm + row.heightMm) return null;
  const points = new Growing(new Float64Array(own.length));
  for (let index = firstRow; index <= lastRow; index++) {
    const { signX, signY, dx, dy } = placed(stack, index);
    const ends = [signX * (left - dx), signX * (right - dx)];
    const [first, last] = repeatsIn(row, Math.min(...ends), Math.max(...ends));
    for (let k = first; k <= last; k++) {
      const shift = k * row.repeatMm;
      for (let i = 0; i < own.length; i += 2) {
        const x = signX * (own[i] + shift) + dx;
        const y = signY * own[i + 1] + dy;
        if (x < left || x > right || y < top || y > bottom) continue;
        points.push(x);
        points.push(y);
      }
    }
  }
  return eachPlaceOnce(points.taken());
}

/** Places that differ by no more are one but for rounding, mm. */
const roundingMm = 1e-6;

/** Where strokes or repeats meet, or the line runs over itself, samples in one place would spoil a triangulation. */
function eachPlaceOnce(points: Float64Array): Float64Array {
  const grid = new PointGrid(roundingMm, Infinity, points.length / 2);
  let isTaken = false;
  const see = () => {
    isTaken = true;
  };
  let n = 0;
  for (let k = 0; k < points.length; k += 2) {
    const x = points[k];
    const y = points[k + 1];
    isTaken = false;
    grid.visitNear(x, y, see);
    if (isTaken) continue;
    grid.add(x, y);
    points[n++] = x;
    points[n++] = y;
  }
  return points.subarray(0, n);
}

/** Where samples are thinned to one to a cell, of this many steps. */
const cellSteps = 1 / 4;

/** Samples of one repeat, [x, y] each; where the line lies many times as dense as steps are long, one to a quarter of a step. */
const samplesOfRepeat = perRowAnd((row, stepMm: number): Float64Array => {
  const growing = new Growing(new Float64Array(512));
  for (const stroke of strokesLookedAt(row)) sample(stroke, stepMm, growing);
  const places = growing.taken();
  const count = places.length / 2;
  const cellMm = cellSteps * stepMm;
  if (4 * count * cellMm * cellMm < row.repeatMm * row.heightMm) return places;
  const cells = new TakenCells(count);
  let n = 0;
  for (let i = 0; i < places.length; i += 2) {
    const column = Math.floor((places[i] - row.box.minX) / cellMm);
    const line = Math.floor((places[i + 1] - row.box.minY) / cellMm);
    if (!cells.take(column, line)) continue;
    places[n++] = places[i];
    places[n++] = places[i + 1];
  }
  return places.slice(0, n);
});

/**
 * A circle that is held by a corner is held by its tip, so corners are sampled: turns sharper than this, as a cosine
 * (30 degrees), half a step or more from the corner before.
 */
const cornerCosine = 0.866;

/** Walks along the stroke and appends its ends, its corners and the places in even steps between them. */
function sample(stroke: Float64Array, stepMm: number, places: Growing<Float64Array<ArrayBuffer>>): void {
  places.push(stroke[0]);
  places.push(stroke[1]);
  for (let from = 0; from + 2 < stroke.length; ) {
    const to = nextCorner(stroke, from, stepMm / 2);
    sampleSmooth(stroke, from, to, stepMm, places);
    from = to;
  }
}

/** Where the point `leastMm` and more after `from` stands at which the stroke turns sharply, or its end. */
function nextCorner(stroke: Float64Array, from: number, leastMm: number): number {
  let i = from + 2;
  let walked = 0;
  for (; i + 2 < stroke.length; i += 2) {
    const ax = stroke[i] - stroke[i - 2];
    const ay = stroke[i + 1] - stroke[i - 1];
    const bx = stroke[i + 2] - stroke[i];
    const by = stroke[i + 3] - stroke[i + 1];
    walked += stepTo(stroke, i);
    if (walked < leastMm) continue;
    if (ax * bx + ay * by < cornerCosine * Math.sqrt((ax * ax + ay * ay) * (bx * bx + by * by))) break;
  }
  return i;
}

/** Appends places in even steps along the stroke from one point to another, without the first and with the last. */
function sampleSmooth(
  stroke: Float64Array,
  from: number,
  to: number,
  stepMm: number,
  places: Growing<Float64Array<ArrayBuffer>>,
): void {
  let length = 0;
  for (let i = from + 2; i <= to; i += 2) length += stepTo(stroke, i);
  const step = length / Math.max(1, Math.ceil(length / stepMm));
  let next = step;
  let walked = 0;
  for (let i = from + 2; i <= to && step > 0; i += 2) {
    const along = stepTo(stroke, i);
    for (; next < walked + along && next < length - step / 2; next += step) {
      const share = (next - walked) / along;
      places.push(stroke[i - 2] + share * (stroke[i] - stroke[i - 2]));
      places.push(stroke[i - 1] + share * (stroke[i + 1] - stroke[i - 1]));
    }
    walked += along;
  }
  places.push(stroke[to]);
  places.push(stroke[to + 1]);
}
