import { chosenRows, keepsClear } from '../shared/rows.js';
import { rule } from '../shared/rule.js';

export default rule({
  id: 'row-collision',
  severity: 'error',
  mend: null,
  limits: {},
  what: 'At the row spacing asked for, or stored with the motif, neighbouring rows keep the clearance.',
  why: 'Rows that cross or nearly touch pile up thread, and the eye is drawn to every such place.',
  remedy:
    'Set the rows farther apart, or choose another layout; `linewright rows` gives the closest spacing of each.',
  *judge(study, _limits, say) {
    const { layout, spacingMm, clearanceMm } = chosenRows(study.motif, study.setup);
    if (spacingMm === null) return;
    const { leastMm, at } = study.rowDistance(layout, spacingMm);
    if (keepsClear(leastMm, clearanceMm)) return;
    const happens =
      leastMm === 0 ? 'cross' : `come as near to each other as ${say.beside(leastMm, clearanceMm)}`;
    const { closestSpacingMm, clearanceMm: told } = study.nesting(layout);
    yield {
      at: [at],
      measured: leastMm,
      limit: clearanceMm,
      unit: 'mm',
      message:
        `Set ${say.length(spacingMm)} apart, ${layout} rows ${happens}; the clearance is ${say.length(clearanceMm)}. ` +
        `Set them ${say.spacing(closestSpacingMm)} apart or more${told === clearanceMm ? '' : ` for a clearance of ${say.length(told)}`}.`,
    };
  },
});
