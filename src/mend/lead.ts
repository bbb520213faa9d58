/**
 * A lead: a curve that leaves one place in a direction and meets another in a direction, so that a line goes on into
 * it and out of it without a bend. The cubic that has these ends and directions (Hermite's), its handles a third of
 * its reach.
 */
import type { Point, Polyline } from '../../shared/plane.js';
import { polylineOf } from '../geometry/polyline.js';

/** The lead is walked in steps of about this, mm: a curve of so wide a reach stays within 0.01 mm of them. */
const stepMm = 0.25;

/** A place of a line and the unit vector along it there. */
export interface Heading {
  readonly at: Point;
  readonly dx: number;
  readonly dy: number;
}

export function leadBetween(from: Heading, to: Heading): Polyline {
  const handle = Math.hypot(to.at.x - from.at.x, to.at.y - from.at.y) / 3;
  const steps = Math.max(1, Math.ceil((3 * handle) / stepMm));
  const place = (t: number): Point => {
    const s = 1 - t;
    const [a, b, c, d] = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
    return {
      x: (a + b) * from.at.x + b * handle * from.dx - c * handle * to.dx + (c + d) * to.at.x,
      y: (a + b) * from.at.y + b * handle * from.dy - c * handle * to.dy + (c + d) * to.at.y,
    };
  };
  return polylineOf(Array.from({ length: steps + 1 }, (_, i) => place(i / steps)));
}
