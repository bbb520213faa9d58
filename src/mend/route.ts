/**
 * Route: many strokes, or one with branches, as one line from the left edge to the right edge.
 *
 * The drawing becomes a graph: nodes where lines end, cross or touch (`contacts`, `network`), pieces of line between
 * them (`graph`). Parts that do not touch are linked (`links`, `chain`), odd nodes are paired by retracing as little
 * as can be (`retrace`, `matching`), and of the walks that are left the straightest is taken (`tour`).
 */
import type { Mend } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { midpoint } from '../geometry/point.js';
import { firstPoint, lastPoint, lengthOf } from '../geometry/polyline.js';
import { joinedStrokes } from '../measure/ends/strokes.js';
import { studyOf } from '../measure/index.js';
import { networkOf } from '../network/network.js';
import { searchedParts } from '../route/links.js';
import { type Route, routeOf } from '../route/plan.js';
import { outcome } from './outcome.js';

export const route: Mend = {
  name: 'route',
  safe: false,
  what: 'Finds one line from the left edge to the right edge through every piece, with the least stitched twice.',
  apply(motif, setup) {
    if (runsAcrossAlready(motif, setup) || isOutline(motif, setup)) return null;
    const drawn = motif.strokes.filter((line) => lengthOf(line) > 0);
    const { graph } = networkOf(drawn, setup.limits.crossings);
    if (graph.pieces.length === 0) return null;
    const found = routeOf(graph);
    // As many strokes as there are links are joined by these, the others where they touch.
    const touching = drawn.slice(1 + found.links.length).map(firstPoint);
    return outcome(motif, [found.line], {
      mend: 'route',
      places: [...touching, ...found.links.map(middle), ...found.retraced.map(middle)],
      addedMm: lengthOf(found.line) - drawn.reduce((sum, line) => sum + lengthOf(line), 0),
      movedMm: found.movedMm,
      message: messageFor(found, drawn.length, setup),
      added: [...found.links, ...found.retraced],
    });
  },
};

/** One line whose ends can be joined into a row is not routed anew. */
function runsAcrossAlready(motif: Motif, setup: Setup): boolean {
  const { strokes, dots, duplicates } = joinedStrokes(motif.strokes);
  if (strokes.length === 0) return true;
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

function messageFor(found: Route, strokes: number, setup: Setup): string {
  const say = sayIn(setup.unit);
  const retraced =
    found.retracedMm > 0
      ? `${say.length(found.retracedMm)} of it is stitched twice, ${howNear(found, setup)}`
      : 'nothing is stitched twice';
  const linked = found.links.length === 0 ? '' : ` ${linksText(found, setup)}`;
  return `Found one line through ${say.count(strokes, 'stroke')}, from the left edge to the right: ${retraced}.${linked}`;
}

/** A link's length is told once; the way back over it is part of what is stitched twice. */
function linksText({ links, linkedMm, linksTwice }: Route, setup: Setup): string {
  const say = sayIn(setup.unit);
  const one = links.length === 1;
  const back =
    linksTwice === 0
      ? ''
      : `; the line goes there and back over ${linksTwice === links.length ? (one ? 'it' : 'them') : `${linksTwice} of them`}, and the way back counts as stitched twice`;
  const shorter = links.length + 1 > searchedParts ? '; with so many parts a shorter way may exist' : '';
  return `${say.count(links.length, 'link')} between parts that did not touch ${one ? 'is' : 'are'} ${say.length(linkedMm)} long${one ? '' : ' in all'}${back}${shorter}.`;
}

function howNear({ exact, retracedMm, atLeastMm, links }: Route, setup: Setup): string {
  if (exact) return links.length === 0 ? 'the least that is possible' : 'the least that these links allow';
  const say = sayIn(setup.unit);
  return `near the least: with so many branches the very least was not worked out, but it is not under ${say.length(atLeastMm)} (this is ${(retracedMm / atLeastMm).toFixed(2)} times that)`;
}
