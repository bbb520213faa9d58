import { rule } from '../shared/rule.js';

export default rule({
  id: 'repeated-line',
  severity: 'warning',
  mend: 'untrace',
  limits: { totalMm: 2, percentOfLength: 1 },
  what: 'No stretch of the line is stitched twice.',
  why: 'Thread stitched over thread shows as a heavy line, and the second pass never quite covers the first.',
  remedy:
    'Delete the copy in your drawing program. Mending drops exact copies; linewright mend --reshape leaves out stretches stitched twice where the line stays in one piece.',
  unless: ['outlined-line'],
  *judge({ duplicates, retraces, lengthMm }, { totalMm, percentOfLength }, say) {
    const limit = Math.min(totalMm, (percentOfLength / 100) * lengthMm);
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
    if (retraces.totalMm > 0)
      yield {
        at: [...retraces.stretches].sort((a, b) => b.extraMm - a.extraMm).map(({ at }) => at),
        measured: retraces.totalMm,
        limit,
        unit: 'mm',
        message: `${say.length(retraces.totalMm)} of the line is stitched over again, in ${say.count(retraces.stretches.length, 'stretch', 'stretches')}. Delete what is drawn twice, or let linewright mend --reshape leave it out where the line stays in one piece.`,
      };
  },
});
