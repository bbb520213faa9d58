import { grouped } from '../shared/grouped.js';
import { rule } from '../shared/rule.js';

export default rule({
  id: 'broken-path',
  severity: 'error',
  mend: null,
  limits: {},
  what: 'The data of every line can be read to its end.',
  why: 'Where the data breaks off, the rest of the line is lost, and the motif is not what its designer drew.',
  remedy: 'Save the drawing again in the program that made it, or download it again: the file is damaged.',
  *judge({ motif }, _limits, say) {
    for (const { kind, what, count, places, fileLine, offset } of motif.notes) {
      if (kind !== 'broken-path') continue;
      const line = fileLine === undefined ? '' : `, on line ${grouped(fileLine)} of the file`;
      const others =
        count > 1 ? `, and so ${count > 2 ? 'do' : 'does'} ${say.count(count - 1, 'other like it')}` : '';
      if (offset === undefined) {
        const many = count > 1;
        yield {
          at: places,
          message: `The file is damaged or cut short: ${say.count(count, what)} could not be read and ${many ? 'were' : 'was'} left out${many && line !== '' ? `, the first ${line.slice(2)}` : line}. Check the picture, and save the drawing again or get the file anew.`,
        };
        continue;
      }
      yield {
        at: places,
        measured: offset,
        unit: 'count',
        message: `The ${what} breaks off at character ${grouped(offset)} of its data${line}${others}. It was read up to there: check the picture, and save the drawing again or get the file anew.`,
      };
    }
  },
});
