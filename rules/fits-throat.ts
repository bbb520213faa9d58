import { rule } from '../shared/rule.js';

export default rule({
  id: 'fits-throat',
  severity: 'error',
  mend: null,
  limits: {},
  what: 'The motif fits the usable depth of the throat.',
  why: 'A motif that is taller cannot be stitched in one pass of the row, and the head runs into its stops.',
  remedy:
    'Stitch it smaller with --height, and leave room for the take-up roll, which grows as the quilt is rolled on.',
  *judge({ setup, widthMm, heightMm }, _limits, say) {
    const { throatMm } = setup;
    if (throatMm === null || heightMm <= throatMm) return;
    yield {
      measured: heightMm,
      limit: throatMm,
      unit: 'mm',
      message: `The motif is ${say.beside(heightMm, throatMm)} tall, more than the usable depth of ${say.length(throatMm)}. The largest size that fits is ${say.size((widthMm * throatMm) / heightMm, throatMm)}: give it with --height.`,
    };
  },
});
