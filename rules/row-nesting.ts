import { chosenRows } from '../shared/rows.js';
import { rule } from '../shared/rule.js';

export default rule({
  id: 'row-nesting',
  severity: 'warning',
  mend: null,
  limits: { percent: 125 },
  what: 'Rows set apart by the height of the motif are quilted about as evenly as they can be.',
  why: 'Otherwise a band without stitching shows between the rows, all across the quilt.',
  remedy: 'Set the rows closer, at the spacing that `linewright rows` gives, so that they nest.',
  unless: ['outlined-line'],
  *judge(study, { percent }, say) {
    const { motif, setup, heightMm } = study;
    const { layout } = chosenRows(motif, setup);
    if (heightMm === 0) return;
    const { closestSpacingMm, evenSpacingMm, nestingOffsetMm, clearanceMm, even } = study.nesting(layout);
    const stacked = study.rowsAt(layout, heightMm);
    const measured = (100 * stacked.unevenness) / even.unevenness;
    if (!(measured > percent && measured < Infinity)) return;
    const nests = nestingOffsetMm < 0 ? 'still stand apart by' : 'then nest by';
    yield {
      measured,
      limit: percent,
      unit: 'percent',
      message:
        `Set apart by the motif's height, ${say.length(heightMm)}, ${layout} rows leave a band open: circles of ${say.length(stacked.largestOpenMm)} hold no stitching. ` +
        `Set them ${say.spacing(evenSpacingMm)} apart instead: they ${nests} ${say.length(nestingOffsetMm)}. ` +
        `The closest for a clearance of ${say.length(clearanceMm)} is ${say.spacing(closestSpacingMm)}.`,
    };
  },
});
