import { rule } from '../shared/rule.js';

export default rule({
  id: 'physical-size',
  severity: 'warning',
  mend: null,
  limits: {},
  what: 'The file says how large the motif is.',
  why: 'A file without a real size can come out a third too small or too large, and the motif no longer fits the rows planned for it.',
  remedy:
    'Give the size with --height or --width, or save the drawing with its page size in inches or millimetres.',
  // Dots and all, since that is what --height and --width size.
  *judge({ motif: { assumedSize, assumedScale: scale, widthMm, heightMm } }, _limits, say) {
    if (!assumedSize) return;
    const size = (times: number) => say.size(widthMm * times, heightMm * times);
    const taken = scale
      ? `The file does not say how large the motif is. At ${scale.taken}, as taken here, it is ${size(1)}; ` +
        `at ${scale.other} it would be ${size(scale.timesAsLarge)}.`
      : `The drawing that the motif was made from does not say how large it is: ${size(1)} is only assumed.`;
    yield { message: `${taken} Give its size with --height or --width.` };
  },
});
