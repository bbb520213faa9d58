/**
 * The breaks between strokes, whatever their order in the file. Again and again the two nearest ends of different
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
import { distance, midpoint } from '../../geometry/point.js';
import { boundsOf, firstPoint, lastPoint, lengthOf } from '../../geometry/polyline.js';
import { pairsWithin } from '../../near/point-pairs.js';
import { placesOf } from './strokes.js';

/** Ends that are no nearer to each other than the reach have six others at that distance at most, or twelve where both ends of a stroke lie together. */
const mostPairsPerEnd = 8;
/** Of ends nearer than this it does not matter which are linked first, mm. */
const inOnePlaceMm = 1e-9;

/** The strokes in the order in which the breaks chain them, each forwards or backwards. */
export interface Chain {
  readonly order: readonly { readonly stroke: number; readonly backwards: boolean }[];
  /** breaks[i] lies between order[i] and order[i + 1]. */
  readonly breaks: readonly Break[];
}

/** The chain runs as most of its line was drawn. Strokes without any make an empty chain. */
export function chainOf(strokes: readonly Polyline[]): Chain {
  const links = linksBetween(strokes);
  let end = 0;
  // Any end without a link begins the chain; of the two, the one that goes along with more of the drawing.
  while (end < links.length && links[end] >= 0) end++;
  let order = orderFrom(end, links);
  const lengths = strokes.map(lengthOf);
  const drawnAlong = order.reduce(
    (sum, { stroke, backwards }) => sum + (backwards ? -1 : 1) * lengths[stroke],
    0,
  );
  if (drawnAlong < 0)
    order = order.reverse().map(({ stroke, backwards }) => ({ stroke, backwards: !backwards }));
  const breaks = order.slice(1).map((next, i) => {
    const last = order[i];
    const from = placeOfEnd(strokes, 2 * last.stroke + (last.backwards ? 0 : 1));
    const to = placeOfEnd(strokes, 2 * next.stroke + (next.backwards ? 1 : 0));
    return {
      from,
      to,
      at: midpoint(from, to),
      gapMm: distance(from, to),
      shorterMm: Math.min(lengths[last.stroke], lengths[next.stroke]),
    };
  });
  return { order, breaks };
}

function orderFrom(end: number, links: Int32Array) {
  const order: { stroke: number; backwards: boolean }[] = [];
  while (end >= 0 && end < links.length) {
    order.push({ stroke: end >> 1, backwards: (end & 1) === 1 });
    end = links[end ^ 1];
  }
  return order;
}

/** Ends are numbered 2k for the first point of stroke k and 2k + 1 for its last. */
function placeOfEnd(strokes: readonly Polyline[], end: number): Point {
  return end & 1 ? lastPoint(strokes[end >> 1]) : firstPoint(strokes[end >> 1]);
}

/** For each end the end it is linked to; -1 for the two ends of the chain. */
function linksBetween(strokes: readonly Polyline[]): Int32Array {
  const links = new Int32Array(2 * strokes.length).fill(-1);
  /** For each loose end the other loose end of its chain. */
  const others = Int32Array.from(links, (_, end) => end ^ 1);
  let linksLeft = strokes.length - 1;
  const link = (a: number, b: number) => {
    if (links[a] >= 0 || links[b] >= 0 || others[a] === b) return;
    links[a] = b;
    links[b] = a;
    others[others[a]] = others[b];
    others[others[b]] = others[a];
    linksLeft--;
  };
  let loose = Uint32Array.from(links.keys());
  let doneMm = 0;
  let reachMm = usualApart(placesOf(loose, strokes));
  while (linksLeft > 0) {
    const places = placesOf(loose, strokes);
    const pairs = pairsWithin(places, reachMm, mostPairsPerEnd * loose.length);
    if (pairs !== null) {
      for (const pair of nearestFirst(pairs, places, reachMm))
        link(loose[pairs[pair]], loose[pairs[pair + 1]]);
      [doneMm, reachMm] = [reachMm, 2 * reachMm];
    } else {
      if (reachMm === inOnePlaceMm) inOnePlace(places, (i, j) => link(loose[i], loose[j]));
      reachMm = doneMm > 0 ? Math.sqrt(doneMm * reachMm) : Math.max(inOnePlaceMm, reachMm / 8);
    }
    loose = loose.filter((end) => links[end] < 0);
  }
  return links;
}

/** How far apart neighbours lie where ends are spread evenly: so far, each has about one other near it, mm. */
function usualApart(places: Float64Array): number {
  const { minX, minY, maxX, maxY } = boundsOf([places]);
  const [width, height, count] = [maxX - minX, maxY - minY, places.length / 2];
  return Math.max(Math.sqrt((2 * width * height) / (Math.PI * count)), (width + height) / count) || 1;
}

/**
 * Where each pair stands in the list, the nearest first. Numbers sort ten times as fast by themselves as by a comparison,
 * so each distance brings its pair along in its last digits; of a million pairs those whose squares differ by less than
 * a billionth of the reach's may change places.
 */
function nearestFirst(pairs: Uint32Array, places: Float64Array, reachMm: number): Float64Array {
  const count = pairs.length / 2;
  const steps = Math.floor(Number.MAX_SAFE_INTEGER / (count + 1)) - 1;
  const order = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const [a, b] = [2 * pairs[2 * k], 2 * pairs[2 * k + 1]];
    const across = (places[a] - places[b]) / reachMm;
    const down = (places[a + 1] - places[b + 1]) / reachMm;
    order[k] = Math.floor(Math.min(1, across * across + down * down) * steps) * count + k;
  }
  order.sort();
  for (let k = 0; k < count; k++) order[k] = 2 * (order[k] % count);
  return order;
}

/** Calls `visit` with ends in one place, two by two. */
function inOnePlace(places: Float64Array, visit: (i: number, j: number) => void): void {
  const cells = places.map((mm) => Math.round(mm / inOnePlaceMm));
  const apart = (i: number, j: number) => cells[2 * i] - cells[2 * j] || cells[2 * i + 1] - cells[2 * j + 1];
  const order = new Uint32Array(places.length / 2).map((_, i) => i).sort(apart);
  for (let k = 1; k < order.length; k++)
    if (apart(order[k - 1], order[k]) === 0) visit(order[k - 1], order[k]);
}
