import { rule } from '../shared/rule.js';

export default rule({
  id: 'outlined-line',
  severity: 'error',
  mend: 'centre',
  limits: {},
  what: 'The line runs down the middle of what you see, not round its edge.',
  why: 'A line drawn as the outline of a pen stroke is stitched twice, side by side, and comes back to where it began.',
  remedy:
    'Let `mend --reshape` put the line in the middle; or undo "outline stroke" or "stroke to path" in your drawing program.',
  *judge({ outline }, _limits, say) {
    if (!outline) return;
    yield {
      at: [outline.at],
      measured: outline.penMm,
      unit: 'mm',
      message: `The motif is drawn as the outline of a pen stroke ${say.length(outline.penMm)} wide: it would be stitched twice, side by side. Let linewright mend --reshape put the line in the middle.`,
    };
  },
});
