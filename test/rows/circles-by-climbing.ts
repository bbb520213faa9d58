/** The open circles of stacked rows by climbing from the roomiest places of a grid, as an outside authority on them. */
import type { Layout } from '../../shared/layout.js';
import { boundsOf } from '../../src/geometry/polyline.js';
import type { Case } from './jts.js';
import { rowsAround, segmentsOfRow } from './laid-out.js';

export interface Held {
  readonly x: number;
  readonly y: number;
  readonly radiusMm: number;
  /** How many rows it touches to 0.01 mm. */
  readonly rows: number;
}

/** Distance from (x, y) to the nearest of segments, four numbers each. */
function room(segments: Float64Array, x: number, y: number): number {
  let least = Infinity;
  for (let i = 0; i < segments.length; i += 4) {
    const [ax, ay] = [segments[i], segments[i + 1]];
    const dx = segments[i + 2] - ax;
    const dy = segments[i + 3] - ay;
    const share = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
    const [offX, offY] = [x - ax - share * dx, y - ay - share * dy];
    least = Math.min(least, offX * offX + offY * offY);
  }
  return Math.sqrt(least);
}

/** The circles that cannot grow by moving, in one period of the pattern; none wider than `mostMm` is expected. */
export function circlesByClimbing(motif: Case, layout: Layout, spacingMm: number, mostMm: number): Held[] {
  const kinds = layout === 'straight' || layout === 'brick' ? 1 : 2;
  const [width, height] = [motif.repeatMm, kinds * spacingMm];
  const reach = Math.max(width, height) / 2 + mostMm;
  const rows = rowsAround(motif, spacingMm, height / 2, reach).map((index) =>
    Float64Array.from(segmentsOfRow(motif, layout, spacingMm, index, width / 2, reach).flat()),
  );
  const all = Float64Array.from(rows.flatMap((row) => [...row]));
  const [columns, lines] = [20, 20 * kinds];
  const [stepX, stepY] = [width / columns, height / lines];
  const grid = Array.from({ length: lines + 2 }, (_, j) =>
    Array.from({ length: columns + 2 }, (_, i) => room(all, (i - 0.5) * stepX, (j - 0.5) * stepY)),
  );
  const held: Held[] = [];
  for (let j = 1; j <= lines; j++)
    for (let i = 1; i <= columns; i++) {
      const around = [-1, 0, 1].flatMap((dj) => [-1, 0, 1].map((di) => grid[j + dj][i + di]));
      if (grid[j][i] < Math.max(...around)) continue;
      held.push(climbed(all, rows, (i - 0.5) * stepX, (j - 0.5) * stepY));
    }
  // A small ring may lie between the places of the grid.
  for (const { minX, minY, maxX, maxY } of motif.strokes.map((line) => boundsOf([line])))
    held.push(climbed(all, rows, (minX + maxX) / 2, (minY + maxY) / 2));
  return held;
}

/** To a better place around while there is one, then to nearer ones; on a ridge only a few ways lead up. */
function climbed(all: Float64Array, rows: readonly Float64Array[], fromX: number, fromY: number): Held {
  let [x, y] = [fromX, fromY];
  let radiusMm = room(all, x, y);
  const better = (step: number, ways: number): boolean => {
    const [centreX, centreY, before] = [x, y, radiusMm];
    for (let k = 0; k < ways; k++) {
      const turn = (2 * Math.PI * k) / ways;
      const [toX, toY] = [centreX + step * Math.cos(turn), centreY + step * Math.sin(turn)];
      const there = room(all, toX, toY);
      if (there > radiusMm + 1e-9) [x, y, radiusMm] = [toX, toY, there];
    }
    return radiusMm > before;
  };
  for (let step = 1; step > 1e-3; ) if (!better(step, 8) && !better(step, 240)) step /= 3;
  return { x, y, radiusMm, rows: rows.filter((row) => room(row, x, y) < radiusMm + 0.01).length };
}
