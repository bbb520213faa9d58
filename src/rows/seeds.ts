/**
 * Where empty circles are held: places from which to grow them.
 *
 * Method: points are sampled evenly along the lines and triangulated (B. Delaunay 1934; delaunator). The circle through
 * the corners of a Delaunay triangle holds no sample, and where its centre lies in its own triangle, that is where
 * the triangle has no blunt angle, its three corners hold it: it cannot grow by moving (G. Toussaint, Int. J. Comput.
 * Inf. Sci. 12, 1983, for the largest one). Between samples the line may bulge by up to step^2 / 8r into a circle of
 * radius r: a seed is near the true circle, and is grown to it afterwards.
 *
 * The rows go on without end, so only circles with their centre in a window are wanted, and samples are taken as far
 * beyond the window as the largest of these circles reaches.
 */
import Delaunator from 'delaunator';
import { perRow, type Row } from './row.js';
import { distanceToStack, placed, repeatsIn, rowsIn, type Stack } from './stack.js';

export interface Seed {
  readonly x: number;
  readonly y: number;
  /** Of the circle through the samples: at least that of the true circle here. */
  readonly radiusMm: number;
  /** True where the samples it touches belong to one row. */
  readonly oneRow: boolean;
}

/** Centres from `leftMm` up to `rightMm` and from `topMm` up to `bottomMm` are wanted. */
export interface Window {
  readonly leftMm: number;
  readonly rightMm: number;
  readonly topMm: number;
  readonly bottomMm: number;
}

/** Circles less than this many sampling steps across say more about the samples than about the line. */
export const fewestSteps = 3;

/** Samples in one triangulation; where there would be more, the step is widened. */
const mostSamples = 150_000;

/** Seeds at least `fewestSteps` steps across, largest first. */
export function seedsIn(stack: Stack, window: Window, stepMm: number): Seed[] {
  const marginMm = mostRoomIn(stack, window);
  for (let step = stepMm; ; step *= 2) {
    const samples = samplesAround(stack, window, step, marginMm);
    if (samples !== null) return seedsOf(samples, window, step);
  }
}

/** Places of the grid on which the room in a window is bounded. */
const gridPlaces = 150;

/** A bound on the radius of every empty circle with its centre in the window: no distance grows faster than the way. */
function mostRoomIn(stack: Stack, { leftMm, rightMm, topMm, bottomMm }: Window): number {
  const width = rightMm - leftMm;
  const height = bottomMm - topMm;
  const cell = Math.max(Math.sqrt((width * height) / gridPlaces), Math.max(width, height) / gridPlaces);
  const [columns, rows] = [Math.ceil(width / cell), Math.ceil(height / cell)];
  let most = 0;
  for (let i = 0; i < columns; i++) {
    for (let j = 0; j < rows; j++) {
      const x = leftMm + ((i + 0.5) * width) / columns;
      const y = topMm + ((j + 0.5) * height) / rows;
      most = Math.max(most, distanceToStack(stack, x, y));
    }
  }
  return most + Math.hypot(width / columns, height / rows) / 2;
}

/** [x, y] of each sample, and the number of its row. */
interface Samples {
  readonly points: Float64Array;
  readonly rows: Int32Array;
}

/** Samples of all rows in the window and `marginMm` around it, or null where that is more than is good. */
function samplesAround(stack: Stack, window: Window, stepMm: number, marginMm: number): Samples | null {
  const { row } = stack;
  const left = window.leftMm - marginMm;
  const right = window.rightMm + marginMm;
  const top = window.topMm - marginMm;
  const bottom = window.bottomMm + marginMm;
  const own = samplesOfRepeat(row, stepMm);
  const [firstRow, lastRow] = rowsIn(stack, top, bottom);
  const estimate = (own.length / 2) * (lastRow - firstRow + 1) * ((right - left) / row.repeatMm + 1);
  if (estimate > mostSamples && own.length > 4 * row.strokes.length) return null;
  const points: number[] = [];
  const rows: number[] = [];
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
        points.push(x, y);
        rows.push(index);
      }
    }
  }
  return { points: Float64Array.from(points), rows: Int32Array.from(rows) };
}

const keptSamples = perRow(() => new Map<number, Float64Array>());

/** Samples of one repeat, [x, y] each: ends and corners of every stroke, and places at most `stepMm` apart between. */
function samplesOfRepeat(row: Row, stepMm: number): Float64Array {
  const kept = keptSamples(row);
  let samples = kept.get(stepMm);
  if (samples === undefined) {
    const places: number[] = [];
    for (const stroke of row.strokes) sample(stroke, stepMm, places);
    samples = Float64Array.from(places);
    kept.set(stepMm, samples);
  }
  return samples;
}

