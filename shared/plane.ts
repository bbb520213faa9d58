/** The words for places and lines in the plane. What is worked out with them stands in `src/geometry/`. */

/** A place in the plane. Millimetres unless the name says otherwise; x to the right, y down the quilt. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** An upright rectangle. Empty while minX > maxX. */
export interface Box {
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
}

/**
 * [x0, y0, x1, y1, …], millimetres: x and y of each point in turn, so that a million points are one block of memory.
 *
 * A closed polyline repeats its first point at its end; there is no other mark for it. A polyline of one point is
 * a dot and has no segments.
 */
export type Polyline = Float64Array;
