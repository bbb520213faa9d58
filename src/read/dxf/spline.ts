/**
 * B-splines into Bézier curves, span by span, by the blossom (polar form; Ramshaw 1987): the control points of the
 * span between two knots are the blossom at a…a b…b, found by de Boor's scheme with another parameter in each round.
 * That needs no clamped ends, so any knots will do: the curve runs from knot p to knot n, p the degree, n the number of
 * control points, whatever the flags say (The NURBS Book, chapter 3).
 *
 * Degrees 1 to 3 without weights come out exact. Any other is followed by cubics that share its ends and derivatives
 * there, halved until five places between leave the curve by no more than 1e-7 of its extent: 0.0003 mm on three
 * metres, too little to spend any of what flattening may. O(p³) a span.
 */
import { broken } from './record.js';

export interface Spline {
  readonly degree: number;
  readonly knots: readonly number[];
  /** x, y, z of each control point in turn. */
  readonly points: readonly number[];
  /** One a control point, all greater than 0; null where all are 1. */
  readonly weights: readonly number[] | null;
}

/** Of the curve's extent. */
const followed = 1e-7;
const mostHalvings = 12;

/** Draws the curve: first its start with `move`, then each Bézier curve of degree 1 to 3 as the points after its start. */
export function drawSpline(
  spline: Spline,
  move: (x: number, y: number, z: number) => void,
  curve: (points: readonly number[]) => void,
): void {
  const { degree, knots, points } = spline;
  const count = points.length / 3;
  if (!Number.isInteger(degree) || degree < 1 || count <= degree || knots.length !== count + degree + 1)
    throw broken;
  if (knots.some((knot, i) => i > 0 && knot < knots[i - 1])) throw broken;
  const weights = weightsOf(spline, count);
  const homogeneous = weights ? points.map((value, i) => value * weights[Math.floor(i / 3)]) : points;
  const tolerance = followed * extentOf(points);
  let started = false;
  for (let k = degree; k < count; k++) {
    if (!(knots[k + 1] > knots[k])) continue;
    const span = bezierOf(homogeneous, weights, degree, knots, k);
    if (!started) move(...placeOn(span, 0));
    started = true;
    if (!weights && degree <= 3) curve(span.points.slice(3));
    else follow(span, 0, 1, tolerance, mostHalvings, curve);
  }
  if (!started) throw broken;
}

function weightsOf({ weights }: Spline, count: number): readonly number[] | null {
  if (weights === null) return null;
  if (weights.length !== count || weights.some((weight) => !(weight > 0))) throw broken;
  return weights.every((weight) => weight === weights[0]) ? null : weights;
}

/** The larger side of the box. */
function extentOf(points: readonly number[]): number {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  points.forEach((value, i) => {
    low[i % 3] = Math.min(low[i % 3], value);
    high[i % 3] = Math.max(high[i % 3], value);
  });
  return Math.max(...high.map((value, i) => value - low[i]));
}

interface Bezier {
  /** Three numbers each, times the weight where there are weights. */
  readonly points: readonly number[];
  readonly weights: readonly number[] | null;
}

/** The span from knot `k` to the next. */
function bezierOf(
  points: readonly number[],
  weights: readonly number[] | null,
  degree: number,
  knots: readonly number[],
  k: number,
): Bezier {
  const [a, b] = [knots[k], knots[k + 1]];
  const first = k - degree;
  const out: number[] = [];
  const outWeights: number[] = [];
  for (let late = 0; late <= degree; late++) {
    const row = points.slice(3 * first, 3 * (k + 1));
    const rowWeights = weights?.slice(first, k + 1) ?? [];
    for (let round = 1; round <= degree; round++) {
      const u = round <= degree - late ? a : b;
      for (let j = 0; j <= degree - round; j++) {
        const from = knots[first + j + round];
        const share = (u - from) / (knots[k + 1 + j] - from);
        for (let i = 3 * j; i < 3 * j + 3; i++) row[i] += share * (row[i + 3] - row[i]);
        if (weights) rowWeights[j] += share * (rowWeights[j + 1] - rowWeights[j]);
      }
    }
    out.push(row[0], row[1], row[2]);
    if (weights) outWeights.push(rowWeights[0]);
  }
  return { points: out, weights: weights && outWeights };
}

type Place = [number, number, number];

/** Place and derivative at t, by de Casteljau and the quotient rule. */
function at({ points, weights }: Bezier, t: number): { place: Place; slope: Place } {
  const row = [...points];
  const rowWeights = weights ? [...weights] : [];
  const degree = points.length / 3 - 1;
  let slope: Place = [0, 0, 0];
  let weightSlope = 0;
  for (let left = degree; left > 0; left--) {
    if (left === 1) {
      slope = [0, 1, 2].map((i) => degree * (row[i + 3] - row[i])) as Place;
      if (weights) weightSlope = degree * (rowWeights[1] - rowWeights[0]);
    }
    for (let i = 0; i < 3 * left; i++) row[i] += t * (row[i + 3] - row[i]);
    if (weights) for (let i = 0; i < left; i++) rowWeights[i] += t * (rowWeights[i + 1] - rowWeights[i]);
  }
  if (!weights) return { place: [row[0], row[1], row[2]], slope };
  const place = [row[0], row[1], row[2]].map((value) => value / rowWeights[0]) as Place;
  return { place, slope: slope.map((value, i) => (value - weightSlope * place[i]) / rowWeights[0]) as Place };
}

function placeOn(span: Bezier, t: number): Place {
  return at(span, t).place;
}

/** Cubics from t = `from` to `to`, halved where they leave the curve. */
function follow(
  span: Bezier,
  from: number,
  to: number,
  tolerance: number,
  halvings: number,
  curve: (points: readonly number[]) => void,
): void {
  const third = (to - from) / 3;
  const start = at(span, from);
  const end = at(span, to);
  const cubic = [
    ...start.place,
    ...start.place.map((value, i) => value + third * start.slope[i]),
    ...end.place.map((value, i) => value - third * end.slope[i]),
    ...end.place,
  ];
  const leaves = [1 / 6, 1 / 3, 1 / 2, 2 / 3, 5 / 6].some((t) => {
    const [x, y, z] = placeOn(span, from + t * (to - from));
    const [cx, cy, cz] = placeOn({ points: cubic, weights: null }, t);
    return !(Math.hypot(x - cx, y - cy, z - cz) <= tolerance);
  });
  if (leaves && halvings > 0) {
    const middle = (from + to) / 2;
    follow(span, from, middle, tolerance, halvings - 1, curve);
    follow(span, middle, to, tolerance, halvings - 1, curve);
  } else curve(cubic.slice(3));
}
