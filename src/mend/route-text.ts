/** What is said of a route: what is stitched twice and whether that is the least, and each kind of new line. */
import { sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { lengthOf } from '../geometry/polyline.js';
import { searchedParts } from '../route/links.js';
import type { Route } from '../route/plan.js';

/** `strokes`: how many the drawing had; `cut`: of how many ends what overshot was cut off; `laps`: where two overlapped. */
export function routeText(
  found: Route,
  { strokes, cut, laps }: { readonly strokes: number; readonly cut: number; readonly laps: number },
  setup: Setup,
): string {
  const say = sayIn(setup.unit);
  const retraced =
    found.retracedMm > 0
      ? `${say.length(found.retracedMm)} of it is stitched twice, ${howNear(found, setup)}`
      : 'nothing is stitched twice';
  const more = [
    shortcutsText(found, setup),
    linksText(found, setup),
    leadsText(found, setup),
    cutText(cut),
    laps === 0 ? '' : `At ${say.count(laps, 'place')} two ends that overlapped are cut back to one line.`,
  ].filter((text) => text !== '');
  const way =
    strokes === 1
      ? 'Found a better way along the line'
      : `Found one line through ${say.count(strokes, 'stroke')}`;
  return [`${way}: ${retraced}.`, ...more].join(' ');
}

function cutText(cut: number): string {
  if (cut === 0) return '';
  const what = cut === 1 ? '1 end that went' : `${cut} ends that went`;
  return `${what} past the line by less than a stitch ${cut === 1 ? 'is' : 'are'} cut off there.`;
}

function shortcutsText({ shortcuts }: Route, setup: Setup): string {
  if (shortcuts.length === 0) return '';
  const say = sayIn(setup.unit);
  const mm = shortcuts.reduce((sum, line) => sum + lengthOf(line), 0);
  const one = shortcuts.length === 1;
  return `${say.count(shortcuts.length, 'stretch')} of new line, ${say.length(mm)} long${one ? '' : ' in all'}, ${one ? 'saves' : 'save'} stitching more twice.`;
}

function leadsText({ leads }: Route, setup: Setup): string {
  if (leads.length === 0) return '';
  const mm = sayIn(setup.unit).length(lengthOf(leads[0]));
  return `Leads of ${mm} before the start and after the end are the two halves of a link to the next repeat, which keeps repeats as far apart as parts.`;
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
