/** Shapes whose turns and distances follow from their formulas, and the same lines drawn in another way. */
import type { Polyline } from '../../shared/plane.js';
import { placeAlong, pointsOf, polylineOf, runningLengths } from '../../src/geometry/polyline.js';
import { curve } from './lines.js';

const radians = Math.PI / 180;

/** An arc round (x, y) from one direction to another, degrees; chords leave it by at most 0.005 mm. */
export function arc(x: number, y: number, radius: number, fromDeg: number, toDeg: number): Polyline {
  const facet = 2 * Math.acos(Math.max(0, 1 - 0.005 / radius));
  const steps = Math.max(4, Math.ceil((Math.abs(toDeg - fromDeg) * radians) / facet));
  return curve(steps, (t) => {
    const angle = (fromDeg + t * (toDeg - fromDeg)) * radians;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });
}

/** A circle that closes exactly. */
export function circle(x: number, y: number, radius: number, fromDeg = 0): Polyline {
  const line = arc(x, y, radius, fromDeg, fromDeg + 360);
  line[line.length - 2] = line[0];
  line[line.length - 1] = line[1];
  return line;
}

/** The same line with a point at least every `stepMm`. */
export function densified(line: Polyline, stepMm: number): Polyline {
  const run = runningLengths(line);
  const points = [...pointsOf(line)];
  return polylineOf(
    points.flatMap((to, i) => {
      if (i === 0) return [to];
      const steps = Math.max(1, Math.ceil((run[i] - run[i - 1]) / stepMm));
      return Array.from({ length: steps }, (_, k) =>
        k + 1 === steps ? to : placeAlong(line, run, run[i - 1] + ((k + 1) / steps) * (run[i] - run[i - 1])),
      );
    }),
  );
}

export function mirrored(line: Polyline): Polyline {
  return line.map((value, i) => (i % 2 === 0 ? value : -value));
}

export function turned(line: Polyline, deg: number): Polyline {
  const [c, s] = [Math.cos(deg * radians), Math.sin(deg * radians)];
  return polylineOf([...pointsOf(line)].map(({ x, y }) => ({ x: c * x - s * y, y: s * x + c * y })));
}
