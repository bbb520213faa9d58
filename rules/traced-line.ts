import type { Point } from '../shared/plane.js';
import { rule } from '../shared/rule.js';

export default rule({
  id: 'traced-line',
  severity: 'warning',
  mend: null,
  limits: {},
  what: 'A line traced from a scan, drawn again with its pen, covers the ink and nothing else.',
  why: 'Where it does not, the line to be stitched is not the one that was drawn: a pass is missing, or two passes were taken for one.',
  remedy:
    'Compare the line with the pale scan beneath it in the picture. Draw the place anew with more paper between the passes, scan finer, or change --ink.',
  *judge({ motif: { scan } }, _limits, say) {
    if (!scan) return;
    const counted = (at: readonly Point[]) => ({
      at,
      measured: at.length,
      limit: 0,
      unit: 'count' as const,
    });
    const { uncovered, offInk } = scan;
    if (uncovered.length > 0)
      yield {
        ...counted(uncovered),
        message: `At ${say.count(uncovered.length, 'place')} ink of the scan lies more than a quarter of the pen's width beside the traced line. Compare the line with the scan there: a pass may be missing, or it is a blot.`,
      };
    if (offInk.length > 0)
      yield {
        ...counted(offInk),
        message: `At ${say.count(offInk.length, 'place')} the traced line runs where the scan has no ink. Compare the line with the scan there, and draw the place clearer.`,
      };
  },
});
