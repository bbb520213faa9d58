/**
 * The route of a drawing: one walk through every piece of it that makes a row, at least added line.
 *
 * Start and end (`row-ends.ts`), links between parts (`links.ts`), links within parts (`shortcuts.ts`) and retracing
 * (`retrace.ts`) are chosen together: for each pair of ends worth a look the least retracing and links are worked
 * out, the cheapest pairs become lines, and a line that comes out badly (`weigh`) gives way to the next. For given
 * ends and links between parts, retracing and the links offered within parts are least together, by one pairing.
 */

import type { Polyline } from '../../shared/plane.js';
import { type Graph, oddNodes, type Piece, partsOf, toggle } from '../network/graph.js';
import { linkParts } from './links.js';
import { leastRetrace } from './retrace.js';
import { type EndPair, endPairs } from './row-ends.js';
import { shortcutsOf } from './shortcuts.js';
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
  /** No route with these ends and links retraces less than this, mm; `retracedMm` where that is known to be least. */
  readonly atLeastMm: number;
  readonly exact: boolean;
  /** Links between parts that do not touch, their length, mm, and how many of them are gone there and back. */
  readonly links: readonly Polyline[];
  readonly linkedMm: number;
  readonly linksTwice: number;
  /** New line within a part, in place of stitching twice. */
  readonly shortcuts: readonly Polyline[];
}

export interface RouteWishes {
  /** What a link weighs, to its length; Infinity: none within a part. */
  readonly linkWeight: number;
  /** Nodes for start and end where they are given. */
  readonly between?: readonly [number, number];
  /** What is wrong with a line as a row, as mm of line; 0 where nothing is. */
  weigh?(line: Polyline): number;
}

/** Pairs of ends for which the whole is worked out, and of those the ones that are made into lines. */
const mostPairs = 40;
const mostPairsOfParts = 6;
const mostLines = 6;
/** Odd places beyond which one pair of ends is all that is looked at, and none in several parts this large. */
const cheapOdd = 60;
const cheapParts = 8;
/** More than any drawing has to retrace for one end, mm. */
const looseEndMm = 1e6;

/**
 * The route through a drawing. What the drawing itself has twice counts as retraced only where it is stitched a third
 * time.
 */
export function routeOf(drawing: Graph, wishes: RouteWishes): Route {
  const { linkWeight, between, weigh } = wishes;
  if (between) {
    const [start, end] = between;
    return lineOf(planned(drawing, { start, end, priceMm: 0 }, linkWeight));
  }
  const { graph, pairs } = endPairs(drawing);
  const plans = likeliest(graph, pairs)
    .map((pair) => planned(graph, pair, linkWeight))
    .sort((p, q) => p.costMm - q.costMm);
  let best: { route: Route; costMm: number } | null = null;
  for (const plan of plans.slice(0, mostLines)) {
    if (best && plan.costMm >= best.costMm) break;
    const route = lineOf(plan);
    const costMm = plan.costMm + (weigh?.(route.line) ?? 0);
    if (!best || costMm < best.costMm) best = { route, costMm };
  }
  return best!.route;
}

/** The pairs of ends to work out: loose ends first, since from any other place the line has to come back. */
function likeliest(graph: Graph, pairs: readonly EndPair[]): EndPair[] {
  const odd = oddNodes(graph);
  const parts = partsOf(graph).count;
  const isCheap = odd.size <= cheapOdd && parts <= cheapParts;
  const firm = ({ start, end }: EndPair) => [start, end].filter((n) => !odd.has(n)).length;
  const price = (pair: EndPair) => pair.priceMm + (parts > 1 || !isCheap ? looseEndMm * firm(pair) : 0);
  const sorted = [...pairs].sort((p, q) => price(p) - price(q));
  return sorted.slice(0, !isCheap ? 1 : parts > 1 ? mostPairsOfParts : mostPairs);
}

interface Plan {
  readonly pair: EndPair;
  /** Drawn pieces, then links between parts from `firstLink`, then chosen links within parts from `firstShortcut`. */
  readonly graph: Graph;
  readonly firstLink: number;
  readonly firstShortcut: number;
  /** Pieces to stitch once more. */
  readonly again: readonly number[];
  readonly exact: boolean;
  readonly atLeastMm: number;
  readonly costMm: number;
}

function planned(drawing: Graph, pair: EndPair, linkWeight: number): Plan {
  const linked = linkParts(drawing, pair.start, pair.end, linkWeight);
  const linkCount = linked.graph.pieces.length - linked.firstLink;
  const odd = oddNodes(linked.graph);
  toggle(odd, pair.start);
  toggle(odd, pair.end);
  const offered = Number.isFinite(linkWeight)
    ? shortcutsOf(linked.graph, odd, linked.firstLink, lengthOf(linked.graph.pieces) / linkWeight)
    : { graph: linked.graph, links: [] };
  const { nodes, pieces } = offered.graph;
  const weighted = offered.links.map((piece) => ({ ...piece, lengthMm: linkWeight * piece.lengthMm }));
  const retrace = leastRetrace({ nodes, pieces: [...pieces, ...weighted] }, odd);
  const chosen = retrace.pieces
    .filter((p) => p >= pieces.length)
    .map((p) => offered.links[p - pieces.length]);
  const firstLink = pieces.length - linkCount;
  return {
    pair,
    graph: { nodes, pieces: [...pieces, ...chosen] },
    firstLink,
    firstShortcut: pieces.length,
    again: retrace.pieces.filter((piece) => piece < pieces.length),
    exact: retrace.exact,
    atLeastMm: retrace.atLeastMm - linkWeightOr1(linkWeight) * lengthOf(chosen),
    costMm: retrace.lengthMm + linkWeightOr1(linkWeight) * lengthOf(pieces.slice(firstLink)) + pair.priceMm,
  };
}

function linkWeightOr1(linkWeight: number): number {
  return Number.isFinite(linkWeight) ? linkWeight : 1;
}

function lengthOf(pieces: readonly Piece[]): number {
  return pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0);
}

function lineOf({ pair, graph, firstLink, firstShortcut, again, exact, atLeastMm }: Plan): Route {
  const passes = [...graph.pieces.keys(), ...again];
  const { line, movedMm } = walkedLine(graph, straightestTour(graph, passes, pair.start, pair.end));
  const sum = (pieces: readonly number[]) => pieces.reduce((mm, i) => mm + graph.pieces[i].lengthMm, 0);
  const third = again.filter((piece) => !graph.pieces[piece].copy);
  const retracedMm = sum(third);
  const links = graph.pieces.slice(firstLink, firstShortcut);
  return {
    line,
    movedMm,
    retraced: third.filter((piece) => piece < firstLink).map((piece) => graph.pieces[piece].line),
    retracedMm,
    atLeastMm: exact ? retracedMm : Math.max(0, atLeastMm - (sum(again) - retracedMm)),
    exact,
    links: links.map((piece) => piece.line),
    linkedMm: lengthOf(links),
    linksTwice: third.filter((piece) => piece >= firstLink).length,
    shortcuts: graph.pieces.slice(firstShortcut).map((piece) => piece.line),
  };
}
