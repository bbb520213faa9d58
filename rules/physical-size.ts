import type { AssumedScale } from '../shared/artwork.js';
import { rule } from '../shared/rule.js';

/** Of a file without any unit: 96 to the inch are taken, 72 are the other scale in use. */
const bareUnits: AssumedScale = { taken: '96 units to the inch', other: '72', timesAsLarge: 96 / 72 };

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
    const { taken, other, timesAsLarge } = motif.assumedScale ?? bareUnits;
    const size = (times: number) => say.size(widthMm * times, heightMm * times);
    yield {
      message:
        `The file does not say how large the motif is. At ${taken}, as taken here, it is ${size(1)}; ` +
        `at ${other} it would be ${size(timesAsLarge)}. Give its size with --height or --width.`,
    };
  },
});
