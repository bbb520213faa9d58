/** Our own reading as dense polylines, and the Hausdorff distance between two sets of them. */
import { Op, opSize, type Subpath } from '../../shared/subpath.js';
import type { Dense } from './reference.js';

const pieces = 32;

/** By the definitions in `shared/subpath.ts`, evaluated at even steps of the parameter. */
export function densely({ ops, coords }: Subpath): Dense {
  const line: Dense = [coords[0], coords[1]];
  let i = 2;
  for (const op of ops) {
    const [x0, y0] = line.slice(-2);
    const c = coords.subarray(i, i + opSize[op]);
    i += opSize[op];
    if (op === Op.line) {
      line.push(c[0], c[1]);
      continue;
    }
    const steps = op === Op.arc ? 4 * pieces : pieces;
    for (let step = 1; step <= steps; step++) {
      const t = step / steps;
      const s = 1 - t;
      if (op === Op.quadratic) {
        line.push(s * s * x0 + 2 * s * t * c[0] + t * t * c[2], s * s * y0 + 2 * s * t * c[1] + t * t * c[3]);
      } else if (op === Op.cubic) {
        const at = (p: number, k: number) =>
          s * s * s * p + 3 * s * s * t * c[k] + 3 * s * t * t * c[k + 2] + t * t * t * c[k + 4];
        line.push(at(x0, 0), at(y0, 1));
      } else {
        const angle = c[6] + t * c[7];
        const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
        line.push(c[0] + cos * c[2] + sin * c[4], c[1] + cos * c[3] + sin * c[5]);
      }
    }
    // The arc's own end, so that an end that does not lie on the arc shows up as a distance.
    if (op === Op.arc) line.push(c[8], c[9]);
  }
  return line;
}

/**
 * How far the points of `from` lie from the lines of `to`, at worst. Distances up to `enough` are not told apart, so
 * that lines that agree are done quickly: the search goes on where the last point found its segment.
 */
function oneWay(from: readonly Dense[], to: readonly Dense[], enough: number): number {
  const segments = to.flatMap((line) =>
    Array.from({ length: line.length / 2 - 1 }, (_, k) => ({ line, j: 2 * k + 2 })),
  );
  let worst = 0;
  let last = 0;
  for (const line of from) {
    for (let i = 0; i < line.length; i += 2) {
      let nearest = Infinity;
      for (let n = 0; n < segments.length && nearest > enough; n++) {
        const at = (last + n) % segments.length;
        const distance = toSegment(line[i], line[i + 1], segments[at].line, segments[at].j);
        if (distance < nearest) nearest = distance;
        if (distance <= enough) last = at;
      }
      if (nearest > worst) worst = nearest;
    }
  }
  return worst;
}

function toSegment(px: number, py: number, line: Dense, j: number): number {
  const [ax, ay, bx, by] = [line[j - 2], line[j - 1], line[j], line[j + 1]];
  const [dx, dy] = [bx - ax, by - ay];
  const squared = dx * dx + dy * dy;
  const share = squared === 0 ? 0 : Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / squared));
  return Math.hypot(px - ax - share * dx, py - ay - share * dy);
}

/** Both ways, right above `enough`; Infinity where only one of the two draws anything. */
export function hausdorff(a: readonly Dense[], b: readonly Dense[], enough = 0): number {
  return Math.max(oneWay(a, b, enough), oneWay(b, a, enough));
}

export function diagonalOf(lines: readonly Dense[]): number {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const line of lines) {
    for (let i = 0; i < line.length; i += 2) {
      minX = Math.min(minX, line[i]);
      maxX = Math.max(maxX, line[i]);
      minY = Math.min(minY, line[i + 1]);
      maxY = Math.max(maxY, line[i + 1]);
    }
  }
  return lines.length === 0 ? 0 : Math.hypot(maxX - minX, maxY - minY);
}
