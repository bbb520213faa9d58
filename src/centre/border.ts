/**
 * The border of an area as points at even steps, corners kept.
 *
 * The border is closed rings; walking along one, the area lies on the right hand (y runs down): on the side of
 * (-ty, tx) for a direction (tx, ty). Holes run the other way round.
 */
import type { Polyline } from '../../shared/plane.js';
import { pointCount } from '../geometry/polyline.js';

export interface Border {
  /** [x0, y0, x1, y1, …], ring after ring; the first point of a ring is not repeated. */
  readonly points: Float64Array;
  readonly ringOf: Uint32Array;
  /** Number of the first point of each ring; one more entry than rings. */
  readonly first: Uint32Array;
  /** For each point the length walked from its ring's first point, and for each ring its whole length. */
  readonly along: Float64Array;
  readonly lengths: Float64Array;
}

/** A turn of more than this is a corner and gets a point of its own, degrees. */
const cornerDeg = 20;

/** Points about `step` apart; rings shorter than six steps get six points all the same. */
export function borderOf(rings: readonly Polyline[], step: number): Border {
  const points: number[] = [];
  const ringOf: number[] = [];
  const first = [0];
  const along: number[] = [];
  const lengths: number[] = [];
  for (const ring of rings) {
    const length = sampleRing(ring, step, (x, y, at) => {
      points.push(x, y);
      along.push(at);
      ringOf.push(lengths.length);
    });
    if (length === 0) continue;
    lengths.push(length);
    first.push(along.length);
  }
  return {
    points: Float64Array.from(points),
    ringOf: Uint32Array.from(ringOf),
    first: Uint32Array.from(first),
    along: Float64Array.from(along),
    lengths: Float64Array.from(lengths),
  };
}

/** The points before and after a point on its ring. */
export function neighbours({ first, ringOf }: Border, point: number): readonly [number, number] {
  const from = first[ringOf[point]];
  const to = first[ringOf[point] + 1];
  return [point === from ? to - 1 : point - 1, point === to - 1 ? from : point + 1];
}

export function areNeighbours({ first, ringOf }: Border, p: number, q: number): boolean {
  if (ringOf[p] !== ringOf[q]) return false;
  const apart = Math.abs(p - q);
  return apart === 1 || apart === first[ringOf[p] + 1] - first[ringOf[p]] - 1;
}

/** The shorter way along the border from one point to another; Infinity where they lie on different rings. */
export function borderBetween({ along, lengths, ringOf }: Border, p: number, q: number): number {
  if (ringOf[p] !== ringOf[q]) return Infinity;
  const way = Math.abs(along[p] - along[q]);
  return Math.min(way, lengths[ringOf[p]] - way);
}

/** Emits the points of one ring and returns its length; 0 where it has no extent. */
function sampleRing(
  ring: Polyline,
  step: number,
  emit: (x: number, y: number, along: number) => void,
): number {
  const line = withoutRepeats(ring);
  const n = pointCount(line) - 1;
  if (n < 3) return 0;
  const run = new Float64Array(n + 1);
  for (let i = 1; i <= n; i++)
    run[i] = run[i - 1] + Math.hypot(line[2 * i] - line[2 * i - 2], line[2 * i + 1] - line[2 * i - 1]);
  const length = run[n];
  const corners = cornersOf(line, n);
  const stops = corners.length > 0 ? [...corners, corners[0] + n] : [0, n];
  const most = Math.min(step, length / 6);
  for (let k = 1; k < stops.length; k++) {
    const from = run[stops[k - 1]];
    const to =
      stops[k] > n || (stops[k] === n && corners.length > 0) ? length + run[stops[k] - n] : run[stops[k]];
    const steps = Math.max(1, Math.round((to - from) / most));
    let segment = stops[k - 1];
    for (let i = 0; i < steps; i++) {
      const at = from + ((to - from) * i) / steps;
      const wrapped = at >= length ? at - length : at;
      if (wrapped < run[segment]) segment = 0;
      while (segment < n - 1 && run[segment + 1] <= wrapped) segment++;
      const share = (wrapped - run[segment]) / (run[segment + 1] - run[segment]);
      emit(
        line[2 * segment] + share * (line[2 * segment + 2] - line[2 * segment]),
        line[2 * segment + 1] + share * (line[2 * segment + 3] - line[2 * segment + 1]),
        at,
      );
    }
  }
  return length;
}

function cornersOf(line: Polyline, n: number): number[] {
  const least = Math.cos((cornerDeg * Math.PI) / 180);
  const corners: number[] = [];
  for (let i = 0; i < n; i++) {
    const before = i === 0 ? n - 1 : i - 1;
    const ax = line[2 * i] - line[2 * before];
    const ay = line[2 * i + 1] - line[2 * before + 1];
    const bx = line[2 * i + 2] - line[2 * i];
    const by = line[2 * i + 3] - line[2 * i + 1];
    if (ax * bx + ay * by < least * Math.hypot(ax, ay) * Math.hypot(bx, by)) corners.push(i);
  }
  return corners;
}

/** Nearer points than this are one. */
const same = 1e-9;

/** The ring closed, without points that repeat the one before. */
function withoutRepeats(ring: Polyline): Polyline {
  const flat = [ring[0], ring[1]];
  for (let i = 2; i < ring.length; i += 2) {
    const n = flat.length;
    if (Math.hypot(ring[i] - flat[n - 2], ring[i + 1] - flat[n - 1]) > same) flat.push(ring[i], ring[i + 1]);
  }
  const n = flat.length;
  if (Math.hypot(flat[0] - flat[n - 2], flat[1] - flat[n - 1]) > same) flat.push(flat[0], flat[1]);
  else {
    flat[n - 2] = flat[0];
    flat[n - 1] = flat[1];
  }
  return Float64Array.from(flat);
}
