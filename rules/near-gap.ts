import { grouped } from '../shared/grouped.js';
import { joinShareOfStroke } from '../shared/mend.js';
import { rule } from '../shared/rule.js';
import { type Break, coincideMm } from '../shared/study.js';
import { worstOf } from '../shared/worst.js';
import { copiesBeside } from './repeated-line.js';

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
  *judge(study, _limits, say) {
    const { breaks, setup, motif } = study;
    const open = breaks.filter(({ gapMm }) => gapMm <= setup.joinToleranceMm);
    if (open.length === 0) return;
    // Where a piece is drawn again beside itself both its ends lie by the copy's: joined, the line would turn back there.
    const key = (x: number, y: number) => `${x} ${y}`;
    const copied = new Set(
      copiesBeside(study).flatMap(({ stroke }) => {
        const line = motif.strokes[stroke];
        return [key(line[0], line[1]), key(line[line.length - 2], line[line.length - 1])];
      }),
    );
    const isBeside = ({ from, to }: Break) => copied.has(key(from.x, from.y)) || copied.has(key(to.x, to.y));
    const near = open.filter((gap) => !isBeside(gap));
    const told = (gaps: readonly Break[]) => {
      const worst = worstOf(gaps, ({ gapMm }) => gapMm);
      const [{ gapMm, shorterMm }] = worst;
      const found =
        gaps.length === 1
          ? `Two ends look joined but lie ${say.length(gapMm)} apart.`
          : `At ${grouped(gaps.length)} places ends look joined but lie up to ${say.length(gapMm)} apart.`;
      const verdict = {
        at: worst.map(({ at }) => at),
        places: gaps.length,
        measured: gapMm,
        limit: coincideMm,
        unit: 'mm' as const,
      };
      return { verdict, found, shorterMm };
    };

    const joinable = near.filter(({ gapMm, shorterMm }) => gapMm <= joinShareOfStroke * shorterMm);
    if (joinable.length > 0) {
      const { verdict, found } = told(joinable);
      yield {
        ...verdict,
        message: `${found} The machine would stop there: let linewright mend join them.`,
      };
    }

    const beside = open.filter(isBeside);
    if (beside.length > 0) {
      const { verdict, found } = told(beside);
      yield {
        ...verdict,
        mend: 'untrace',
        message: `${found} One belongs to a copy drawn beside the line, and joined to it the line would turn back: leave the copy out first, or let linewright mend --reshape leave it out.`,
      };
    }

    const small = near.filter(({ gapMm, shorterMm }) => gapMm > joinShareOfStroke * shorterMm);
    if (small.length > 0) {
      const { verdict, found, shorterMm } = told(small);
      yield {
        ...verdict,
        mend: null,
        message: `${found} They cannot be joined by themselves: that would swallow the small shape beside them, only ${say.length(shorterMm)} long. Join them in your drawing program, or make the motif larger.`,
      };
    }
  },
});
