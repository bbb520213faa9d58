/**
 * Where the line through a drawing may start and end.
 *
 * In a row the end of one repeat is the start of the next, so what is cut open is a closed walk that goes once round
 * the cylinder of one repeat, and where it is cut is free. Looked at are natural ends (places where an odd number of
 * lines ends) in the left and the right part of the drawing, and the highest and lowest place on either edge. Each pair has a price: the inset from the edges counts at half its length, since repeats may reach over
 * one another, but stand nearer together than they were drawn for; a difference in height counts at its length, since
 * it has to be eased away, and more where it is too much for that.
 *
 * A drawing may say itself where its next repeat lies: where several lines run out at either edge, as echoed waves do,
 * and go on in one another there. Then only ends that keep the most of them together are looked at.
 */
import type { Box } from '../../shared/plane.js';
import { boundsOf, pointCount, runningLengths } from '../geometry/polyline.js';
import { PointGrid } from '../near/point-grid.js';
import { type Graph, oddNodes, type PlaceOnPiece, withNodesAt } from '../network/graph.js';
import type { Seam } from './seam.js';

/** Places this near to the left or right edge count as on it, mm. */
const onEdgeMm = 0.01;
/** Ends that meet in the next repeat are no farther apart than ends may be from level, mm. */
const meetMm = 0.5;
/** Natural ends on each side that are tried, those nearest to the edge. */
const tried = 5;
/** Natural ends lie in this share of the width, from either edge. */
const sideShare = 1 / 4;
/** A repeat is at least this share of the width, or the end does not lie across from the start. */
const leastRepeatShare = 0.5;
/** A drop up to this share of the height can be slanted away; what is more costs so many times as much. */
const slantShare = 1 / 4;
const steepFactor = 4;
/** What is beyond this share is more than any mend levels, and makes no row. */
const mostShare = 1 / 2;
const noRowFactor = 20;
const insetWeight = 0.5;
/** Among equals natural ends are taken before others. */
const unnaturalMm = 0.05;

export interface EndPair {
  readonly start: number;
  readonly end: number;
  /** What this pair costs beside retracing and links, mm. */
  readonly priceMm: number;
  /** Of it what is wrong with a row of the drawing, once that was looked at, mm. */
  readonly rowMm?: number;
  /** Where a link goes from the end to the start of the next repeat. */
  readonly seam?: Seam;
}

/** The pairs worth a look, with a node at each place; and whether more than the line's own ends meet in the next repeat. */
export function endPairs(drawing: Graph): { graph: Graph; pairs: EndPair[]; meets: boolean } {
  const box = boundsOf(drawing.pieces.map(({ line }) => line));
  const { graph, at } = withNodesAt(drawing, [
    ...placesOnEdge(drawing, (x) => x <= box.minX + onEdgeMm),
    ...placesOnEdge(drawing, (x) => x >= box.maxX - onEdgeMm),
  ]);
  const natural = oddNodes(graph);
  const side = (sign: 1 | -1) =>
    [...natural]
      .filter((n) => insetOf(graph, n, box, sign) <= sideShare * (box.maxX - box.minX))
      .sort((a, b) => insetOf(graph, a, box, sign) - insetOf(graph, b, box, sign) || a - b)
      .slice(0, tried);
  const starts = new Set([...at, ...side(1)]);
  const ends = new Set([...at, ...side(-1)]);
  const pairs: EndPair[] = [];
  for (const start of starts)
    for (const end of ends) {
      const [s, e] = [graph.nodes[start], graph.nodes[end]];
      if (!(e.x - s.x > leastRepeatShare * (box.maxX - box.minX))) continue;
      const insetMm = Math.max(0, s.x - box.minX) + Math.max(0, box.maxX - e.x);
      const dropMm = Math.abs(e.y - s.y);
      const unnatural = [start, end].filter((n) => !natural.has(n)).length * unnaturalMm;
      const priceMm = dropPrice(dropMm, box.maxY - box.minY) + insetWeight * insetMm + unnatural;
      pairs.push({ start, end, priceMm });
    }
  const out = (sign: 1 | -1) => [...natural].filter((n) => insetOf(graph, n, box, sign) <= meetMm);
  const [left, right] = [new Set(out(1)), new Set(out(-1))];
  const lefts = new PointGrid(meetMm);
  for (const n of left) lefts.add(graph.nodes[n].x, graph.nodes[n].y);
  const meetings = ({ start, end }: EndPair) => {
    if (!left.has(start) || !right.has(end)) return 0;
    const [s, e] = [graph.nodes[start], graph.nodes[end]];
    // A slant levels all of them alike; what is beyond it makes no row.
    if (Math.abs(e.y - s.y) > slantShare * (box.maxY - box.minY)) return 0;
    const met = new Set<number>();
    for (const n of right)
      lefts.visitNear(graph.nodes[n].x - (e.x - s.x), graph.nodes[n].y - (e.y - s.y), () => met.add(n));
    return met.size;
  };
  const most = pairs.reduce((sofar, pair) => Math.max(sofar, meetings(pair)), 1);
  const meets = most > 1;
  return { graph, pairs: meets ? pairs.filter((pair) => meetings(pair) === most) : pairs, meets };
}

function dropPrice(dropMm: number, heightMm: number): number {
  const easyMm = Math.min(dropMm, slantShare * heightMm);
  const steepMm = Math.min(dropMm, mostShare * heightMm) - easyMm;
  return easyMm + steepFactor * steepMm + noRowFactor * (dropMm - easyMm - steepMm);
}

/** How far a node lies inside the left edge (sign 1) or the right one. */
function insetOf({ nodes }: Graph, node: number, { minX, maxX }: Box, sign: 1 | -1): number {
  return sign > 0 ? nodes[node].x - minX : maxX - nodes[node].x;
}

/** The highest and the lowest place on an edge. */
function placesOnEdge(graph: Graph, isOnEdge: (x: number) => boolean): PlaceOnPiece[] {
  const places: (PlaceOnPiece & { y: number })[] = [];
  graph.pieces.forEach(({ line }, piece) => {
    let run: Float64Array | null = null;
    for (let i = 0; i < pointCount(line); i++) {
      if (!isOnEdge(line[2 * i])) continue;
      run ??= runningLengths(line);
      places.push({ piece, alongMm: run[i], y: line[2 * i + 1] });
    }
  });
  places.sort((p, q) => p.y - q.y);
  return [places[0], places[places.length - 1]];
}
