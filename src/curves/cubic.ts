/** Cubic Bézier curves as numbers, and how they leave and arrive. */

/** x and y of start, handle, handle, end. */
export type Cubic = readonly [number, number, number, number, number, number, number, number];
export type Direction = readonly [x: number, y: number];

/** How a curve leaves its start and arrives at its end; what is null is free. */
export interface Ends {
  readonly leaving: Direction | null;
  readonly arriving: Direction | null;
}

/** From where a curve starts towards its first handle; from its second handle towards its end. */
export function leavingOf([ax, ay, bx, by]: Cubic): Direction {
  const length = Math.hypot(bx - ax, by - ay);
  return [(bx - ax) / length, (by - ay) / length];
}

export function arrivingOf([, , , , cx, cy, dx, dy]: Cubic): Direction {
  const length = Math.hypot(dx - cx, dy - cy);
  return [(dx - cx) / length, (dy - cy) / length];
}
