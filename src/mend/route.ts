/**
 * Route: many strokes, or one with branches, as one line that makes a row.
 *
 * Ends that overshoot or overlap are cut off (`overshoot`). The drawing becomes a graph: nodes where lines end, cross or touch
 * (`contacts`, `network`), pieces of line between them (`graph`). Parts that do not touch are linked (`links`, `chain`),
 * odd nodes are paired by retracing as little as can be (`retrace`, `matching`), and of the walks that are left the
 * straightest is taken (`tour`).
 */
import oppositeEdges from '../../rules/opposite-edges.js';
import { grouped } from '../../shared/grouped.js';
import type { Mend } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { limitsOf } from '../../shared/rule.js';
import type { Setup } from '../../shared/setup.js';
import { midpoint } from '../geometry/point.js';
import {
  boundsOf,
  firstPoint,
  lastPoint,
  lengthOf,
  runningLengths,
  stretchOf,
} from '../geometry/polyline.js';
import { joinedStrokes } from '../measure/ends/strokes.js';
import { studyOf } from '../measure/index.js';
import type { Graph } from '../network/graph.js';
import { networkOf, touchMm } from '../network/network.js';
import { type Route, routeOf } from '../route/plan.js';
import { motifOf } from '../size/motif-of.js';
import { outcome } from './outcome.js';
import { withoutOvershoots } from './overshoot.js';
import { routeText } from './route-text.js';
import { rowTroubleOf, troubleOf } from './row-trouble.js';

export const route: Mend = {
  name: 'route',
  safe: false,
  what: 'Finds one line through every piece that makes a row, with little stitched twice and little new line.',
  apply(motif, setup) {
    if (isOutline(motif, setup)) return null;
    const drawn = motif.strokes.filter((line) => lengthOf(line) > 0);
    // Straight down, a line has no edges to run between.
    const { minX, maxX } = boundsOf(drawn);
    if (maxX - minX < touchMm) return null;
    const isRow = runsAcrossAlready(motif, setup);
    if (isRow && !isInItsOwnWay(motif, setup)) return null;
    if (!isRow) requireRoutable(motif, drawn.length, setup);
    const cut = isRow ? { strokes: drawn, places: [], laps: [] } : withoutOvershoots(drawn, setup);
    const { graph } = networkOf(cut.strokes, setup.limits.crossings);
    if (!isRow) requireRoutable(motif, graph.pieces.length, setup);
    const found = bettered(routeFor(graph, setup, isRow ? Infinity : setup.linkWeight), setup);
    const addedMm = lengthOf(found.line) - drawn.reduce((sum, line) => sum + lengthOf(line), 0);
    if (isRow && !isBetter(found.line, drawn[0], setup)) return null;
    const added = [...found.links, ...found.shortcuts, ...found.leads, ...found.retraced];
    // As many strokes as there are links are joined by these, the others where they touch.
    const touching = drawn.slice(1 + found.links.length).map(firstPoint);
    return outcome(motif, [found.line], {
      mend: 'route',
      places: [...touching, ...added.map(middle), ...cut.places, ...cut.laps],
      addedMm,
      movedMm: found.movedMm,
      message: routeText(
        found,
        { strokes: drawn.length, cut: cut.places.length, laps: cut.laps.length },
        setup,
      ),
      added,
    });
  },
};

/** `pieces` are those of the drawing, at least. */
function requireRoutable({ name }: Motif, pieces: number, { limits }: Setup): void {
  if (pieces <= limits.routed) return;
  throw new Refusal(
    `In "${name}" there are more than ${grouped(limits.routed)} pieces of line between the places where they meet: too many to route.`,
  );
}

/** One line gets no new line within it: what is stitched twice there was drawn so. */
function routeFor(graph: Graph, setup: Setup, linkWeight: number): Route {
  return routeOf(graph, {
    linkWeight,
    weigh: (line) => troubleOf(line, setup),
    weighRow: (lines) => rowTroubleOf(lines, setup),
  });
}

/** Links are line once they are drawn: a route may leave from the middle of one, or go back over less of it. */
const mostBetter = 4;

/** The route, and a route along its own line as long as that is better; what is stitched twice is then measured. */
function bettered(first: Route, setup: Setup): Route {
  // Without new line its own line is the drawing, which was routed just now.
  if (first.links.length + first.shortcuts.length + first.leads.length === 0) return first;
  let route = first;
  for (let round = 0; round < mostBetter; round++) {
    const motif = motifOf([route.line]);
    if (!runsAcrossAlready(motif, setup) || !isInItsOwnWay(motif, setup)) break;
    const { graph } = networkOf([route.line], setup.limits.crossings);
    const next = routeFor(graph, setup, Infinity);
    if (!isBetter(next.line, route.line, setup)) break;
    const { retraces } = studyOf(motifOf([next.line]), setup);
    const run = runningLengths(next.line);
    route = {
      ...next,
      movedMm: Math.max(route.movedMm, next.movedMm),
      retraced: retraces.stretches.map(({ fromMm, toMm }) => stretchOf(next.line, run, fromMm, toMm)),
      retracedMm: retraces.totalMm,
      links: route.links,
      linkedMm: route.linkedMm,
      linksTwice: 0,
      shortcuts: route.shortcuts,
      leads: route.leads,
    };
  }
  return route;
}

/** A line that already makes a row is only routed anew where that spares at least this, mm. */
const worthMm = 1;

/** One line that makes a row, but runs over itself or into the next repeat. */
function isInItsOwnWay(motif: Motif, setup: Setup): boolean {
  return studyOf(motif, setup).retraces.totalMm > worthMm || troubleOf(motif.strokes[0], setup) > 0;
}

/**
 * True where a row of `line` has less wrong with it, and no more line, than one of `drawn`. Its ends stay as near to the
 * edges: with others the way from the old ones would become a spur, gone out and back, and be left standing when reach
 * cuts the row.
 */
function isBetter(line: Polyline, drawn: Polyline, setup: Setup): boolean {
  const price = (each: Polyline) => {
    const dropMm = Math.abs(lastPoint(each).y - firstPoint(each).y);
    return lengthOf(each) + dropMm + troubleOf(each, setup);
  };
  const { insideMm } = limitsOf(oppositeEdges, setup);
  return (
    lengthOf(line) <= lengthOf(drawn) &&
    price(line) < price(drawn) - worthMm &&
    insetMm(line) <= insetMm(drawn) + insideMm
  );
}

/** How far the ends lie inside the left and the right edge, both together. */
function insetMm(line: Polyline): number {
  const { minX, maxX } = boundsOf([line]);
  return maxX - minX - Math.abs(lastPoint(line).x - firstPoint(line).x);
}

/** One line whose ends can be joined into a row is not routed anew. */
function runsAcrossAlready(motif: Motif, setup: Setup): boolean {
  const { strokes, dots, duplicates } = joinedStrokes(motif.strokes);
  if (strokes.length > 1 || dots.length > 0 || duplicates.length > 0) return false;
  return !studyOf(motif, setup).repeat.assumed;
}

/** The outline of a pen stroke has the line twice already; a route would only go round it. */
function isOutline(motif: Motif, setup: Setup): boolean {
  return studyOf(motif, setup).outline !== null;
}

function middle(line: Polyline): Point {
  return midpoint(firstPoint(line), lastPoint(line));
}
