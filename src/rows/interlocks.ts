/**
 * Interlocks: spacings below the closest one at which the rows still clear each other, where hooks reach past hooks.
 * Here the whole line counts, not its outline.
 *
 * Method: a sweep from small spacings up. Where the rows are nearer than the clearance, the pair of segments that comes
 * nearest forbids a whole interval of spacings, known in closed form, and its neighbours along the lines carry it
 * further; the sweep goes on at its end. Where the rows keep clear, they do so at least until the spacing has changed
 * by what they have to spare, since no distance changes faster than the spacing; the next pair in the way then
 * gives the end of the interval exactly.
 *
 * Rows two and more apart can meet as well where a motif has several strokes: those k apart keep clear where k times
 * the spacing is one at which two such rows clear each other.
 */
import type { Layout } from '../../shared/layout.js';
import { askedByPieces, type Piece } from './asked.js';
import { type NearestPair, nearestPair, placedSegment } from './between-rows.js';
import { closestOfNeighbours, closestSpacing } from './closest.js';
import { kindsOfSeam, type Placement, placementOf } from './layout.js';
import { perRowAnd, type Row } from './row.js';
import { segmentTreeOf } from './segment-tree.js';

/** Along the upper line, the lower line, or both. */
const strides = [-1, 0, 1]
  .flatMap((i) => [-1, 0, 1].map((j) => [i, j] as const))
  .filter(([i, j]) => i !== 0 || j !== 0);
/** A stride that carries the end on by less is not repeated, mm. */
const farEnough = 0.05;

/** From one spacing up to another, mm. */
export type Interval = readonly [number, number];

/** Narrower intervals cannot be set at a machine and are left out, mm. */
const narrowestMm = 0.001;
/** No rows are set closer than this, mm. */
const leastSpacingMm = 1;
/** Distances that differ by less are the same, mm. */
const sameMm = 1e-9;

/** The interlocks of a layout, ascending; exact to about 1e-6 mm. */
export function interlocks(row: Row, layout: Layout, clearanceMm: number): Interval[] {
  const closest = closestSpacing(row, layout, clearanceMm);
  const odd = clearOfNeighbours(row, layout, clearanceMm);
  const even = layout === 'straight' ? odd : clearOfNeighbours(row, 'straight', clearanceMm);
  let clear: Interval[] = common(odd, [[Math.max(clearanceMm / 2, leastSpacingMm), closest]]);
  const farthest = Math.max(odd.at(-1)![0], even.at(-1)![0]);
  for (let apart = 2; clear.length > 0 && apart * clear[0][0] < farthest; apart++) {
    const there = apart % 2 === 0 ? even : odd;
    clear = common(
      clear,
      there.map(([from, to]) => [from / apart, to / apart]),
    );
  }
  return clear.filter(([from, to]) => to - from > narrowestMm);
}

/** All the spacings at which neighbours of every kind keep clear; the last interval has no end. */
const clearOfNeighbours = perRowAnd((row, layout: Layout, clearanceMm: number): readonly Interval[] => {
  const closest = closestOfNeighbours(row, layout, clearanceMm);
  let clear: Interval[] = [[0, Infinity]];
  for (let index = 0; index < kindsOfSeam(layout); index++) {
    clear = common(clear, new Sweep(row, layout, index, clearanceMm).clear(closest[index]));
  }
  return clear;
});

/** What two ascending lists of intervals have in common. */
function common(some: readonly Interval[], others: readonly Interval[]): Interval[] {
  const both: Interval[] = [];
  for (let i = 0, j = 0; i < some.length && j < others.length; ) {
    const from = Math.max(some[i][0], others[j][0]);
    const to = Math.min(some[i][1], others[j][1]);
    if (from < to) both.push([from, to]);
    if (some[i][1] < others[j][1]) i++;
    else j++;
  }
  return both;
}

/** Row `index` and the next one of a layout, at any spacing. */
class Sweep {
  /** Touching rows are told from clear ones by a hair even where no clearance is asked for. */
  readonly #clearanceMm: number;
  /** Where the two would lie at a spacing of nothing. */
  readonly #above: Placement;
  readonly #below: Placement;