/**
 * A circle that is held by a corner is held by its tip, so corners are sampled: turns sharper than this, as a cosine
 * (30 degrees), half a step or more from the corner before.
 */
const cornerCosine = 0.866;

/** Walks along the stroke and appends its ends, its corners and the places in even steps between them. */
function sample(stroke: Float64Array, stepMm: number, places: number[]): void {
  places.push(stroke[0], stroke[1]);
  for (let from = 0; from + 2 < stroke.length; ) {
    const to = nextCorner(stroke, from, stepMm / 2);
    sampleSmooth(stroke.subarray(from, to + 2), stepMm, places);
    from = to;
  }
}

/** Where the point `leastMm` and more after `from` stands at which the stroke turns sharply, or its end. */
function nextCorner(stroke: Float64Array, from: number, leastMm: number): number {
  let i = from + 2;
  let walked = 0;
  for (; i + 2 < stroke.length; i += 2) {
    const [ax, ay] = [stroke[i] - stroke[i - 2], stroke[i + 1] - stroke[i - 1]];
    const [bx, by] = [stroke[i + 2] - stroke[i], stroke[i + 3] - stroke[i + 1]];
    walked += lengthOfStep(stroke, i);
    if (walked < leastMm) continue;
    if (ax * bx + ay * by < cornerCosine * Math.sqrt((ax * ax + ay * ay) * (bx * bx + by * by))) break;
  }
  return i;
}

/** Appends places in even steps along the line, without its first point and with its last. */
function sampleSmooth(line: Float64Array, stepMm: number, places: number[]): void {
  let length = 0;
  for (let i = 2; i < line.length; i += 2) length += lengthOfStep(line, i);
  const step = length / Math.max(1, Math.ceil(length / stepMm));
  let next = step;
  let walked = 0;
  for (let i = 2; i < line.length && step > 0; i += 2) {
    const along = lengthOfStep(line, i);
    for (; next < walked + along && next < length - step / 2; next += step) {
      const share = (next - walked) / along;
      places.push(
        line[i - 2] + share * (line[i] - line[i - 2]),
        line[i - 1] + share * (line[i + 1] - line[i - 1]),
      );
    }
    walked += along;
  }
  places.push(line[line.length - 2], line[line.length - 1]);
}

function lengthOfStep(line: Float64Array, i: number): number {
  return Math.sqrt((line[i] - line[i - 2]) ** 2 + (line[i + 1] - line[i - 1]) ** 2);
}

/** How blunt an angle may be, as its cosine, for the seed to count: the samples lie a little off the true places. */
const bluntest = -0.1;
/** Samples nearer than this share of a step are one place (where strokes meet): a sliver between them holds nothing. */
const samePlace = 1e-3;

function seedsOf({ points, rows }: Samples, window: Window, stepMm: number): Seed[] {
  const seeds: Seed[] = [];
  const { triangles } = new Delaunator(points);
  const shortest = (samePlace * stepMm) ** 2;
  const least = ((fewestSteps * stepMm) / 2) ** 2;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t], triangles[t + 1], triangles[t + 2]];
    const [ax, ay] = [points[2 * a], points[2 * a + 1]];
    const [bx, by] = [points[2 * b] - ax, points[2 * b + 1] - ay];
    const [cx, cy] = [points[2 * c] - ax, points[2 * c + 1] - ay];
    const [bb, cc, bc] = [bx * bx + by * by, cx * cx + cy * cy, bx * cx + by * cy];
    const aa = bb + cc - 2 * bc;
    if (Math.min(aa, bb, cc) < shortest) continue;
    const sharp =
      bc >= bluntest * Math.sqrt(bb * cc) &&
      bb - bc >= bluntest * Math.sqrt(bb * aa) &&
      cc - bc >= bluntest * Math.sqrt(cc * aa);
    if (!sharp) continue;
    const twice = 2 * (bx * cy - by * cx);
    const ux = (cy * bb - by * cc) / twice;
    const uy = (bx * cc - cx * bb) / twice;
    const squared = ux * ux + uy * uy;
    if (!(squared >= least && squared < Infinity)) continue;
    const x = ax + ux;
    const y = ay + uy;
    if (x < window.leftMm || x >= window.rightMm || y < window.topMm || y >= window.bottomMm) continue;
    const oneRow = rows[a] === rows[b] && rows[b] === rows[c];
    seeds.push({ x, y, radiusMm: Math.sqrt(squared), oneRow });
  }
  return seeds.sort((one, other) => other.radiusMm - one.radiusMm);
}
