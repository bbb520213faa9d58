/**
 * Route: many strokes, or one with branches, as one line that makes a row.
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
import { chained, firstPoint, lastPoint, lengthOf, polylineOf } from '../geometry/polyline.js';
import { joinedStrokes } from '../measure/ends/strokes.js';
import { studyOf } from '../measure/index.js';
import { networkOf } from '../network/network.js';
import { searchedParts } from '../route/links.js';
import { type Route, routeOf } from '../route/plan.js';
import { motifOf } from '../size/motif-of.js';
import { outcome } from './outcome.js';

export const route: Mend = {
  name: 'route',
  safe: false,
  what: 'Finds one line through every piece that makes a row, with little stitched twice and little new line.',
  apply(motif, setup) {
    if (isOutline(motif, setup)) return null;
    const drawn = motif.strokes.filter((line) => lengthOf(line) > 0);
    const isRow = runsAcrossAlready(motif, setup);
    if (isRow && !isInItsOwnWay(motif, setup)) return null;
    const { graph } = networkOf(drawn, setup.limits.crossings);
    if (graph.pieces.length === 0) return null;
    const found = spread(
      routeOf(graph, { linkWeight: setup.linkWeight, weigh: (line) => troubleOf(line, setup) }),
      setup,
    );
    const addedMm = lengthOf(found.line) - drawn.reduce((sum, line) => sum + lengthOf(line), 0);
    if (isRow && !isBetter(found.line, drawn[0], setup)) return null;
    const added = [...found.links, ...found.shortcuts, ...found.leads, ...found.retraced];
    // As many strokes as there are links are joined by these, the others where they touch.
    const touching = drawn.slice(1 + found.links.length).map(firstPoint);
    return outcome(motif, [found.line], {
      mend: 'route',
      places: [...touching, ...added.map(middle)],
      addedMm,
      movedMm: found.movedMm,
      message: messageFor(found, drawn.length, setup),
      added,
    });
  },
};

/** A line that already makes a row is only routed anew where that spares at least this, mm. */
const worthMm = 1;

/** One line that makes a row, but runs over itself or into the next repeat. */
function isInItsOwnWay(motif: Motif, setup: Setup): boolean {
  return studyOf(motif, setup).retraces.totalMm > worthMm || troubleOf(motif.strokes[0], setup) > 0;
}

/** True where a row of `line` has less wrong with it, and no more line, than one of `drawn`. */
function isBetter(line: Polyline, drawn: Polyline, setup: Setup): boolean {
  const price = (each: Polyline) => {
    const dropMm = Math.abs(lastPoint(each).y - firstPoint(each).y);
    return lengthOf(each) + dropMm + troubleOf(each, setup);
  };
  return lengthOf(line) <= lengthOf(drawn) && price(line) < price(drawn) - worthMm;
}

interface Spread extends Route {
  /** Level line before the start and after the end. */
  readonly leads: readonly Polyline[];
}

/** Parts whose repeats would run into each other get leads, so that repeats lie as far apart as parts do. */
function spread(found: Route, setup: Setup): Spread {
  const { line, links } = found;
  if (links.length === 0 || troubleOf(line, setup) === 0) return { ...found, leads: [] };
  const leadMm = Math.max(...links.map(lengthOf)) / 2;
  const [start, end] = [firstPoint(line), lastPoint(line)];
  const leads = [
    polylineOf([{ x: start.x - leadMm, y: start.y }, start]),
    polylineOf([end, { x: end.x + leadMm, y: end.y }]),
  ];
  const led = chained([leads[0], line, leads[1]], 1e-9);
  return troubleOf(led, setup) > 0 ? { ...found, leads: [] } : { ...found, line: led, leads };
}

/** Neighbouring repeats that come nearer than this run into each other, mm. */
const clearMm = 0.8;
/** What it is worth that they do not, beside the line that would lead out of the way, mm. */
const collisionMm = 20;

/** What is wrong with a line as a row, as mm of line: repeats that run into each other would have to be led apart. */
function troubleOf(line: Polyline, setup: Setup): number {
  const study = studyOf(motifOf([line]), setup);
  const { start, end, repeat } = study;
  const meeting = repeat.assumed ? null : study.repeatMeeting(clearMm);
  if (!meeting || (meeting.crossings.length === 0 && meeting.leastMm >= clearMm)) return 0;
  const insetMm = Math.min(start.leftMm, start.rightMm) + Math.min(end.leftMm, end.rightMm);
  return collisionMm + setup.linkWeight * insetMm;
}

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

function messageFor(found: Spread, strokes: number, setup: Setup): string {
  const say = sayIn(setup.unit);
  const retraced =
    found.retracedMm > 0
      ? `${say.length(found.retracedMm)} of it is stitched twice, ${howNear(found, setup)}`
      : 'nothing is stitched twice';
  const more = [shortcutsText(found, setup), linksText(found, setup), leadsText(found, setup)].filter(
    (text) => text !== '',
  );
  const way =
    strokes === 1
      ? 'Found a better way along the line'
      : `Found one line through ${say.count(strokes, 'stroke')}`;
  return [`${way}: ${retraced}.`, ...more].join(' ');
}

function shortcutsText({ shortcuts }: Route, setup: Setup): string {
  if (shortcuts.length === 0) return '';
  const say = sayIn(setup.unit);
  const mm = shortcuts.reduce((sum, line) => sum + lengthOf(line), 0);
  const one = shortcuts.length === 1;
  return `${say.count(shortcuts.length, 'stretch', 'stretches')} of new line, ${say.length(mm)} long${one ? '' : ' in all'}, ${one ? 'saves' : 'save'} stitching more twice.`;
}

function leadsText({ leads }: Spread, setup: Setup): string {
  if (leads.length === 0) return '';
  const mm = sayIn(setup.unit).length(lengthOf(leads[0]));
  return `Level leads of ${mm} before the start and after the end keep the repeats as far apart as the parts.`;
}

/** A link's length is told once; the way back over it is part of what is stitched twice. */
function linksText({ links, linkedMm, linksTwice }: Route, setup: Setup): string {
  if (links.length === 0) return '';
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
  if (exact) return `the least that these ends${links.length === 0 ? '' : ' and links'} allow`;
  const say = sayIn(setup.unit);
  return `near the least: with so many branches the very least was not worked out, but it is not under ${say.length(atLeastMm)} (this is ${(retracedMm / atLeastMm).toFixed(2)} times that)`;
}
