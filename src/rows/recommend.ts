/** Which layout to choose. */
import { type Layout, layouts } from '../../shared/layout.js';
import type { Nesting } from '../../shared/rows.js';

/** A plainer layout is taken where it is at most this much less even than the best one. */
const worth = 1.03;

/**
 * Among those whose open circles the batting allows, the layout of the least unevenness at its even spacing, or the
 * plainer one where that is as good to 3 %. Where the batting allows none, the one that comes nearest to its limit.
 */
export function recommend(nestings: readonly Nesting[], battingMm: number | null): Layout {
  const plainestFirst = [...nestings].sort((a, b) => layouts.indexOf(a.layout) - layouts.indexOf(b.layout));
  const allowed = plainestFirst.filter(({ even }) => battingMm === null || even.largestOpenMm <= battingMm);
  if (allowed.length > 0) return plainestOfTheBest(allowed, ({ even }) => even.unevenness);
  return plainestOfTheBest(plainestFirst, ({ even }) => even.largestOpenMm);
}

function plainestOfTheBest(nestings: readonly Nesting[], measure: (nesting: Nesting) => number): Layout {
  const best = Math.min(...nestings.map(measure));
  return nestings.find((nesting) => measure(nesting) <= worth * best)!.layout;
}
