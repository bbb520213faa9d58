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
 * beyond the window as the largest of these circles reaches: that is bounded first, by branch and bound on the distance
 * to the nearest line. Circles between rows are wanted only in the bands where two rows come so near.
 */
import Delaunator from 'delaunator';
import { circumcentre, distanceBetween } from '../geometry/point.js';
import { kindsOfSeam } from './layout.js';
import { type Span, samplesAround } from './samples.js';
import { segmentTreeOf } from './segment-tree.js';
import { distanceToStack, type Stack, touchMm } from './stack.js';

export interface Seed {
  readonly x: number;
  readonly y: number;
  /** Of the circle through the samples: at least that of the true circle here. */
  readonly radiusMm: number;
}

/** Seeds of circles at least `leastMm` across, largest first. */
export function seedsIn(stack: Stack, window: Span, stepMm: number, leastMm: number): Seed[] {
  return largestFirst(seedsWithin(stack, window, mostRoomIn(stack, window), stepMm, leastMm));
}

/** Where the centres of circles that touch two rows lie, over one period of the stack. */
export interface Seams {
  readonly windows: readonly Span[];
  readonly roomMm: number;
}

/** They lie no farther from the outermost lines of either row than there is room. */
export function seamsOf(stack: Stack): Seams {
  const { row, spacingMm, layout } = stack;
  const kinds = kindsOfSeam(layout);
  const { minX, minY, maxY } = row.box;
  const period = {
    leftMm: minX,
    rightMm: minX + row.repeatMm,
    topMm: minY,
    bottomMm: minY + kinds * spacingMm,
  };
  const roomMm = mostRoomIn(stack, period);
  const reachMm = roomMm + touchMm;
  const heightMm = maxY - minY - spacingMm + 2 * reachMm;
  if (heightMm >= spacingMm) return { windows: [period], roomMm };
  const windows = Array.from({ length: kinds }, (_, k) => {
    const topMm = minY + k * spacingMm - reachMm;
    return { ...period, topMm, bottomMm: topMm + heightMm };
  });
  return { windows, roomMm };
}

/** Seeds of circles that touch two rows, among others. */
export function seamSeeds(stack: Stack, { windows, roomMm }: Seams, stepMm: number, leastMm: number): Seed[] {
  return largestFirst(windows.flatMap((window) => seedsWithin(stack, window, roomMm, stepMm, leastMm)));
}

function seedsWithin(stack: Stack, window: Span, roomMm: number, stepMm: number, leastMm: number): Seed[] {
  for (let step = stepMm; ; step *= 2) {
    const samples = samplesAround(stack, window, step, roomMm);
    if (samples !== null) return seedsOf(samples, window, step, leastMm);
  }
}

function largestFirst(seeds: Seed[]): Seed[] {
  return seeds.sort((one, other) => other.radiusMm - one.radiusMm);
}

/** Places of the grid on which the room in a window is bounded at first, */
const gridPlaces = 48;
/** and one more for so many segments. */
const segmentsPerPlace = 64;

/** From the middle of a cell to those of its quarters, in their sides. */
const quarters = [
  [-0.5, -0.5],
  [-0.5, 0.5],
  [0.5, 0.5],
  [0.5, -0.5],
] as const;

/** The bound is right to this share of it, where that takes no more places than are good. */
const roomShare = 1 / 8;

/**
 * A bound on the radius of every empty circle with its centre in the window: no distance grows faster than the way.
 * Cells in which there may be more room than was found are quartered, and their middles looked at.
 */
function mostRoomIn(stack: Stack, { leftMm, rightMm, topMm, bottomMm }: Span): number {
  const width = rightMm - leftMm;
  const height = bottomMm - topMm;
  const side = Math.max(Math.sqrt((width * height) / gridPlaces), Math.max(width, height) / gridPlaces);
  const [columns, rows] = [Math.ceil(width / side), Math.ceil(height / side)];
  let [across, down] = [width / columns, height / rows];
  let cells: number[] = [];
  for (let i = 0; i < columns; i++)
    for (let j = 0; j < rows; j++) cells.push(leftMm + (i + 0.5) * across, topMm + (j + 0.5) * down);
  let placesLeft = 4 * gridPlaces + segmentTreeOf(stack.row).count / segmentsPerPlace;
  for (let best = 0; ; ) {
    const reach = Math.sqrt(across * across + down * down) / 2;
    const distances = new Float64Array(cells.length / 2);
    let distanceMm = Infinity;
    for (let k = 0; k < distances.length; k++) {
      // Cells that follow one another lie near each other, mostly.
      const wayMm =
        k === 0 ? 0 : distanceBetween(cells[2 * k], cells[2 * k + 1], cells[2 * k - 2], cells[2 * k - 1]);
      distanceMm = distanceToStack(stack, cells[2 * k], cells[2 * k + 1], distanceMm + wayMm);
      distances[k] = distanceMm;
      best = Math.max(best, distanceMm);
    }
    placesLeft -= distances.length;
    const open = cells.filter((_, i) => distances[i >> 1] + reach > (1 + roomShare) * best);
    if (open.length === 0) return (1 + roomShare) * best;
    if (2 * open.length > placesLeft) return best + reach;
    [across, down] = [across / 2, down / 2];
    cells = [];
    for (let i = 0; i < open.length; i += 2)
      for (const [right, below] of quarters) cells.push(open[i] + right * across, open[i + 1] + below * down);
  }
}

/** How blunt an angle may be, as its cosine, for the seed to count: the samples lie a little off the true places. */
const bluntest = -0.1;
/** Samples nearer than this share of a step are one place (where strokes meet): a sliver between them holds nothing. */
const samePlace = 1e-3;

function seedsOf(points: Float64Array, window: Span, stepMm: number, leastMm: number): Seed[] {
  const seeds: Seed[] = [];
  const { triangles } = new Delaunator(points);
  const shortest = (samePlace * stepMm) ** 2;
  const least = (leastMm / 2) ** 2;
  for (let t = 0; t < triangles.length; t += 3) {
    const a = triangles[t];
    const b = triangles[t + 1];
    const c = triangles[t + 2];
    const ax = points[2 * a];
    const ay = points[2 * a + 1];
    const bx = points[2 * b] - ax;
    const by = points[2 * b + 1] - ay;
    const cx = points[2 * c] - ax;
    const cy = points[2 * c + 1] - ay;
    const bb = bx * bx + by * by;
    const cc = cx * cx + cy * cy;
    const bc = bx * cx + by * cy;
    const aa = bb + cc - 2 * bc;
    if (Math.min(aa, bb, cc) < shortest) continue;
    const sharp =
      bc >= bluntest * Math.sqrt(bb * cc) &&
      bb - bc >= bluntest * Math.sqrt(bb * aa) &&
      cc - bc >= bluntest * Math.sqrt(cc * aa);
    if (!sharp) continue;
    const centre = circumcentre(bx, by, cx, cy);
    const squared = centre.x * centre.x + centre.y * centre.y;
    if (squared < least) continue;
    const x = ax + centre.x;
    const y = ay + centre.y;
    if (!isIn(window, x, y, samePlace * stepMm)) continue;
    seeds.push({ x, y, radiusMm: Math.sqrt(squared) });
  }
  return seeds;
}

/** In the window or so near its edge that rounding may have put it outside: better twice than not at all. */
function isIn({ leftMm, rightMm, topMm, bottomMm }: Span, x: number, y: number, slackMm: number): boolean {
  return x >= leftMm - slackMm && x <= rightMm + slackMm && y >= topMm - slackMm && y <= bottomMm + slackMm;
}
