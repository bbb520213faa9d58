import { rule } from '../shared/rule.js';

export default rule({
  id: 'outlined-line',
  severity: 'error',
  mend: null,
  limits: {},
  what: 'The line runs down the middle of what you see, not round its edge.',
  why: 'A line drawn as the outline of a pen stroke is stitched twice, side by side, and comes back to where it began.',
  remedy:
    'Draw the motif as a plain line in your drawing program; undo "outline stroke" or "stroke to path", or ask the designer for the line itself.',
  *judge({ outline }, _limits, say) {
    if (!outline) return;
    yield {
      at: [outline.at],
      measured: outline.penMm,
      unit: 'mm',
      message: `The motif is drawn as the outline of a pen stroke ${say.length(outline.penMm)} wide: it would be stitched twice, side by side. Redraw it as a plain line down the middle, or ask the designer for one.`,
    };
  },
});
