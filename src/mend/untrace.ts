/** Untrace: what is stitched twice without need is stitched once (`spare.ts` finds it). */
import type { Mend } from '../../shared/mend.js';
import { sayIn } from '../../shared/say.js';
import { joinedStrokes } from '../measure/ends/strokes.js';
import { studyOf } from '../measure/index.js';
import { leastSpareMm, spareOf } from '../route/spare.js';
import { outcome } from './outcome.js';

export const untrace: Mend = {
  name: 'untrace',
  safe: false,
  what: 'Leaves out stretches that are stitched twice, where the line stays in one piece without them.',
  apply(motif, setup) {
    const { strokes } = joinedStrokes(motif.strokes);
    if (strokes.length !== 1) return null;
    const { retraces } = studyOf(motif, setup);
    if (retraces.totalMm < leastSpareMm) return null;
    const spare = spareOf(strokes[0].line, setup.limits.crossings);
    if (spare === null) return null;
    const say = sayIn(setup.unit);
    return outcome(motif, [spare.line], {
      mend: 'untrace',
      places: retraces.stretches.map(({ at }) => at),
      addedMm: -spare.spareMm,
      movedMm: spare.movedMm,
      message: `Left out ${say.length(spare.spareMm)} that was stitched over again without need.`,
      added: [],
    });
  },
};
