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
import { circumcentre } from '../geometry/point.js';
import { type Samples, type Span, samplesAround } from './samples.js';
import { distanceToStack, type Stack } from './stack.js';

export interface Seed {
  readonly x: number;
  readonly y: number;
  /** Of the circle through the samples: at least that of the true circle here. */
  readonly radiusMm: number;
  /** True where the samples it touches belong to one row. */
  readonly oneRow: boolean;
}

/** Seeds of circles at least `leastMm` across, largest first. */
export function seedsIn(stack: Stack, window: Span, stepMm: number, leastMm: number): Seed[] {
  const marginMm = mostRoomIn(stack, window);
  for (let step = stepMm; ; step *= 2) {
    const samples = samplesAround(stack, window, step, marginMm);
    if (samples !== null) return seedsOf(samples, window, step, leastMm);
  }
}

/** Places of the grid on which the room in a window is bounded. */
const gridPlaces = 150;

/** A bound on the radius of every empty circle with its centre in the window: no distance grows faster than the way. */
function mostRoomIn(stack: Stack, { leftMm, rightMm, topMm, bottomMm }: Span): number {
  const width = rightMm - leftMm;
  const height = bottomMm - topMm;
  const cell = Math.max(Math.sqrt((width * height) / gridPlaces), Math.max(width, height) / gridPlaces);
  const [columns, rows] = [Math.ceil(width / cell), Math.ceil(height / cell)];
  let most = 0;
  for (let i = 0; i < columns; i++) {
    const x = leftMm + ((i + 0.5) * width) / columns;
    let distanceMm = Infinity;
    for (let j = 0; j < rows; j++) {
      const y = topMm + ((j + 0.5) * height) / rows;
      distanceMm = distanceToStack(stack, x, y, distanceMm + height / rows);
      most = Math.max(most, distanceMm);
    }
  }
  return most + Math.hypot(width / columns, height / rows) / 2;
}

/** How blunt an angle may be, as its cosine, for the seed to count: the samples lie a little off the true places. */
const bluntest = -0.1;
/** Samples nearer than this share of a step are one place (where strokes meet): a sliver between them holds nothing. */
const samePlace = 1e-3;

function seedsOf({ points, rows }: Samples, window: Span, stepMm: number, leastMm: number): Seed[] {
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
    const oneRow = rows[a] === rows[b] && rows[b] === rows[c];
    seeds.push({ x, y, radiusMm: Math.sqrt(squared), oneRow });
  }
  return seeds.sort((one, other) => other.radiusMm - one.radiusMm);
}

/** In the window or so near its edge that rounding may have put it outside: better twice than not at all. */
function isIn({ leftMm, rightMm, topMm, bottomMm }: Span, x: number, y: number, slackMm: number): boolean {
  return x >= leftMm - slackMm && x <= rightMm + slackMm && y >= topMm - slackMm && y <= bottomMm + slackMm;
}
