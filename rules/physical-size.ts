import { rule } from '../shared/rule.js';

/** The other scale in use where a file states no size: 72 units to the inch against the 96 that were taken. */
const at72 = 96 / 72;

export default rule({
  id: 'physical-size',
  severity: 'warning',
  mend: null,
  limits: {},
  what: 'The file says how large the motif is.',
  why: 'A file without a real size can come out a third too small or too large, and the motif no longer fits the rows planned for it.',
  remedy:
    'Give the size with --height or --width, or save the drawing with its page size in inches or millimetres.',
  *judge({ motif, widthMm, heightMm }, _limits, say) {
    if (!motif.assumedSize) return;
    yield {
      message:
        `The file does not say how large the motif is. At 96 units to the inch, as taken here, it is ` +
        `${say.size(widthMm, heightMm)}; at 72 it would be ${say.size(widthMm * at72, heightMm * at72)}. ` +
        `Give its size with --height or --width.`,
    };
  },
});