  constructor(
    readonly row: Row,
    readonly layout: Layout,
    readonly index: number,
    clearanceMm: number,
  ) {
    this.#clearanceMm = Math.max(clearanceMm, 1e-6);
    this.#above = placementOf(row, layout, 0, index);
    this.#below = placementOf(row, layout, 0, index + 1);
  }

  /** The spacings at which the two keep clear: those below `closestMm`, and all from there on. */
  clear(closestMm: number): Interval[] {
    const clear: Interval[] = [];
    let spacing = 0;
    while (spacing < closestMm - narrowestMm) {
      const pair = this.#nearest(spacing);
      if (pair === null || pair.leastMm >= this.#clearanceMm - sameMm) {
        const [end, obstacle] = this.#endOfClear(spacing, closestMm);
        clear.push([spacing, end]);
        if (obstacle === null) break;
        spacing = this.#endOfForbidden(obstacle, end);
      } else spacing = this.#endOfForbidden(pair, spacing);
    }
    clear.push([Math.max(0, closestMm), Infinity]);
    return clear;
  }

  /** The nearest pair at a spacing, or one that is much too near. */
  #nearest(spacingMm: number): NearestPair | null {
    const [upper, lower] = [this.index, this.index + 1].map((i) =>
      placementOf(this.row, this.layout, spacingMm, i),
    );
    // One that is nearer than half the clearance forbids as much again and more: no need to look further.
    return nearestPair(this.row, upper, lower, Infinity, this.#clearanceMm / 2);
  }

  /** The spacing up to which the rows stay clear from `fromMm` on, and the pair that ends it. */
  #endOfClear(fromMm: number, closestMm: number): [number, NearestPair | null] {
    let spacing = fromMm;
    for (let steps = 0; spacing < closestMm; steps++) {
      const pair = this.#nearest(spacing);
      if (pair === null) break;
      const [from] = this.#forbids(pair.upper, pair.lower, pair.shiftMm);
      const spare = pair.leastMm - this.#clearanceMm;
      const ahead = from > spacing - 1e-6;
      if (ahead && (from - spacing < 1e-6 || steps > 500)) return [Math.max(from, fromMm), pair];
      spacing += Math.max(spare, 1e-7);
    }
    return [closestMm, null];
  }

  /** Where the spacings end that the pair forbids, and with it those pairs next to it along the lines. */
  #endOfForbidden(pair: NearestPair, spacingMm: number): number {
    const { count } = segmentTreeOf(this.row);
    let { upper, lower } = pair;
    let end = Math.max(spacingMm + sameMm, this.#forbids(upper, lower, pair.shiftMm)[1]);
    // Any pair that forbids `end` and more carries it on: first by long strides along the lines, then by shorter.
    for (let stride = 256; stride >= 1; ) {
      const reached = end;
      const [i0, j0] = [upper, lower];
      for (const [di, dj] of strides) {
        const [i, j] = [i0 + di * stride, j0 + dj * stride];
        if (i < 0 || j < 0 || i >= count || j >= count) continue;
        const [from, to] = this.#forbids(i, j, pair.shiftMm);
        if (from <= reached && to > end) {
          end = to;
          upper = i;
          lower = j;
        }
      }
      if (end - reached < farEnough) stride /= 4;
    }
    return end;
  }

  /** The spacings, from and to, between which two segments are nearer than the clearance. */
  #forbids(upper: number, lower: number, shiftMm: number): Interval {
    const one = placedSegment(this.row, this.#above, upper);
    const other = placedSegment(this.row, this.#below, lower, shiftMm);
    const to = askedByPieces(one, other, this.#clearanceMm);
    // Upside down, the smallest spacing is the largest.
    const from = -askedByPieces(onItsHead(one), onItsHead(other), this.#clearanceMm);
    return [from, to];
  }
}

function onItsHead([x0, y0, x1, y1]: Piece): Piece {
  return [x0, -y0, x1, -y1];
}
