import { grouped } from '../shared/grouped.js';
import { rule } from '../shared/rule.js';

export default rule({
  id: 'hidden-artwork',
  severity: 'info',
  mend: null,
  limits: {},
  what: 'Every line of the file can be seen.',
  why: 'Hidden lines are left out, and so are lines not asked for by layer, colour or dash. If one of them belongs to the motif, the motif is not whole.',
  remedy:
    'Show the hidden layers in your drawing program: delete what is not needed, and give the rest a line colour.',
  *judge({ motif }, _limits, say) {
    const unchosen = motif.notes.filter(({ kind }) => kind === 'unchosen');
    if (unchosen.length > 0) {
      const count = unchosen.reduce((sum, note) => sum + note.count, 0);
      yield {
        at: unchosen.flatMap(({ places }) => places),
        measured: count,
        limit: 0,
        unit: 'count',
        message: `${say.count(count, 'line')} left out as asked (${say.list(unchosen.map((note) => `${grouped(note.count)} ${note.what}`))}).`,
      };
    }
    const hidden = motif.notes.filter(({ kind }) => kind === 'hidden');
    if (hidden.length === 0) return;
    const count = hidden.reduce((sum, note) => sum + note.count, 0);
    const how = say.list(hidden.map((note) => `${grouped(note.count)} ${note.what}`));
    yield {
      at: hidden.flatMap(({ places }) => places),
      measured: count,
      limit: 0,
      unit: 'count',
      message: `The file hides ${say.count(count, 'line')}, left out here (${how}). If the motif looks whole on the picture, all is well.`,
    };
  },
});
