/**
 * Ends brought to the edges. The row of repeats is one endless line, and any place of it may be where one repeat ends
 * and the next begins.
 *
 * - Where neighbouring repeats keep clear and an upright line meets the row exactly once, the row is cut there: both
 *   ends are on the edges and no stitch changes. Where repeats run into each other a cut would only hide it: the row
 *   would cross itself inside the repeat as it did between repeats.
 * - Then leads go out to the edges, which sets the repeats farther apart, where they cross nothing and meet the line
 *   without a corner.
 * - Repeats that reach over each other but keep clear are left as they are.
 */
import oppositeEdges from '../../rules/opposite-edges.js';
import smoothJoin from '../../rules/smooth-join.js';
import type { Polyline } from '../../shared/plane.js';
import { limitsOf } from '../../shared/rule.js';
import { sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { turnDeg } from '../geometry/point.js';
import { boundsOf, chained, firstPoint, lastPoint, lengthOf, polylineOf } from '../geometry/polyline.js';
import { leadBetween } from './lead.js';
import { asItIs, headingsOf, isClean, type ReachTry, repeatsCollide } from './reach-step.js';
import { cutAt, onlyMeeting, placeAfterCut } from './row-cut.js';

/** `line` runs to the right. */
export function toEdges(line: Polyline, setup: Setup): ReachTry {
  const { insideMm, nearMm } = limitsOf(oppositeEdges, setup);
  const box = boundsOf([line]);
  const [start, end] = [firstPoint(line), lastPoint(line)];
  const [leftMm, rightMm] = [start.x - box.minX, box.maxX - end.x];
  if (leftMm <= insideMm && rightMm <= insideMm) return asItIs;
  const say = sayIn(setup.unit);
  const insets = say.list([
    ...(leftMm > insideMm ? [`${say.length(leftMm)} inside the left edge`] : []),
    ...(rightMm > insideMm ? [`${say.length(rightMm)} inside the right edge`] : []),
  ]);
  if (!repeatsCollide(line, nearMm, setup)) {
    const cut = onlyMeeting(line);
    if (!cut) return asItIs;
    return {
      step: {
        line: cutAt(line, cut.alongMm),
        message: `The line started or ended ${insets}. The row is now cut at a place that an upright line meets only once, so both ends are on the edges.`,
        at: [cut.at],
        movedMm: 0,
        added: [],
        place: placeAfterCut(line, cut.alongMm),
      },
      left: null,
    };
  }
  for (const [leadIn, leadOut] of leadsOf(line, box.minX, box.maxX, setup)) {
    const leads = [leadIn, leadOut].filter((lead) => lengthOf(lead) > 0);
    const led = chained([leadIn, line, leadOut], 1e-9);
    if (!isClean(led, line, nearMm, setup)) continue;
    return {
      step: {
        line: led,
        message: `The line started or ended ${insets}, and neighbouring repeats ran into each other: ${say.count(leads.length, 'lead line')} ${leads.length === 1 ? 'goes' : 'go'} out to the edge${leads.length === 1 ? '' : 's'}.`,
        at: [start, end],
        movedMm: 0,
        added: leads,
        place: (at) => at,
      },
      left: null,
    };
  }
  return {
    step: null,
    left: `The line starts or ends ${insets}, neighbouring repeats run into each other, and there is no smooth way out to the edge that does not run into what is drawn there. Draw the way in and out yourself, from edge to edge.`,
  };
}

/** Level leads where they go on from the line without a corner, and curves that end level. */
function* leadsOf(
  line: Polyline,
  leftX: number,
  rightX: number,
  setup: Setup,
): Generator<[Polyline, Polyline]> {
  const { turnDeg: mostDeg } = limitsOf(smoothJoin, setup);
  const { from: onward, to: away } = headingsOf(line, setup);
  const left = { at: { x: leftX, y: onward.at.y }, dx: 1, dy: 0 };
  const right = { at: { x: rightX, y: away.at.y }, dx: 1, dy: 0 };
  const bends = [away, onward].map(({ dx, dy }) => turnDeg(1, 0, dx, dy));
  if (Math.max(...bends) <= mostDeg)
    yield [polylineOf([left.at, onward.at]), polylineOf([away.at, right.at])];
  // A line that goes backwards there would have to be led round in a loop.
  if (Math.max(...bends) < 90) yield [leadBetween(left, onward), leadBetween(away, right)];
}
