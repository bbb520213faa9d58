/**
 * Lines drawn piece by piece, of which it is known what is a corner: straight legs, corners between long legs, bends of every
 * radius, and zigzags whose legs are shorter than a stitch.
 */
import type { Point } from '../../shared/plane.js';

const stitchMm = 25.4 / 11;

export interface Drawn {
  readonly points: Point[];
  /** Numbers of the points that are corners. */
  readonly corners: Set<number>;
}

/** So many times as large, its arcs in as fine steps; where it curls they turn by most of a circle and more. */
export function turtle(random: () => number, pieces: number, size = 1, curls = false): Drawn {
  const points = [{ x: 0, y: 0 }];
  const corners = new Set<number>();
  let angle = 0;
  const on = (mm: number) => {
    const { x, y } = points[points.length - 1];
    points.push({ x: x + size * mm * Math.cos(angle), y: y + size * mm * Math.sin(angle) });
  };
  const either = () => (random() < 0.5 ? -1 : 1);
  on(4 + 4 * random());
  for (let k = 0; k < pieces; k++) {
    const kind = random();
    if (kind < 0.3) {
      corners.add(points.length - 1);
      angle += either() * (0.4 + 2.4 * random());
    } else if (kind < 0.7) {
      // An arc of this radius in even steps.
      const radius = (curls ? 0.4 : 0.6) + (curls ? 0.8 : 2.4) * random() ** 2;
      const turn = either() * ((curls ? 3 : 0.5) + 3 * random());
      const steps = Math.ceil(Math.abs(turn) * Math.sqrt((size * radius) / 0.016));
      for (let step = 0; step < steps; step++) {
        angle += turn / steps / 2;
        on(2 * radius * Math.sin(Math.abs(turn) / steps / 2));
        angle += turn / steps / 2;
      }
    } else {
      for (let step = Math.floor(2 + 4 * random()), side = either(); step > 0; step--, side = -side) {
        angle += side * (0.7 + 1.4 * random());
        on(0.7 + 1.2 * random());
      }
      angle += either() * (0.7 + random());
    }
    on(1.1 * stitchMm + 5 * random());
  }
  return { points, corners };
}
