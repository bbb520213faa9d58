/**
 * The breaks between strokes, whatever their order in the file. Again and again the two nearest ends of different
 * chains are linked, until one chain is left: the greedy edge rule for short paths (J. L. Bentley, Fast algorithms
 * for geometric traveling salesman problems, ORSA J. Computing 4, 1992, "greedy fragment"). It links what looks
 * linked; it does not minimise the sum of the gaps.
 *
 * Each loose end waits in a queue under the distance to its nearest candidate. A candidate that is gone when its
 * turn comes is looked for again in a spatial index, which is packed anew whenever half of its ends are used up,
 * so that the work grows near-linearly.
 */
import Flatbush from 'flatbush';
import FlatQueue from 'flatqueue';
import type { Point, Polyline } from '../../../shared/plane.js';
import type { Break } from '../../../shared/study.js';
import { distance, midpoint } from '../../geometry/point.js';
import { firstPoint, lastPoint, lengthOf } from '../../geometry/polyline.js';

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
  const ends = Array.from({ length: 2 * strokes.length }, (_, end) => placeOfEnd(strokes, end));
  const links = new Int32Array(ends.length).fill(-1);
  /** For each loose end the other loose end of its chain. */
  const others = Int32Array.from(ends, (_, end) => end ^ 1);
  const candidates = new Int32Array(ends.length);
  const queue = new FlatQueue<number>();
  let loose = new LooseEnds(ends, links);
  let linksLeft = strokes.length - 1;

  const seek = (end: number) => {
    const nearest = loose.nearest(end, others[end]);
    if (nearest < 0) return;
    candidates[end] = nearest;
    queue.push(end, distance(ends[end], ends[nearest]));
  };
  if (linksLeft > 0) for (let end = 0; end < ends.length; end++) seek(end);

  while (linksLeft > 0) {
    const end = queue.pop() as number;
    if (links[end] >= 0) continue;
    const mate = candidates[end];
    if (links[mate] >= 0 || mate === others[end]) {
      seek(end);
      continue;
    }
    links[end] = mate;
    links[mate] = end;
    const [a, b] = [others[end], others[mate]];
    others[a] = b;
    others[b] = a;
    linksLeft--;
    if (2 * (linksLeft + 1) <= loose.size / 2) loose = new LooseEnds(ends, links);
  }
  return links;
}

/** The ends that were loose when this was made. */
class LooseEnds {
  readonly size: number;
  private readonly numbers: number[] = [];
  private readonly tree: Flatbush | null;

  constructor(
    private readonly ends: readonly Point[],
    private readonly links: Int32Array,
  ) {
    for (let end = 0; end < ends.length; end++) if (links[end] < 0) this.numbers.push(end);
    this.size = this.numbers.length;
    this.tree = this.size > 0 ? new Flatbush(this.size) : null;
    for (const end of this.numbers) this.tree?.add(ends[end].x, ends[end].y);
    this.tree?.finish();
  }

  /** The nearest end that is still loose and neither `end` itself nor `other`; -1 where there is none. */
  nearest(end: number, other: number): number {
    const { numbers, links } = this;
    const isCandidate = (id: number) =>
      links[numbers[id]] < 0 && numbers[id] !== end && numbers[id] !== other;
    const [id] = this.tree?.neighbors(this.ends[end].x, this.ends[end].y, 1, Infinity, isCandidate) ?? [];
    return id === undefined ? -1 : numbers[id];
  }
}
