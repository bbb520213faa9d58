/**
 * Elliptical arcs, from SVG's end points to the centre: SVG 1.1 (second edition), appendix F.6, whose names for the
 * quantities are used here. Radii too small to reach are scaled up (F.6.6); a zero radius is a straight line, equal
 * ends are no arc at all (F.6.2).
 */
import type { Pen } from '../intake/pen.js';

/**
 * Under this square of half chord over radius an arc bulges by less than 3e-8 of its chord: it is taken as straight,
 * because its centre is so far off that rounding there would be larger.
 */
const straight = 1e-14;

/** Draws the arc from where the pen stands to (x2, y2). */
export function arcTo(
  pen: Pen,
  radiusX: number,
  radiusY: number,
  rotationDeg: number,
  large: boolean,
  sweep: boolean,
  x2: number,
  y2: number,
): void {
  const { x: x1, y: y1 } = pen;
  if (x1 === x2 && y1 === y2) return;
  let rx = Math.abs(radiusX);
  let ry = Math.abs(radiusY);
  if (rx === 0 || ry === 0) {
    pen.lineTo(x2, y2);
    return;
  }
  const phi = ((rotationDeg % 360) * Math.PI) / 180;
  const cos = Math.cos(phi);
  const sin = Math.sin(phi);
  // F.6.5, step 1, in units of the radii: half the chord, seen in the ellipse's own axes.
  const hx = (x1 - x2) / 2;
  const hy = (y1 - y2) / 2;
  let px = (cos * hx + sin * hy) / rx;
  let py = (cos * hy - sin * hx) / ry;
  const reach = Math.hypot(px, py);
  if (reach > 1) {
    rx *= reach;
    ry *= reach;
    px /= reach;
    py /= reach;
  }
  // Step 2: the centre, still in units of the radii.
  const squared = px * px + py * py;
  if (squared < straight && !large) {
    pen.lineTo(x2, y2);
    return;
  }
  const root = Math.sqrt(Math.max(0, 1 / squared - 1)) * (large === sweep ? -1 : 1);
  const cx = reach > 1 ? 0 : root * py;
  const cy = reach > 1 ? 0 : -root * px;
  // Step 4: the angles.
  const theta = Math.atan2(py - cy, px - cx);
  let delta = Math.atan2(-py - cy, -px - cx) - theta;
  if (sweep && delta < 0) delta += 2 * Math.PI;
  if (!sweep && delta > 0) delta -= 2 * Math.PI;
  if (large && delta === 0) delta = sweep ? 2 * Math.PI : -2 * Math.PI;
  const ux = rx * cos;
  const uy = rx * sin;
  const vx = -ry * sin;
  const vy = ry * cos;
  pen.arc(
    (x1 + x2) / 2 + cx * ux + cy * vx,
    (y1 + y2) / 2 + cx * uy + cy * vy,
    ux,
    uy,
    vx,
    vy,
    theta,
    delta,
    x2,
    y2,
  );
}
