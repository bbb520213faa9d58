/**
 * Untrace: what is stitched twice without need is stitched once: strokes drawn a little beside others, whole, and of
 * one line the stretches that it can do without (`spare.ts` finds them).
 */
import repeatedLine from '../../rules/repeated-line.js';
import type { Mend, MendOutcome } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import { limitsOf } from '../../shared/rule.js';
import { sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import type { Copy } from '../../shared/study.js';
import { joinedStrokes } from '../measure/ends/strokes.js';
import { studyOf } from '../measure/index.js';
import { networkOf } from '../network/network.js';
import { leastSpareMm, spareOf } from '../route/spare.js';
import { outcome } from './outcome.js';

export const untrace: Mend = {
  name: 'untrace',
  safe: false,
  what: 'Leaves out stretches that are stitched twice, where the line stays in one piece without them.',
  apply(motif, setup) {
    const copies = copiesLeftOut(motif, setup);
    if (copies) return copies;
    const { strokes } = joinedStrokes(motif.strokes);
    if (strokes.length !== 1) return null;
    const { retraces } = studyOf(motif, setup);
    if (retraces.totalMm < leastSpareMm) return null;
    const spare = spareOf(strokes[0].line, networkOf([strokes[0].line], setup.limits.crossings));
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

/** Strokes that run beside others all the way; none in the outline of a pen, whose two sides do so, too. */
export function copiesIn(motif: Motif, setup: Setup): readonly Copy[] {
  const study = studyOf(motif, setup);
  const { places } = study.copies(limitsOf(repeatedLine, setup).copyMm, Infinity);
  return places.length === 0 || study.outline !== null ? [] : places;
}

function copiesLeftOut(motif: Motif, setup: Setup): MendOutcome | null {
  const copies = copiesIn(motif, setup);
  if (copies.length === 0) return null;
  const out = new Set(copies.map(({ stroke }) => stroke));
  const say = sayIn(setup.unit);
  const offMm = copies.reduce((most, copy) => Math.max(most, copy.offMm), 0);
  return outcome(
    motif,
    motif.strokes.filter((_, k) => !out.has(k)),
    {
      mend: 'untrace',
      places: copies.map(({ at }) => at),
      addedMm: -copies.reduce((sum, { lengthMm }) => sum + lengthMm, 0),
      movedMm: offMm,
      message: `Left out ${say.count(copies.length, 'copy')} drawn up to ${say.length(offMm)} beside the line.`,
      added: [],
    },
  );
}
