import { rule } from '../shared/rule.js';

export default rule({
  id: 'no-namespace',
  severity: 'info',
  mend: null,
  limits: {},
  what: 'The file names itself an SVG drawing the way the standard asks.',
  why: 'It is read here all the same, but other programs may refuse the file or show it as text.',
  remedy: 'Use the SVG that Linewright writes, or save the drawing again in your drawing program.',
  *judge({ motif }) {
    if (!motif.notes.some(({ kind }) => kind === 'no-namespace')) return;
    yield {
      message:
        'The file leaves out the line that marks it as an SVG drawing. It was read all the same, but other programs may ' +
        'refuse it: use the SVG written by linewright convert instead.',
    };
  },
});
