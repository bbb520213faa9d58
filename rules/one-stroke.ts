import { rule } from '../shared/rule.js';
import type { Say } from '../shared/say.js';
import type { Study } from '../shared/study.js';
import { worstOf } from '../shared/worst.js';

/** Lines are as far apart as their ends where it is less than this, mm. */
const sameMm = 0.1;

/** How the pieces lie: that their ends are far apart does not mean that the lines are. */
function lie({ partGapsMm, setup }: Study, gapMm: number, count: number, say: Say): string {
  const upTo = count === 1 ? '' : 'up to ';
  const gaps = `, with ${count === 1 ? 'a gap' : 'gaps'} of ${upTo}${say.length(gapMm)} between them`;
  const ends = `their nearest ends are ${upTo}${say.length(gapMm)} from each other`;
  if (partGapsMm === null) return `: ${ends}`;
  const apart = partGapsMm.filter((mm) => mm > setup.joinToleranceMm);
  if (apart.length === 0) return ` that touch or cross but do not follow on: ${ends}`;
  const groups = `lie ${apart.length === 1 ? '' : 'up to '}${say.length(apart[0])} apart`;
  if (apart.length < count)
    return `: some touch or cross but do not follow on, and what does not touch is in ${apart.length + 1} groups that ${groups}; ${ends}`;
  return gapMm - apart[0] < sameMm ? gaps : ` that ${groups}: ${ends}`;
}

export default rule({
  id: 'one-stroke',
  severity: 'error',
  mend: 'route',
  limits: {},
  what: 'The motif is one unbroken line.',
  why: 'At every break the machine stops, ties off, moves and starts again, in each repeat of each row.',
  remedy:
    'Join the pieces in your drawing program where they should meet, or let linewright mend --reshape find one line through them all.',
  unless: ['outlined-line'],
  *judge(study, _limits, say) {
    const { breaks, setup } = study;
    const wide = breaks.filter(({ gapMm }) => gapMm > setup.joinToleranceMm);
    if (wide.length === 0) return;
    const worst = worstOf(wide, ({ gapMm }) => gapMm);
    yield {
      // Where the machine stops and where it starts again: on the line, not in the middle of the gap.
      at: worst.flatMap(({ from, to }) => [from, to]),
      places: 2 * wide.length,
      measured: worst[0].gapMm,
      limit: setup.joinToleranceMm,
      unit: 'mm',
      message: `The line is in ${say.count(wide.length + 1, 'piece')}${lie(study, worst[0].gapMm, wide.length, say)}. The machine would stop at each. Join them in your drawing program, or let linewright mend --reshape find one line through them.`,
    };
  },
});
