import { rule } from '../shared/rule.js';

export default rule({
  id: 'thread-pile',
  severity: 'warning',
  mend: null,
  limits: { passes: 4 },
  what: 'No more than a few passes of the line run through one place.',
  why: 'Thread piles up into a hard lump there, and the needle may break or the thread shred.',
  remedy: 'Let fewer passes meet in one place: move some of them apart by a stitch.',
  unless: ['outlined-line'],
  *judge(study, { passes }, say) {
    if (study.lump !== null) {
      yield {
        at: [study.lump.at],
        measured: study.lump.passes,
        limit: passes,
        unit: 'count',
        severity: 'error',
        message: `The line runs ${say.count(study.lump.passes, 'time')} through one place: that cannot be stitched. Take out in your drawing program what was drawn again and again; what else is wrong there is not looked for.`,
      };
      return;
    }
    const { places: piles, more } = study.piles(passes);
    if (piles.length === 0) return;
    yield {
      at: piles.map(({ at }) => at),
      measured: piles[0].passes,
      limit: passes,
      unit: 'count',
      atLeast: more,
      message: `The line runs ${more ? 'at least ' : ''}${say.count(piles[0].passes, 'time')} through one place${piles.length > 1 ? `, and ${passes} times or more through ${say.count(piles.length - 1, 'other')}` : ''}, where thread would pile up. Move the passes apart by a stitch or so.`,
    };
  },
});
