/**
 * Links from one repeat to the next, for a drawing of several parts.
 *
 * Wrapped round one repeat the drawing has no ends: from the last part of a repeat the line goes on to a part of the
 * next one by a link as from part to part within it. The repeat is as long as the drawing is wide and as wide again
 * as the widest of the gaps that hold its parts together, so that repeats keep clear as parts do. A link is cut in
 * its middle: its halves lead into the line and out of it, level with each other whatever its slope.
 */
import type { Point, Polyline } from '../../shared/plane.js';
import { distance, midpoint } from '../geometry/point.js';
import { boundsOf, moved, polylineOf } from '../geometry/polyline.js';
import { SegmentIndex } from '../near/segment-index.js';
import { type Graph, oddNodes, type PlaceOnPiece, withNodesAt } from '../network/graph.js';
import { betweenBoxes, Part, partsOfGraph } from '../network/parts.js';
import { spanningTree } from '../network/spanning.js';
import { isClear } from './clear.js';

/** A link from the place `end` of one repeat to the place `start` of the next. */
export interface Seam {
  readonly start: number;
  readonly end: number;
  readonly repeatMm: number;
  readonly lengthMm: number;
}

/** Links worth a look: of those between the nearest places of parts, and of those between loose ends. */
const ofEach = 4;
/** Pairs of parts that are measured, of so many parts on either side; loose ends that are looked at. */
const mostPairs = 40;
const mostBeside = 20;
const mostOdd = 60;
/** Parts a hair apart do not set the repeats so near each other, mm. */
const leastGapMm = 3;

export interface Seams {
  /** The drawing with a node at each end of a link. */
  readonly graph: Graph;
  readonly seams: readonly Seam[];
  /** How far apart the parts are drawn, at the widest, mm. */
  readonly gapMm: number;
}

/** The links from repeat to repeat; none where the drawing is one part. */
export function seamsOf(drawing: Graph): Seams {
  const parts = partsOfGraph(drawing);
  if (parts.length === 1) return { graph: drawing, seams: [], gapMm: 0 };
  const lines = drawing.pieces.map(({ line }) => line);
  const { minX, maxX } = boundsOf(lines);
  const gapMm = Math.max(leastGapMm, ...spanningTree(parts).map(({ lengthMm }) => lengthMm));
  const repeatMm = maxX - minX + gapMm;
  const next = lines.map((line) => moved(line, repeatMm, 0));
  const measured = nearestPairs(parts, repeatMm).map(([from, to]) => {
    const { pieces } = parts[to];
    return parts[from].linkTo(
      new Part(
        pieces,
        pieces.map((p) => next[p]),
      ),
    );
  });
  const places: PlaceOnPiece[] = measured.flatMap(({ from, to }) => [from, to]);
  const { graph, at } = withNodesAt(drawing, places);
  const seam = (end: number, start: number): Seam => {
    const to = { x: graph.nodes[start].x + repeatMm, y: graph.nodes[start].y };
    return { start, end, repeatMm, lengthMm: distance(graph.nodes[end], to) };
  };
  const nearest = measured.map((_, k) => seam(at[2 * k], at[2 * k + 1]));
  const odd = [...oddNodes(graph)].slice(0, mostOdd);
  const loose = odd.flatMap((end) => odd.map((start) => seam(end, start)));
  const index = new SegmentIndex([...lines, ...next]);
  const isFree = ({ start, end }: Seam) =>
    isClear(index, graph.nodes[end], { x: graph.nodes[start].x + repeatMm, y: graph.nodes[start].y });
  const shortest = (all: Seam[]) => {
    const found: Seam[] = [];
    for (const each of all.sort((s, t) => s.lengthMm - t.lengthMm)) {
      if (found.length === ofEach) break;
      if (isFree(each)) found.push(each);
    }
    return found;
  };
  return { graph, seams: [...shortest(nearest), ...shortest(loose)], gapMm };
}

/** Pairs of a part on the right and a part on the left of the next repeat, by number: those whose boxes are nearest. */
function nearestPairs(parts: readonly Part[], repeatMm: number): [number, number][] {
  const numbers = [...parts.keys()];
  const right = [...numbers].sort((a, b) => parts[b].box.maxX - parts[a].box.maxX).slice(0, mostBeside);
  const left = [...numbers].sort((a, b) => parts[a].box.minX - parts[b].box.minX).slice(0, mostBeside);
  const pairs = right.flatMap((from) =>
    left.map((to) => {
      const { box } = parts[to];
      const next = { ...box, minX: box.minX + repeatMm, maxX: box.maxX + repeatMm };
      return { pair: [from, to] as [number, number], mm: betweenBoxes(parts[from].box, next) };
    }),
  );
  pairs.sort((p, q) => p.mm - q.mm);
  return pairs.slice(0, mostPairs).map(({ pair }) => pair);
}

/** The two halves of a link from repeat to repeat: into the line from the start's place, and on from its end. */
export function leadsOf({ nodes }: Graph, { start, end, repeatMm }: Seam): [Polyline, Polyline] {
  const [from, to]: [Point, Point] = [nodes[end], { x: nodes[start].x + repeatMm, y: nodes[start].y }];
  const middle = midpoint(from, to);
  return [polylineOf([{ x: middle.x - repeatMm, y: middle.y }, nodes[start]]), polylineOf([from, middle])];
}
