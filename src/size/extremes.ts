/**
 * Where a curve turns back: the places at which its x or its y is greatest or least, in closed form. Between two
 * such places a curve is monotone in x and in y, so a curve's box is the box of its ends and these places.
 *
 * A cubic's derivative is a quadratic, solved in the form that keeps its digits when the leading coefficient all
 * but vanishes (Numerical Recipes, 5.6). That is no rare case: every quadratic that a drawing program saves as a
 * cubic has it, and the textbook formula then misplaces the extreme by half the curve.
 */
import { Op } from '../../shared/subpath.js';

/** One number per place, ascending, strictly inside the segment: t for Bézier curves, the angle for arcs. */
export type Places = readonly number[];

/** Of the segment that starts at (x, y) and whose numbers begin at `coords[at]`. */
export function extremesOf(op: number, x: number, y: number, coords: Float64Array, at: number): Places {
  switch (op) {
    case Op.quadratic:
      return ascending([
        ...quadraticTurns(x, coords[at], coords[at + 2]),
        ...quadraticTurns(y, coords[at + 1], coords[at + 3]),
      ]);
    case Op.cubic:
      return ascending([
        ...cubicTurns(x, coords[at], coords[at + 2], coords[at + 4]),
        ...cubicTurns(y, coords[at + 1], coords[at + 3], coords[at + 5]),
      ]);
    case Op.arc: {
      const [ux, uy, vx, vy, from, sweep] = coords.subarray(at + 2, at + 8);
      return arcTurns(from, sweep, [Math.atan2(vx, ux), Math.atan2(vy, uy)]);
    }
    default:
      return [];
  }
}

/** Angles within the arc at which one of the coordinates peaks: each of `peaks` and half a turn on from it. */
export function arcTurns(from: number, sweep: number, peaks: readonly number[]): Places {
  const low = Math.min(from, from + sweep);
  const high = Math.max(from, from + sweep);
  const angles: number[] = [];
  for (const peak of peaks) {
    const first = peak + Math.PI * Math.ceil((low - peak) / Math.PI);
    for (let angle = first; angle < high; angle += Math.PI) if (angle > low) angles.push(angle);
  }
  return sweep < 0 ? ascending(angles).reverse() : ascending(angles);
}

function quadraticTurns(p: number, q: number, r: number): number[] {
  return [(p - q) / (p - 2 * q + r)].filter(inside);
}

function cubicTurns(p: number, q: number, r: number, s: number): number[] {
  const a = s - 3 * r + 3 * q - p;
  const b = 2 * (p - 2 * q + r);
  const c = q - p;
  const discriminant = b * b - 4 * a * c;
  if (!(discriminant >= 0)) return [];
  const half = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant)) / 2;
  return [half / a, c / half].filter(inside);
}

function inside(t: number): boolean {
  return t > 0 && t < 1;
}

function ascending(places: number[]): number[] {
  return [...new Set(places)].sort((a, b) => a - b);
}
