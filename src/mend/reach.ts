/**
 * Reach: start and end on the left and right edge, and level, so that repeats join into a row.
 *
 * - Ends inside their edges (`edges.ts`): the row is cut elsewhere, or level leads go out.
 * - A scan that lay aslant (`aslant.ts`) is turned level first.
 * - Ends that are not level (`level.ts`): slanted, eased, or led back by a curve.
 *
 * What comes out is a line that a hand would draw; where none of these gives one, nothing is changed and a sentence
 * says why. The limits are those of the rules `opposite-edges` and `level-ends`: what they accept is left alone.
 */
import type { Mend } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { firstPoint, lastPoint, lengthOf, reversed } from '../geometry/polyline.js';
import { scanMoved } from '../geometry/scan.js';
import { studyOf } from '../measure/index.js';
import { turnedLevel } from './aslant.js';
import { toEdges } from './edges.js';
import { toLevel } from './level.js';
import { outcome } from './outcome.js';
import type { ReachStep } from './reach-step.js';

export const reach: Mend = {
  name: 'reach',
  safe: false,
  what: 'Brings start and end onto the left and right edge, and level.',
  apply(motif, setup) {
    const { steps } = reached(motif, setup);
    if (steps.length === 0) return null;
    const [drawn] = motif.strokes;
    const made = steps[steps.length - 1].line;
    const line = studyOf(motif, setup).runsLeft ? reversed(made) : made;
    const place = (at: Point) => steps.reduce((now, step) => step.place(now), at);
    return outcome(
      { ...motif, ...(motif.scan && { scan: scanMoved(motif.scan, place) }) },
      [line],
      {
        mend: 'reach',
        places: steps.flatMap(({ at }) => at),
        addedMm: lengthOf(line) - lengthOf(drawn),
        movedMm: Math.max(...steps.map(({ movedMm }) => movedMm)),
        message: steps.map(({ message }) => message).join(' '),
        added: steps.flatMap(({ added }) => added),
      },
      place,
    );
  },
  leaves(motif, setup) {
    const { left } = reached(motif, setup);
    return left.length === 0 ? null : left.join(' ');
  },
};

/** Why ends that could be levelled are not. */
function leftUneven(line: Polyline, setup: Setup): string {
  const drop = lastPoint(line).y - firstPoint(line).y;
  return `The ends are ${sayIn(setup.unit).length(drop)} from level, and stay so as long as the repeats run into each other.`;
}

interface Reached {
  readonly steps: readonly ReachStep[];
  /** Why something is left as it is. */
  readonly left: readonly string[];
}

function reached(motif: Motif, setup: Setup): Reached {
  if (motif.strokes.length !== 1 || motif.strokes[0].length < 4) return { steps: [], left: [] };
  const { repeat, runsLeft, outline } = studyOf(motif, setup);
  if (repeat.assumed || outline !== null) return { steps: [], left: [] };
  const [drawn] = motif.strokes;
  const rightwards = runsLeft ? reversed(drawn) : drawn;
  const turned = motif.scan ? turnedLevel(rightwards, setup) : null;
  const line = turned?.line ?? rightwards;
  const across = toEdges(line, setup);
  const level = toLevel(across.step?.line ?? line, setup);
  const left = [
    across.left,
    level.left ?? (across.left !== null && level.step ? leftUneven(line, setup) : null),
  ].filter((why) => why !== null);
  // Ends brought to the edges at two heights make a row no more than level ones whose repeats run into each other: then
  // it stays as it was drawn.
  if (left.length > 0) return { steps: [], left };
  return { steps: [turned, across.step, level.step].filter((step) => step !== null), left };
}
