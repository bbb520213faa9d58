/**
 * Every pair of segments of two rows, one moving down past the other, as an outside authority on how near they come. The
 * differences of the places of two segments fill a parallelogram (their Minkowski difference): the lower segment, moved
 * down by s, is as far from the upper one as the place (0, s) is from the parallelogram.
 */
import type { Layout } from '../../shared/layout.js';
import type { Case } from './jts.js';
import { nearestOn, type Segment, segmentsOfRow } from './laid-out.js';

export type Interval = readonly [from: number, to: number];

/** Calls `see` with the four sides of the differences of each two segments that come within `mm` sideways. */
function eachPair(
  motif: Case,
  layout: Layout,
  apart: number,
  mm: number,
  see: (sides: readonly Segment[]) => void,
): void {
  const xs = motif.strokes.flatMap((line) => [...line].filter((_, i) => i % 2 === 0));
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  for (const index of layout === 'straight' || layout === 'brick' ? [0] : [0, 1]) {
    const [upper, lower] = [index, index + apart].map((each) =>
      segmentsOfRow(motif, layout, 0, each, left, each === index ? 0 : 2 * (right - left) + mm),
    );
    for (const [ax, ay, bx, by] of upper)
      for (const [cx, cy, dx, dy] of lower) {
        const gap = Math.max(Math.min(ax, bx) - Math.max(cx, dx), Math.min(cx, dx) - Math.max(ax, bx));
        if (gap > mm) continue;
        see([
          [ax - cx, ay - cy, bx - cx, by - cy],
          [bx - cx, by - cy, bx - dx, by - dy],
          [bx - dx, by - dy, ax - dx, ay - dy],
          [ax - dx, ay - dy, ax - cx, ay - cy],
        ]);
      }
  }
}

/**
 * Where the upright line x = 0 runs within `mm` of the parallelogram: on the rim of what lies so near, which is made of
 * circles about its corners and of its sides moved outwards.
 */
function within(sides: readonly Segment[], mm: number): Interval {
  let [from, to] = [Infinity, -Infinity];
  const take = (y: number) => {
    from = Math.min(from, y);
    to = Math.max(to, y);
  };
  for (const [ax, ay, bx, by] of sides) {
    const up = Math.sqrt(mm * mm - ax * ax);
    if (up >= 0) for (const off of [-up, up]) take(ay + off);
    const [dx, dy] = [bx - ax, by - ay];
    for (const out of [-mm, mm]) {
      const outwards = out / Math.hypot(dx, dy);
      const share = -(ax - outwards * dy) / dx;
      if (share >= 0 && share <= 1) take(ay + outwards * dx + share * dy);
    }
  }
  return [from, to];
}

/** The spacings at which rows `apart` from each other come nearer than `mm`, one for each pair, unsorted. */
export function tooNear(motif: Case, layout: Layout, apart: number, mm: number): Interval[] {
  const found: Interval[] = [];
  eachPair(motif, layout, apart, mm, (sides) => {
    const [from, to] = within(sides, mm);
    if (to > 0) found.push([from / apart, to / apart]);
  });
  return found;
}

/** How near rows `apart` from each other come at this spacing, where that is less than `mostMm`. */
export function nearest(
  motif: Case,
  layout: Layout,
  apart: number,
  spacingMm: number,
  mostMm: number,
): number {
  let least = mostMm;
  const at = { x: 0, y: apart * spacingMm };
  eachPair(motif, layout, apart, mostMm, (sides) => {
    for (const side of sides) least = Math.min(least, nearestOn(side, at).mm);
    const turns = sides.map(([ax, ay, bx, by]) => (at.y - ay) * (bx - ax) + ax * (by - ay));
    if (turns.every((turn) => turn > 0) || turns.every((turn) => turn < 0)) least = 0;
  });
  return least;
}
