/**
 * Interlocks: spacings below the closest one at which the rows still clear each other, where hooks reach past hooks.
 * Here the whole line counts, not its outline.
 *
 * Method: of two segments, one moving down past the other, the spacings at which they are nearer than the clearance are
 * one interval, in closed form (both are convex). The union of these intervals over all pairs is what is forbidden. It is
 * walked from the smallest spacing up: from a forbidden one to the end of an interval that holds it, from a
 * clear one to the nearest beginning of an interval ahead. Each step ends at the end of another pair's
 * interval, or passes a gap too narrow to be set, so there is no creeping.
 *
 * Rows two and more apart can meet as well where a motif has several strokes: those k apart keep clear where k times
 * the spacing is one at which two such rows clear each other.
 */
import type { Layout } from '../../shared/layout.js';
import { askedByPieces, reachMm } from './asked.js';
import { closestOfNeighbours, closestSpacing } from './closest.js';
import { kindsOfSeam } from './layout.js';
import { perRowAnd, type Row, strokesLookedAt } from './row.js';
import { type Piece, RowPair } from './row-pair.js';

/** From one spacing up to another, mm. */
type Interval = readonly [number, number];

/** Narrower intervals cannot be set at a machine and are left out, mm. */
const narrowestMm = 0.001;
/** No rows are set closer than this, mm. */
const leastSpacingMm = 1;
/** Touching rows are told from clear ones by a hair even where no clearance is asked for, mm. */
const hairMm = 1e-6;

/**
 * The interlocks of a layout, ascending; exact to about 1e-6 mm, but to the next thousandth beyond a gap too narrow to be
 * set, and as near as `strokesLookedAt` is to lines drawn in very many steps.
 */
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
  const isThinned = strokesLookedAt(row) !== row.strokes;
  let clear: Interval[] = [[0, Infinity]];
  for (let index = 0; index < kindsOfSeam(layout); index++) {
    const found = clearOf(RowPair.whole(row, layout, index), closest[index], Math.max(clearanceMm, hairMm));
    // The closest is that of all points: where fewer are looked at, a hair right below it seems clear.
    clear = common(
      clear,
      found.filter(([, to]) => !isThinned || to !== closest[index]),
    );
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

/** The spacings that two rows leave each other: those below `closestMm`, and all from there on. */
function clearOf(rows: RowPair, closestMm: number, clearanceMm: number): Interval[] {
  const clear: Interval[] = [];
  for (let spacing = 0; spacing < closestMm - narrowestMm; ) {
    const end = endOfForbidden(rows, spacing, clearanceMm);
    if (end > spacing + narrowestMm) {
      spacing = end;
      continue;
    }
    const next = Math.min(nextForbidden(rows, spacing, clearanceMm), closestMm);
    clear.push([spacing, next]);
    spacing = Math.max(next, spacing + narrowestMm);
  }
  clear.push([Math.max(0, closestMm), Infinity]);
  return clear;
}

/** The end of an interval that holds this spacing, the farthest if it is near; the spacing itself where none does. */
function endOfForbidden(rows: RowPair, spacingMm: number, clearanceMm: number): number {
  // An end so far on is as good as the farthest: of ten thousand strokes thousands are in each other's way at once. It
  // must be farther on than a gap too narrow to be set, or the spacing would be taken for clear.
  const enoughMm = spacingMm + Math.max(clearanceMm, 2 * narrowestMm);
  const answer = rows.ask(
    {
      atMost: (gapMm, fromMm, toMm) => {
        const reach = reachMm(gapMm, clearanceMm);
        return fromMm - reach <= spacingMm ? Math.min(toMm + reach, enoughMm) : -Infinity;
      },
      of: (upper, lower) =>
        leastAsked(upper, lower, clearanceMm) <= spacingMm
          ? askedByPieces(upper, lower, clearanceMm)
          : -Infinity,
    },
    spacingMm,
  );
  return answer?.most ?? spacingMm;
}

/** The nearest beginning of an interval ahead of this spacing, which none holds; Infinity where there is none. */
function nextForbidden(rows: RowPair, spacingMm: number, clearanceMm: number): number {
  const answer = rows.ask({
    atMost: (gapMm, fromMm, toMm) => {
      const reach = reachMm(gapMm, clearanceMm);
      return toMm + reach > spacingMm ? reach - fromMm : -Infinity;
    },
    of: (upper, lower) =>
      askedByPieces(upper, lower, clearanceMm) > spacingMm
        ? -leastAsked(upper, lower, clearanceMm)
        : -Infinity,
  });
  return answer ? -answer.most : Infinity;
}

/** Where the interval begins whose end two segments ask for: upside down the smallest spacing is the largest. */
function leastAsked(upper: Piece, lower: Piece, clearanceMm: number): number {
  return -askedByPieces(onItsHead(upper), onItsHead(lower), clearanceMm);
}

function onItsHead([x0, y0, x1, y1]: Piece): Piece {
  return [x0, -y0, x1, -y1];
}
