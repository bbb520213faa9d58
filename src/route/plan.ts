/** The route of a drawing: one walk from its left edge to its right edge through every piece, at least added length. */

import type { Polyline } from '../../shared/plane.js';
import { boundsOf, pointCount, runningLengths } from '../geometry/polyline.js';
import { type Graph, oddNodes, type PlaceOnPiece, partsOf, toggle, withNodesAt } from '../network/graph.js';
import { linkParts } from './links.js';
import { leastRetrace } from './retrace.js';
import { straightestTour } from './tour.js';
import { walkedLine } from './walk.js';

export interface Route {
  readonly line: Polyline;
  /** The farthest a line was bent to meet another, mm. */
  readonly movedMm: number;
  /** Stretches of the drawing that are stitched a second time. */
  readonly retraced: readonly Polyline[];
  /** Their length and that of the way back over links, mm. */
  readonly retracedMm: number;
  /** No route through these links retraces less than this, mm; `retracedMm` where that is known to be least. */
  readonly atLeastMm: number;
  readonly exact: boolean;
  /** Links between parts that do not touch, their length, mm, and how many of them are gone there and back. */
  readonly links: readonly Polyline[];
  readonly linkedMm: number;
  readonly linksTwice: number;
}

/**
 * The route through a drawing from its left edge to its right edge, or between two of its nodes. What the drawing
 * itself has twice counts as retraced only where it is stitched a third time.
 */
export function routeOf(drawing: Graph, between: readonly [number, number] | null = null): Route {
  const { graph, start, end } = between
    ? { graph: drawing, start: between[0], end: between[1] }
    : withEnds(drawing);
  const { graph: linked, firstLink } = linkParts(graph, start, end);
  const odd = oddNodes(linked);
  toggle(odd, start);
  toggle(odd, end);
  const retrace = leastRetrace(linked, odd);
  const passes = [...linked.pieces.keys(), ...retrace.pieces];
  const { line, movedMm } = walkedLine(linked, straightestTour(linked, passes, start, end));
  const again = retrace.pieces.filter((piece) => !linked.pieces[piece].copy);
  const retracedMm = again.reduce((sum, piece) => sum + linked.pieces[piece].lengthMm, 0);
  const links = linked.pieces.slice(firstLink);
  return {
    line,
    movedMm,
    retraced: again.filter((piece) => piece < firstLink).map((piece) => linked.pieces[piece].line),
    retracedMm,
    atLeastMm: Math.max(0, retrace.atLeastMm - (retrace.lengthMm - retracedMm)),
    exact: retrace.exact,
    links: links.map(({ line }) => line),
    linkedMm: links.reduce((sum, { lengthMm }) => sum + lengthMm, 0),
    linksTwice: again.filter((piece) => piece >= firstLink).length,
  };
}

/** Places this near to the left or right edge count as on it, mm. */
const onEdgeMm = 0.01;
/** Places on each edge that are tried as start or end, and odd places up to which trying is cheap. */
const tried = 4;
const cheapOdd = 60;
/** More than any drawing has to retrace for one end, mm. */
const looseEndMm = 1e6;

/**
 * Nodes for start and end, on the left and the right edge of the drawing. Where an edge is met at several places,
 * that pair is taken that costs least: retracing, and the difference in height, which would have to be led back.
 */
function withEnds(drawing: Graph): { graph: Graph; start: number; end: number } {
  const box = boundsOf(drawing.pieces.map(({ line }) => line));
  const odd = oddNodes(drawing);
  const cheap = odd.size <= cheapOdd && partsOf(drawing).count === 1;
  const left = placesOnEdge(drawing, odd, (x) => x <= box.minX + onEdgeMm);
  const right = placesOnEdge(drawing, odd, (x) => x >= box.maxX - onEdgeMm);
  const { graph, at } = withNodesAt(drawing, [...left, ...right]);
  const starts = [...new Set(at.slice(0, left.length))];
  const ends = [...new Set(at.slice(left.length))];
  let best = { start: starts[0], end: ends[0] };
  let bestMm = Infinity;
  for (const start of starts) {
    for (const end of ends) {
      if (start === end) continue;
      const dropMm = Math.abs(graph.nodes[start].y - graph.nodes[end].y);
      const costMm = dropMm + endsCost(graph, odd, start, end, cheap);
      if (costMm < bestMm - 1e-9) [best, bestMm] = [{ start, end }, costMm];
    }
  }
  return { graph, ...best };
}

function endsCost(
  graph: Graph,
  odd: ReadonlySet<number>,
  start: number,
  end: number,
  cheap: boolean,
): number {
  const left = new Set(odd);
  toggle(left, start);
  toggle(left, end);
  // Too dear to try, or in several parts: loose ends first, since from any other place the line has to come back.
  return cheap ? leastRetrace(graph, left).lengthMm : left.size * looseEndMm;
}

/** The highest and the lowest place on an edge, and loose ends there. */
function placesOnEdge(
  graph: Graph,
  odd: ReadonlySet<number>,
  isOnEdge: (x: number) => boolean,
): PlaceOnPiece[] {
  const places: (PlaceOnPiece & { y: number; loose: boolean })[] = [];
  graph.pieces.forEach(({ line, from, to }, piece) => {
    let run: Float64Array | null = null;
    for (let i = 0; i < pointCount(line); i++) {
      if (!isOnEdge(line[2 * i])) continue;
      run ??= runningLengths(line);
      const loose = (i === 0 && odd.has(from)) || (i === pointCount(line) - 1 && odd.has(to));
      places.push({ piece, alongMm: run[i], y: line[2 * i + 1], loose });
    }
  });
  places.sort((p, q) => p.y - q.y);
  return [places[0], places[places.length - 1], ...places.filter(({ loose }) => loose).slice(0, tried)];
}
