/**
 * The route of a drawing: one walk through every piece of it that makes a row, at least added line.
 *
 * Start and end (`row-ends.ts`), the link to the next repeat (`seam.ts`), links between parts (`links.ts`), links within
 * parts (`shortcuts.ts`) and retracing (`retrace.ts`) are chosen together: each pair of ends is judged by how a row of
 * the drawing with them would do (`weighRow`), for the pairs worth a look the least retracing and links are worked
 * out, the cheapest become lines, and a line that comes out badly (`weigh`) gives way to the next. For given ends and
 * links between parts, retracing and the links offered within parts are least together, by one pairing.
 */

import FlatQueue from 'flatqueue';
import type { Point, Polyline } from '../../shared/plane.js';
import { chained } from '../geometry/polyline.js';
import { type Graph, oddNodes, type Piece, partsOf, toggle } from '../network/graph.js';
import { linkParts } from './links.js';
import { leastRetrace } from './retrace.js';
import { type EndPair, endPairs } from './row-ends.js';
import { leadsOf, seamsOf } from './seam.js';
import { type Shortcuts, shortcutsOf } from './shortcuts.js';
import { withTwins } from './twins.js';
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
  /** The halves of the link from repeat to repeat: new line before the start and after the end. */
  readonly leads: readonly Polyline[];
}

export interface RouteWishes {
  /** What a link weighs, to its length; Infinity: none within a part. */
  readonly linkWeight: number;
  /** Nodes for start and end where they are given. */
  readonly between?: readonly [number, number];
  /** What is wrong with a line as a row, as mm of line; 0 where nothing is. */
  weigh?(line: Polyline): number;
  /** What is wrong with a row of these lines in which the place `end` of a repeat is the `start` of the next, as mm of line. */
  weighRow?(lines: readonly Polyline[]): (start: Point, end: Point) => number;
}

/** Pairs of ends for which the whole is worked out, and of those the ones that are made into lines. */
const mostPairs = 40;
const mostPairsOfParts = 6;
const mostLines = 6;
/** Odd places beyond which one pair of ends is all that is looked at, and none in several parts this large. */
const cheapOdd = 60;
const cheapParts = 8;
/** Repeats that touch where parts are drawn apart are as bad as so many links over the gap. */
const touchingFactor = 1.5;
/** More than any drawing has to retrace for one end, mm. */
const looseEndMm = 1e6;

/**
 * The route through a drawing. What the drawing itself has twice counts as retraced only where it is stitched a third
 * time.
 */
export function routeOf(drawing: Graph, wishes: RouteWishes): Route {
  const { linkWeight, between, weigh, weighRow } = wishes;
  if (between) {
    const [start, end] = between;
    const [plan] = plansFor(drawing, [{ start, end, priceMm: 0 }], linkWeight);
    return lineOf(plan);
  }
  const { graph, pairs, meets } = endPairs(drawing);
  const linked = seamPairs(drawing, linkWeight);
  const plans = [
    ...plansFor(
      graph,
      likeliest(graph, pairs, touchingFactor * linkWeightOr1(linkWeight) * linked.gapMm, weighRow),
      linkWeight,
    ),
    ...(meets ? [] : plansFor(linked.graph, likeliest(linked.graph, linked.pairs, 0), linkWeight)),
  ].sort((p, q) => p.costMm - q.costMm);
  let best: { route: Route; costMm: number } | null = null;
  for (const plan of plans.slice(0, mostLines)) {
    if (best && plan.costMm >= best.costMm) break;
    const route = lineOf(plan);
    const { rowMm = 0 } = plan.pair;
    const costMm = plan.costMm - rowMm + Math.max(rowMm, weigh?.(route.line) ?? 0);
    if (!best || costMm < best.costMm) best = { route, costMm };
  }
  return best!.route;
}

/** Pairs of ends that a link from repeat to repeat joins. */
function seamPairs(drawing: Graph, linkWeight: number): { graph: Graph; pairs: EndPair[]; gapMm: number } {
  if (!Number.isFinite(linkWeight)) return { graph: drawing, pairs: [], gapMm: 0 };
  const { graph, seams, gapMm } = seamsOf(drawing);
  const pairs = seams.map((seam) => {
    return { start: seam.start, end: seam.end, priceMm: linkWeight * seam.lengthMm, seam };
  });
  return { graph, pairs, gapMm };
}

