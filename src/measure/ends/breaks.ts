/**
 * The breaks between strokes; their order in the file decides only between gaps of the same length. Again and again the two nearest ends of different
 * chains are linked, until one chain is left: the greedy edge rule for short paths (J. L. Bentley, Fast algorithms
 * for geometric traveling salesman problems, ORSA J. Computing 4, 1992, "greedy fragment"). It links what looks
 * linked; it does not minimise the sum of the gaps.
 *
 * A grid is asked once for all pairs of ends that lie so near, and they are linked, the nearest first; then for those
 * twice as far apart, and so on. Of the ends left loose no two lie nearer than was asked for but the two of one chain,
 * so each time there are only a few pairs to an end, and fewer ends. In time near-linear in the strokes.
 */
import type { Point, Polyline } from '../../../shared/plane.js';
import type { Break } from '../../../shared/study.js';
import { distanceBetween, midpoint } from '../../geometry/point.js';
import { lengthOf, pointAt } from '../../geometry/polyline.js';
import { pairsWithin, usualApart } from '../../near/point-pairs.js';
import { rankedPairs } from '../../near/ranked-pairs.js';
import { neighboursTogether } from '../../near/together.js';
import { placesOf, placesOfEnds } from './strokes.js';

/** Ends that are no nearer to each other than the reach have six others at that distance at most, or twelve where both ends of a stroke lie together. */
const mostPairsPerEnd = 8;
/** Of ends nearer than this it does not matter which are linked first, mm. */
const inOnePlaceMm = 1e-9;

/** The strokes in the order in which the breaks chain them. */
export interface Chain {
  /** The end at which each is entered: 2k for the first point of stroke k, 2k + 1 for its last. */
  readonly entries: Uint32Array;
  /** breaks[i] lies between the strokes of entries[i] and entries[i + 1]. */
  readonly breaks: readonly Break[];
}

/** The chain runs as most of its line was drawn. Strokes without any make an empty chain. */
export function chainOf(strokes: readonly Polyline[]): Chain {
  const places = placesOfEnds(strokes);
  const links = linksBetween(places);
  const entries = new Uint32Array(strokes.length);
  // Any end without a link begins the chain; of the two, the one that goes along with more of the drawing.
  let drawnAlong = 0;
  for (let end = links.indexOf(-1), i = 0; i < entries.length; end = links[end ^ 1], i++) {
    entries[i] = end;
    drawnAlong += (end & 1 ? -1 : 1) * lengthOf(strokes[end >> 1]);
  }
  if (drawnAlong < 0)
    entries.reverse().forEach((end, i) => {
      entries[i] = end ^ 1;
    });
  const breaks = Array.from(
    entries.subarray(1),
    (end, i) => new BreakAt(strokes, places, entries[i] ^ 1, end),
  );
  return { entries, breaks };
}

/** Works out its places when they are asked for: of half a million breaks few are told. */
class BreakAt implements Break {
  readonly gapMm: number;

  constructor(
    private readonly strokes: readonly Polyline[],
    private readonly places: Float64Array,
    private readonly left: number,
    private readonly entered: number,
  ) {
    const [i, j] = [2 * left, 2 * entered];
    this.gapMm = distanceBetween(places[j], places[j + 1], places[i], places[i + 1]);
  }

  get from(): Point {
    return pointAt(this.places, this.left);
  }

  get to(): Point {
    return pointAt(this.places, this.entered);
  }

  get at(): Point {
    return midpoint(this.from, this.to);
  }

  get shorterMm(): number {
    const { strokes, left, entered } = this;
    return Math.min(lengthOf(strokes[left >> 1]), lengthOf(strokes[entered >> 1]));
  }
}

/** For each end the end it is linked to; -1 for the two ends of the chain. */
function linksBetween(all: Float64Array): Int32Array {
  const links = new Int32Array(all.length / 2).fill(-1);
  /** For each loose end the other loose end of its chain. */
  const others = Int32Array.from(links, (_, end) => end ^ 1);
  let linksLeft = links.length / 2 - 1;
  const link = (a: number, b: number) => {
    if (links[a] >= 0 || links[b] >= 0 || others[a] === b) return;
    links[a] = b;
    links[b] = a;
    others[others[a]] = others[b];
    others[others[b]] = others[a];
    linksLeft--;
  };
  let loose = neighboursTogether(all);
  let doneMm = 0;
  let reachMm = usualApart(all);
  while (linksLeft > 0) {
    const places = placesOf(loose, all);
    const pairs = pairsWithin(places, reachMm, mostPairsPerEnd * loose.length);
    if (pairs !== null) {
      for (let n = 0; n < pairs.length; n++) pairs[n] = loose[pairs[n]];
      const reachSquared = reachMm * reachMm;
      const ranked = rankedPairs(pairs, (a, b) => {
        const across = all[2 * a] - all[2 * b];
        const down = all[2 * a + 1] - all[2 * b + 1];
        return (across * across + down * down) / reachSquared;
      });
      for (let k = 0; k < ranked.length; k += 2) link(ranked[k], ranked[k + 1]);
      [doneMm, reachMm] = [reachMm, 2 * reachMm];
    } else {
      if (reachMm === inOnePlaceMm) inOnePlace(places, (i, j) => link(loose[i], loose[j]));
      reachMm = doneMm > 0 ? Math.sqrt(doneMm * reachMm) : Math.max(inOnePlaceMm, reachMm / 8);
    }
    loose = loose.filter((end) => links[end] < 0);
  }
  return links;
}

/** Calls `visit` with ends in one place, two by two. */
function inOnePlace(places: Float64Array, visit: (i: number, j: number) => void): void {
  const cells = places.map((mm) => Math.round(mm / inOnePlaceMm));
  const apart = (i: number, j: number) => cells[2 * i] - cells[2 * j] || cells[2 * i + 1] - cells[2 * j + 1];
  const order = new Uint32Array(places.length / 2).map((_, i) => i).sort(apart);
  for (let k = 1; k < order.length; k++)
    if (apart(order[k - 1], order[k]) === 0) visit(order[k - 1], order[k]);
}
