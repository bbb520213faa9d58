import { limitsOf, rule } from '../shared/rule.js';
import type { Copy, Study } from '../shared/study.js';
import { worstOf } from '../shared/worst.js';

/** Less than this that has to stay is not worth a word: mm, and a share of all. */
const restMm = 1;
const restShare = 0.01;
/** A drawing with more copies is a heap of lines: so many tell enough. */
const mostCopies = 10_000;
const stays =
  'has to stay for the line to be one as it is drawn. To have less of it, let the pieces touch or cross in your drawing program, draw a dead end as a narrow loop, and where the line goes on, back and on again beside itself, leave out two of the three passes';

const repeatedLine = rule({
  id: 'repeated-line',
  severity: 'warning',
  mend: 'untrace',
  limits: { totalMm: 2, percentOfLength: 1, copyMm: 0.8 },
  what: 'No stretch of the line is stitched twice.',
  why: 'Thread stitched over thread shows as a heavy line, and the second pass never quite covers the first.',
  remedy:
    'Delete the copy in your drawing program. Mending drops exact copies; linewright mend --reshape leaves out copies drawn a little beside the line, and stretches stitched twice where the line stays in one piece.',
  unless: ['outlined-line'],
  *judge(study, { totalMm, percentOfLength, copyMm }, say) {
    const { duplicates, retraces, lengthMm } = study;
    const limit = Math.min(totalMm, (percentOfLength / 100) * lengthMm);
    const { places: beside, more } = study.copies(copyMm, mostCopies);
    if (beside.length > 0) {
      const besideMm = beside.reduce((sum, copy) => sum + copy.lengthMm, 0);
      const offMm = beside.reduce((most, copy) => Math.max(most, copy.offMm), 0);
      yield {
        at: worstOf(beside, ({ lengthMm }) => lengthMm).map(({ at }) => at),
        places: beside.length,
        measured: besideMm,
        limit,
        unit: 'mm',
        atLeast: more,
        message: `${more ? 'At least ' : ''}${say.count(beside.length, 'piece')} of the line ${beside.length === 1 ? 'runs' : 'run'} beside another all the way, ${more ? 'these ' : ''}no more than ${say.length(offMm)} off: ${more ? 'at least ' : ''}${say.length(besideMm)} would be stitched twice. Delete ${beside.length === 1 ? 'the copy' : 'the copies'} in your drawing program, or let linewright mend --reshape leave ${beside.length === 1 ? 'it' : 'them'} out.`,
      };
    }
    const copied = duplicates.reduce((sum, copy) => sum + copy.lengthMm, 0);
    if (copied + retraces.totalMm <= limit) return;
    if (copied > 0)
      yield {
        at: [...duplicates].sort((a, b) => b.lengthMm - a.lengthMm).map(({ at }) => at),
        measured: copied,
        limit,
        unit: 'mm',
        mend: 'drop',
        message: `${say.count(duplicates.length, 'piece')} of the line ${duplicates.length === 1 ? 'lies' : 'lie'} exactly on top of another, ${say.length(copied)} in all, and would be stitched twice. Mending drops ${duplicates.length === 1 ? 'the copy' : 'the copies'}.`,
      };
    if (retraces.totalMm === 0) return;
    const { spareMm } = study;
    const leaveOut = 'let linewright mend --reshape leave';
    const advice =
      spareMm === null
        ? `Delete what is drawn twice, or ${leaveOut} it out where the line stays in one piece.`
        : spareMm === 0
          ? `All of it ${stays}.`
          : retraces.totalMm - spareMm < Math.max(restMm, restShare * retraces.totalMm)
            ? `Delete what is drawn twice, or ${leaveOut} it out.`
            : `Delete what is drawn twice, or ${leaveOut} out ${say.length(spareMm)} of it; the rest ${stays}.`;
    yield {
      at: [...retraces.stretches].sort((a, b) => b.extraMm - a.extraMm).map(({ at }) => at),
      measured: retraces.totalMm,
      limit,
      unit: 'mm',
      atLeast: retraces.more,
      mend: spareMm === 0 ? null : 'untrace',
      message: `${retraces.more ? 'At least ' : ''}${say.length(retraces.totalMm)} of the line is stitched over again, in ${say.count(retraces.stretches.length, 'stretch')}. ${advice}`,
    };
  },
});

export default repeatedLine;

/** The strokes that run beside others all the way, as this rule is set. */
export function copiesBeside(study: Study): readonly Copy[] {
  return study.copies(limitsOf(repeatedLine, study.setup).copyMm, mostCopies).places;
}
