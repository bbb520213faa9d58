/** Which rows are put on paper: those asked for, else those stored with the motif, else the recommended ones. */
import { type Layout, layouts } from '../../shared/layout.js';
import type { Study } from '../../shared/study.js';
import { recommend } from '../rows/index.js';

export interface PaperRows {
  readonly layout: Layout;
  readonly spacingMm: number;
  readonly spacingFrom: 'asked for' | 'stored with the motif' | 'the even spacing';
}

export function paperRows(study: Study): PaperRows {
  const { setup, motif } = study;
  const layout = setup.layout ?? motif.rows?.layout ?? recommended(study);
  if (setup.spacingMm !== null) return { layout, spacingMm: setup.spacingMm, spacingFrom: 'asked for' };
  if (motif.rows?.layout === layout)
    return { layout, spacingMm: motif.rows.spacing, spacingFrom: 'stored with the motif' };
  return { layout, spacingMm: study.nesting(layout).evenSpacingMm, spacingFrom: 'the even spacing' };
}

function recommended(study: Study): Layout {
  return recommend(
    layouts.map((layout) => study.nesting(layout)),
    study.setup.battingMm,
  );
}
