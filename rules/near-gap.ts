import { grouped } from '../shared/grouped.js';
import { joinShareOfStroke } from '../shared/mend.js';
import { rule } from '../shared/rule.js';
import { type Break, coincideMm } from '../shared/study.js';
import { worstOf } from '../shared/worst.js';

export default rule({
  id: 'near-gap',
  severity: 'error',
  mend: 'join',
  limits: {},
  what: 'Ends that look joined are joined.',
  why: 'The eye does not see a hair-wide gap, but the machine stops at it, cuts or drags the thread, and starts again.',
  remedy:
    'Mending joins such ends. Where a gap is wide for the small shape beside it, close it in your drawing program.',
  unless: ['outlined-line'],
  *judge({ breaks, setup }, _limits, say) {
    const near = breaks.filter(({ gapMm }) => gapMm <= setup.joinToleranceMm);
    const worst = (gaps: readonly Break[]) => worstOf(gaps, ({ gapMm }) => gapMm);
    const verdict = (gaps: readonly Break[]) => ({
      at: worst(gaps).map(({ at }) => at),
      places: gaps.length,
      measured: worst(gaps)[0].gapMm,
      limit: coincideMm,
      unit: 'mm' as const,
    });
    const found = (gaps: readonly Break[]) =>
      gaps.length === 1
        ? `Two ends look joined but lie ${say.length(gaps[0].gapMm)} apart.`
        : `At ${grouped(gaps.length)} places ends look joined but lie up to ${say.length(worst(gaps)[0].gapMm)} apart.`;

    const joinable = near.filter(({ gapMm, shorterMm }) => gapMm <= joinShareOfStroke * shorterMm);
    if (joinable.length > 0)
      yield {
        ...verdict(joinable),
        message: `${found(joinable)} The machine would stop there: let linewright mend join them.`,
      };

    const small = near.filter(({ gapMm, shorterMm }) => gapMm > joinShareOfStroke * shorterMm);
    if (small.length > 0)
      yield {
        ...verdict(small),
        mend: null,
        message: `${found(small)} They cannot be joined by themselves: that would swallow the small shape beside them, only ${say.length(worst(small)[0].shorterMm)} long. Join them in your drawing program, or make the motif larger.`,
      };
  },
});
