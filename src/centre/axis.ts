/**
 * The medial axis of an area: the centres of the circles that touch its border at two places or more.
 *
 * Method: D. Attali and A. Montanvert, "Computing and simplifying 2D and 3D continuous skeletons", Computer Vision
 * and Image Understanding 67 (1997): the Voronoi edges of points along the border that lie inside the area. They are
 * dual to the sides of the Delaunay triangles inside (`delaunator`, O(n log n)); a triangle's circle is the circle that
 * touches the border at its three corners. A side is kept where the border between its two ends is long: what is left
 * out leads to small bends of the border only. Since the border between the ends of the sides of a triangle adds up,
 * what is kept hangs together.
 *
 * A triangle lies inside where its middle lies within the angle that the border leaves for the area at its corners;
 * the majority of the three decides, so that no side needs to be forced into the triangulation.
 *
 * Between parallel borders w apart sampled at steps s, the centres are right to s² / 8w.
 */
import Delaunator from 'delaunator';
import { circumcentre } from '../geometry/point.js';
import { areNeighbours, type Border, borderBetween, neighbours } from './border.js';

export interface Axis {
  /** Centres and radii of the circles, one a node. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly radius: Float64Array;
  /** Three entries a node: the nodes it is joined with, -1 where there is none. */
  readonly joined: Int32Array;
  /** Three entries a node: the points of the border that its circle touches. */
  readonly touches: Uint32Array;
  /** Half the width of the pen, as the median over all circles between opposite borders. */
  readonly medianRadius: number;
  /** Of those radii, what one in twenty is under, and what one in twenty is over. */
  readonly radii: readonly [number, number];
}

/** The nodes that a node is joined with. */
export function joinedWith({ joined }: Axis, node: number): number[] {
  const others: number[] = [];
  for (let e = 3 * node; e < 3 * node + 3; e++) if (joined[e] >= 0) others.push(joined[e]);
  return others;
}

/** So many pens of border, and more, lie between the two places a circle touches; a round cap stands for 1.57. */
const leastBorderPens = 1.5;

/** A triangle whose height is less than about this share of its sides is flat but for rounding. */
const flatness = 1e-9;

export function axisOf(border: Border): Axis {
  const { triangles, halfedges } = new Delaunator(border.points);
  const count = triangles.length / 3;
  const inside = insideOf(border, triangles);
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const radius = new Float64Array(count);
  const radii: number[] = [];
  for (let t = 0; t < count; t++) {
    if (!inside[t]) continue;
    circle(border.points, triangles, t, x, y, radius);
    if (spans(border, triangles, t)) radii.push(radius[t]);
  }
  radii.sort((a, b) => a - b);
  const medianRadius = radii.length > 0 ? radii[radii.length >> 1] : 0;
  const least = leastBorderPens * 2 * medianRadius;
  const joined = new Int32Array(3 * count).fill(-1);
  for (let e = 0; e < halfedges.length; e++) {
    const other = halfedges[e];
    if (other < 0) continue;
    const t = Math.floor(e / 3);
    const u = Math.floor(other / 3);
    if (!inside[t] || !inside[u]) continue;
    const next = e % 3 === 2 ? e - 2 : e + 1;
    if (borderBetween(border, triangles[e], triangles[next]) >= least) joined[e] = u;
  }
  const at = (share: number) => radii[Math.floor(share * radii.length)] ?? 0;
  return { x, y, radius, joined, touches: triangles, medianRadius, radii: [at(0.05), at(0.95)] };
}

/** Whether a triangle reaches across: two of its corners are neighbours on the border, the third lies opposite. */
function spans(border: Border, triangles: Uint32Array, t: number): boolean {
  const [a, b, c] = triangles.subarray(3 * t, 3 * t + 3);
  const sides = Number(areNeighbours(border, a, b)) + Number(areNeighbours(border, b, c));
  return sides + Number(areNeighbours(border, c, a)) === 1;
}

function insideOf(border: Border, triangles: Uint32Array): Uint8Array {
  const inside = new Uint8Array(triangles.length / 3);
  const { points } = border;
  for (let t = 0; t < inside.length; t++) {
    const [a, b, c] = triangles.subarray(3 * t, 3 * t + 3);
    if (isFlat(points, a, b, c)) continue;
    const mx = (points[2 * a] + points[2 * b] + points[2 * c]) / 3;
    const my = (points[2 * a + 1] + points[2 * b + 1] + points[2 * c + 1]) / 3;
    const votes =
      Number(opens(border, a, mx, my)) + Number(opens(border, b, mx, my)) + Number(opens(border, c, mx, my));
    inside[t] = votes >= 2 ? 1 : 0;
  }
  return inside;
}

/** Whether three corners lie on one straight border: such a triangle has no inside, and its circle no end. */
function isFlat(points: Float64Array, a: number, b: number, c: number): boolean {
  const [dx, dy] = [points[2 * b] - points[2 * a], points[2 * b + 1] - points[2 * a + 1]];
  const [ex, ey] = [points[2 * c] - points[2 * a], points[2 * c + 1] - points[2 * a + 1]];
  return Math.abs(dx * ey - dy * ex) <= flatness * (dx * dx + dy * dy + ex * ex + ey * ey);
}

/** Whether (x, y) lies on the area's side of the border, as seen from a point of it. */
function opens(border: Border, point: number, x: number, y: number): boolean {
  const { points } = border;
  const [before, after] = neighbours(border, point);
  const px = points[2 * point];
  const py = points[2 * point + 1];
  const ax = points[2 * after] - px;
  const ay = points[2 * after + 1] - py;
  const bx = points[2 * before] - px;
  const by = points[2 * before + 1] - py;
  const mx = x - px;
  const my = y - py;
  // The area lies in the angle from what comes after to what came before: both sides' turns tell, without any arctangent.
  const afterToMiddle = ax * my - ay * mx;
  const middleToBefore = mx * by - my * bx;
  return ax * by - ay * bx >= 0
    ? afterToMiddle >= 0 && middleToBefore >= 0
    : afterToMiddle >= 0 || middleToBefore >= 0;
}

function circle(
  points: Float64Array,
  triangles: Uint32Array,
  t: number,
  x: Float64Array,
  y: Float64Array,
  radius: Float64Array,
): void {
  const [a, b, c] = triangles.subarray(3 * t, 3 * t + 3);
  const ax = points[2 * a];
  const ay = points[2 * a + 1];
  const centre = circumcentre(
    points[2 * b] - ax,
    points[2 * b + 1] - ay,
    points[2 * c] - ax,
    points[2 * c + 1] - ay,
  );
  x[t] = ax + centre.x;
  y[t] = ay + centre.y;
  radius[t] = Math.hypot(centre.x, centre.y);
}
