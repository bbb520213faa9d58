/**
 * Reach: start and end on the left and right edge, and level, so that repeats join into a row.
 *
 * - Ends inside their edges: the row of repeats is one endless line, and any place of it may be where one repeat ends
 *   and the next begins. Where an upright line meets the row exactly once, cutting there puts both ends on the edges
 *   and moves nothing. Where there is none, and neighbouring repeats run into each other, lead lines go out level to
 *   the edges. Repeats that reach over each other but keep clear are left as they are.
 * - Ends that are not level: a drop under a tenth of the height is eased away over the first and the last quarter of
 *   the line, half of it each; a larger one is led back along the right edge, since easing it would show.
 */
import type { Mend } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { chained, firstPoint, lastPoint, lengthOf, polylineOf } from '../geometry/polyline.js';
import { studyOf } from '../measure/index.js';
import { motifOf } from '../size/motif-of.js';
import { eased } from './ease.js';
import { outcome } from './outcome.js';
import { cutAt, onlyMeeting } from './row-cut.js';

/** An end this far inside its edge, and ends this far from level, are to be mended, mm. */
const insetMm = 1;
const dropMm = 0.5;
/** Neighbouring repeats that come nearer than this run into each other, mm. */
const clearMm = 0.8;
/** A drop up to this share of the height is eased. */
const easedShare = 1 / 10;

interface Step {
  readonly line: Polyline;
  readonly message: string;
  readonly at: readonly Point[];
  readonly movedMm: number;
  readonly added: readonly Polyline[];
}

export const reach: Mend = {
  name: 'reach',
  safe: false,
  what: 'Brings start and end onto the left and right edge, and level.',
  apply(motif, setup) {
    if (motif.strokes.length !== 1 || studyOf(motif, setup).repeat.assumed) return null;
    const [drawn] = motif.strokes;
    const across = toEdges(motif, setup);
    const level = toLevel(across?.line ?? drawn, setup);
    const steps = [across, level].filter((step) => step !== null);
    if (steps.length === 0) return null;
    const { line } = steps[steps.length - 1];
    return outcome(motif, [line], {
      mend: 'reach',
      places: steps.flatMap(({ at }) => at),
      addedMm: lengthOf(line) - lengthOf(drawn),
      movedMm: Math.max(...steps.map(({ movedMm }) => movedMm)),
      message: steps.map(({ message }) => message).join(' '),
      added: steps.flatMap(({ added }) => added),
    });
  },
};

function toEdges(motif: Motif, setup: Setup): Step | null {
  const study = studyOf(motif, setup);
  const { start, end, runsLeft, widthMm } = study;
  const [left, right] = runsLeft ? [end, start] : [start, end];
  if (left.leftMm <= insetMm && right.rightMm <= insetMm) return null;
  const [line] = motif.strokes;
  const say = sayIn(setup.unit);
  const insets = [
    ...(left.leftMm > insetMm ? [`${say.length(left.leftMm)} inside the left edge`] : []),
    ...(right.rightMm > insetMm ? [`${say.length(right.rightMm)} inside the right edge`] : []),
  ];
  const inside = `The line started or ended ${say.list(insets)}`;
  const cut = onlyMeeting(line);
  if (cut)
    return {
      line: cutAt(line, cut.alongMm),
      message: `${inside}. The row is now cut at a place that an upright line meets only once, so both ends are on the edges.`,
      at: [cut.at],
      movedMm: 0,
      added: [],
    };
  const meeting = study.repeatMeeting(clearMm);
  if (meeting === null || (meeting.crossings.length === 0 && meeting.leastMm >= clearMm)) return null;
  const [startX, endX] = runsLeft ? [widthMm, 0] : [0, widthMm];
  const leadIn = polylineOf([{ x: startX, y: start.at.y }, start.at]);
  const leadOut = polylineOf([end.at, { x: endX, y: end.at.y }]);
  return {
    line: chained([leadIn, line, leadOut], 1e-9),
    message: `${inside}, and neighbouring repeats ran into each other. There is no place that an upright line meets only once, so level lead lines go out to the edges.`,
    at: [start.at, end.at],
    movedMm: 0,
    added: [leadIn, leadOut].filter((lead) => lengthOf(lead) > 0),
  };
}

function toLevel(line: Polyline, setup: Setup): Step | null {
  const { start, end, heightMm } = studyOf(motifOf([line]), setup);
  const drop = end.at.y - start.at.y;
  if (Math.abs(drop) <= dropMm) return null;
  const say = sayIn(setup.unit);
  const uneven = `The ends were ${say.length(drop)} from level`;
  if (Math.abs(drop) < easedShare * heightMm) {
    const moved = eased(line, drop / 2, -drop / 2);
    return {
      line: moved,
      message: `${uneven}, less than a tenth of the height: eased away over the first and the last quarter, half of it each.`,
      at: [firstPoint(moved), lastPoint(moved)],
      movedMm: Math.abs(drop) / 2,
      added: [],
    };
  }
  const last = lastPoint(line);
  const lead = polylineOf([last, { x: last.x, y: firstPoint(line).y }]);
  return {
    line: chained([line, lead], 1e-9),
    message: `${uneven}, a tenth of the height or more, too much to ease without it showing: a lead line along the edge goes back to the height of the start.`,
    at: [last],
    movedMm: 0,
    added: [lead],
  };
}