/**
 * The pairs of ends to work out, with what is wrong with a row of the drawing in their price. Loose ends come first,
 * since from any other place the line has to come back; and where neither place is one, repeats touch, which is worth
 * `touchingMm`. Rows are looked at for no more pairs than need be: the cheapest so far is looked at, and waits again
 * under its full price.
 */
function likeliest(
  graph: Graph,
  pairs: readonly EndPair[],
  touchingMm: number,
  weighRow?: RouteWishes['weighRow'],
): EndPair[] {
  const { nodes, pieces } = graph;
  const odd = oddNodes(graph);
  const parts = partsOf(graph).count;
  const isCheap = odd.size <= cheapOdd && parts <= cheapParts;
  const most = !isCheap ? 1 : parts > 1 ? mostPairsOfParts : mostPairs;
  const weigh = weighRow?.(pieces.map(({ line }) => line));
  const queue = new FlatQueue<EndPair>();
  const wait = (pair: EndPair) => {
    const firm = [pair.start, pair.end].filter((n) => !odd.has(n)).length;
    queue.push(pair, pair.priceMm + (parts > 1 || !isCheap ? looseEndMm * firm : 0));
  };
  for (const pair of pairs) {
    const isFirm = !odd.has(pair.start) && !odd.has(pair.end);
    wait(isFirm ? { ...pair, priceMm: pair.priceMm + touchingMm } : pair);
  }
  const found: EndPair[] = [];
  while (queue.length > 0 && found.length < most) {
    const pair = queue.pop()!;
    const { start, end, priceMm, rowMm } = pair;
    if (!weigh || rowMm !== undefined) found.push(pair);
    else {
      const dearerMm = weigh(nodes[start], nodes[end]);
      wait({ ...pair, priceMm: priceMm + dearerMm, rowMm: dearerMm });
    }
  }
  return found;
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

/** The least for each of the pairs. In a drawing of one part all of them are offered the same links within it. */
function plansFor(drawing: Graph, pairs: readonly EndPair[], linkWeight: number): Plan[] {
  const isOne = partsOf(drawing).count === 1;
  const places = new Set([...oddNodes(drawing), ...pairs.flatMap(({ start, end }) => [start, end])]);
  const shared = isOne ? offeredIn(drawing, places, drawing.pieces.length, linkWeight) : null;
  return pairs.map((pair) => planned(drawing, pair, linkWeight, shared));
}

/** New line within parts that may be worth more than stitching twice. */
function offeredIn(
  graph: Graph,
  places: ReadonlySet<number>,
  firstLink: number,
  linkWeight: number,
): Shortcuts {
  if (!Number.isFinite(linkWeight)) return { graph, links: [] };
  return shortcutsOf(graph, places, firstLink, lengthOf(graph.pieces) / linkWeight);
}

function planned(drawing: Graph, pair: EndPair, linkWeight: number, shared: Shortcuts | null): Plan {
  const linked = linkParts(drawing, pair.start, pair.end, linkWeightOr1(linkWeight));
  const linkCount = linked.graph.pieces.length - linked.firstLink;
  const odd = oddNodes(linked.graph);
  toggle(odd, pair.start);
  toggle(odd, pair.end);
  const offered = shared ?? offeredIn(linked.graph, odd, linked.firstLink, linkWeight);
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

/** Links between parts there must be, even where none are wanted within them. */
function linkWeightOr1(linkWeight: number): number {
  return Number.isFinite(linkWeight) ? linkWeight : 1;
}

function lengthOf(pieces: readonly Piece[]): number {
  return pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0);
}

function lineOf({ pair, graph, firstLink, firstShortcut, again: least, exact, atLeastMm }: Plan): Route {
  const { tour, again } = withTwins(graph, least, pair.start, pair.end);
  const { line, movedMm } = walkedLine(graph, tour.steps);
  const leads = pair.seam ? leadsOf(graph, pair.seam) : [];
  const sum = (pieces: readonly number[]) => pieces.reduce((mm, i) => mm + graph.pieces[i].lengthMm, 0);
  const third = again.filter((piece) => !graph.pieces[piece].copy);
  const retracedMm = sum(third);
  const links = graph.pieces.slice(firstLink, firstShortcut);
  return {
    line: pair.seam ? chained([leads[0], line, leads[1]], 1e-9) : line,
    leads,
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
