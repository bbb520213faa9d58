/**
 * Untrace: what is stitched twice without need is stitched once.
 *
 * The line is taken apart into its graph, in which stretches that lie on one another are one piece. The shortest line
 * from the same start to the same end through every piece repeats only what it must (the route mend explains how). If
 * that saves anything to speak of, it takes the place of the line.
 */
import type { Mend } from '../../shared/mend.js';
import { lengthOf } from '../../shared/polyline.js';
import { sayIn } from '../../shared/say.js';
import { studyOf } from '../measure/index.js';
import { joinedStrokes } from '../measure/strokes.js';
import { outcome } from './outcome.js';
import { networkOf } from './route/network.js';
import { routeOf } from './route/plan.js';

/** A shorter stretch than this is no retrace, mm. */
const leastMm = 1;

export const untrace: Mend = {
  name: 'untrace',
  safe: false,
  what: 'Leaves out stretches that are stitched twice, where the line stays in one piece without them.',
  apply(motif, setup) {
    const { strokes } = joinedStrokes(motif.strokes);
    if (strokes.length !== 1 || studyOf(motif, setup).retraces.totalMm < leastMm) return null;
    const [{ line }] = strokes;
    const { graph, ends } = networkOf([line], setup.limits.crossings);
    if (graph.pieces.length === 0) return null;
    const found = routeOf(graph, ends[0]);
    const savedMm = lengthOf(line) - lengthOf(found.line);
    if (savedMm < leastMm) return null;
    const say = sayIn(setup.unit);
    return outcome(motif, [found.line], {
      mend: 'untrace',
      places: [],
      addedMm: -savedMm,
      movedMm: found.movedMm,
      message: `Left out ${say.length(savedMm)} that was stitched over again without need.`,
      added: [],
    });
  },
};
