import { chosenRows } from '../shared/rows.js';
import { rule } from '../shared/rule.js';

export default rule({
  id: 'open-area',
  severity: 'warning',
  mend: null,
  limits: {},
  what: 'No circle without stitching is larger than the batting allows.',
  why: 'The batting label limits how far apart the quilting lines may be: beyond it the batting shifts and lumps in use and in the wash.',
  remedy: 'Set the rows closer, stitch the motif smaller, or choose a batting whose label allows more.',
  *judge(study, _limits, say) {
    const { motif, setup, widthMm, heightMm } = study;
    const { battingMm } = setup;
    if (battingMm === null) return;
    const { layout, spacingMm } = chosenRows(motif, setup);
    const rows = spacingMm === null ? study.nesting(layout).even : study.rowsAt(layout, spacingMm);
    const measured = rows.largestOpenMm;
    if (measured <= battingMm) return;
    const isSeam = rows.seam?.diameterMm === measured;
    const circle = isSeam ? rows.seam : rows.inner;
    const { even, clearanceMm } = study.nesting(layout);
    // The circle shrinks with the motif, but the clearance in it does not.
    const share = (battingMm - clearanceMm) / (measured - clearanceMm);
    const smaller = share > 0 ? `, at about ${say.size(widthMm * share, heightMm * share)}` : '';
    const remedy =
      even.largestOpenMm <= battingMm
        ? `Set them ${say.spacing(even.spacingMm)} apart: there it is ${say.length(even.largestOpenMm)}.`
        : `Stitch the motif smaller${smaller}, with its rows as much closer, or choose another layout.`;
    yield {
      at: circle ? [circle.centre] : [],
      measured,
      limit: battingMm,
      unit: 'mm',
      message:
        `With ${layout} rows ${say.length(rows.spacingMm)} apart, a circle of ${say.beside(measured, battingMm)} ${isSeam ? 'between two rows' : 'inside the motif'} holds no stitching; the batting allows ${say.length(battingMm)}. ` +
        remedy,
    };
  },
});
