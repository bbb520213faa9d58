/**
 * Stacked rows in jsts (a port of the JTS topology suite), as an outside authority on distances and empty circles.
 * The rows are laid out here from the words alone (shifted, flipped, turned), not with the project's own placements.
 */
// @ts-nocheck jsts ships no types for its modules.
import LargestEmptyCircle from 'jsts/org/locationtech/jts/algorithm/construct/LargestEmptyCircle.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import 'jsts/org/locationtech/jts/monkey.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';

const factory = new GeometryFactory();

/** Lines are cut into short ones, so that jsts can leave most pairs out by their boxes. */
const perLine = 8;

export interface Case {
  readonly strokes: readonly Float64Array[];
  readonly repeatMm: number;
  readonly middleXMm: number;
}

/** Row number `index` of the layout at this spacing: the repeats from `first` to `last`, as a MultiLineString. */
function rowOf(
  { strokes, repeatMm, middleXMm }: Case,
  layout,
  spacingMm: number,
  index: number,
  first,
  last,
) {
  let top = Infinity;
  let bottom = -Infinity;
  for (const s of strokes)
    for (let i = 1; i < s.length; i += 2) {
      top = Math.min(top, s[i]);
      bottom = Math.max(bottom, s[i]);
    }
  const changed = index % 2 !== 0;
  const place = (x, y) => {
    if (changed && (layout === 'mirrored' || layout === 'turned')) y = top + bottom - y;
    if (changed && layout === 'turned') x = 2 * middleXMm - x;
    if (changed && (layout === 'brick' || layout === 'mirrored')) x += repeatMm / 2;
    return new Coordinate(x, y + index * spacingMm);
  };
  const lines = [];
  for (let k = first; k <= last; k++) {
    for (const s of strokes) {
      for (let from = 0; from + 3 < s.length; from += 2 * perLine) {
        const part = [];
        for (let i = from; i < Math.min(s.length, from + 2 * perLine + 2); i += 2)
          part.push(place(s[i] + k * repeatMm, s[i + 1]));
        lines.push(factory.createLineString(part));
      }
    }
  }
  return lines;
}

function kindsOf(layout): number {
  return layout === 'straight' || layout === 'brick' ? 1 : 2;
}

/** Least distance between neighbouring rows, or rows so many apart, of either kind. */
export function leastDistance(motif: Case, layout, spacingMm: number, apart = 1): number {
  let least = Infinity;
  const xs = motif.strokes.flatMap((line) => [...line].filter((_, i) => i % 2 === 0));
  const reach = Math.ceil((Math.max(...xs) - Math.min(...xs)) / motif.repeatMm) + 1;
  for (let index = 0; index < kindsOf(layout); index++) {
    const upper = factory.createMultiLineString(rowOf(motif, layout, spacingMm, index, 0, 0));
    const lower = factory.createMultiLineString(
      rowOf(motif, layout, spacingMm, index + apart, -reach, reach),
    );
    least = Math.min(least, DistanceOp.distance(upper, lower));
  }
  return least;
}

/**
 * The closest spacing by narrowing down with `DistanceOp`: from far apart the rows come nearer by what they have to
 * spare (no distance changes faster than the spacing), at least by 0.2 micrometres, until they are too near.
 */
export function closestByDistance(motif: Case, layout, clearanceMm: number, fromMm: number): number {
  let spacing = fromMm;
  let last = fromMm;
  for (;;) {
    const spare = leastDistance(motif, layout, spacing) - clearanceMm;
    if (spare < 0) break;
    last = spacing;
    spacing -= Math.max(spare, 5e-4);
  }
  let low = spacing;
  let high = last;
  while (high - low > 1e-5) {
    const middle = (low + high) / 2;
    if (leastDistance(motif, layout, middle) < clearanceMm) low = middle;
    else high = middle;
  }
  return high;
}

/** Diameter of the largest empty circle anywhere in the stacked rows, to `toMm`. */
export function largestEmptyCircle(motif: Case, layout, spacingMm: number, toMm: number): number {
  const rows = 4 * kindsOf(layout) + 3;
  const lines = [];
  for (let index = -rows; index <= rows; index++)
    lines.push(...rowOf(motif, layout, spacingMm, index, -3, 3));
  const obstacles = factory.createMultiLineString(lines);
  const circle = new LargestEmptyCircle(obstacles, toMm);
  // A window one period wide and high holds a centre of every circle there is.
  const right = motif.repeatMm;
  const bottom = kindsOf(layout) * spacingMm;
  const corners = [
    [0, 0],
    [right, 0],
    [right, bottom],
    [0, bottom],
    [0, 0],
  ];
  circle.setBoundary(factory.createPolygon(corners.map(([x, y]) => new Coordinate(x, y))));
  return 2 * circle.getRadiusLine().getLength();
}
