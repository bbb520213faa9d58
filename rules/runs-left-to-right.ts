import { rule } from '../shared/rule.js';

export default rule({
  id: 'runs-left-to-right',
  severity: 'info',
  mend: 'turn',
  limits: {},
  what: 'The line starts on the left.',
  why: 'Rows are mostly stitched from left to right; a motif that runs the other way is turned round first.',
  remedy:
    'Reverse the line in your drawing program, or let linewright mend do it: what is stitched stays the same.',
  unless: ['outlined-line'],
  *judge({ runsLeft, isOneStroke, start }) {
    if (!isOneStroke || !runsLeft) return;
    yield {
      at: [start.at],
      message:
        'The line starts on the right and runs to the left. Mending reverses it; the stitched line stays the same.',
    };
  },
});
