/** Everything a sheet tells of a motif, gathered from study, findings and rows. */
import type { Finding } from '../../shared/finding.js';
import { layouts } from '../../shared/layout.js';
import type { MendAccount } from '../../shared/mend.js';
import { sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import { requireStitchable } from '../measure/index.js';
import { motifPicture, rowsPicture, rowsToShow } from '../picture/index.js';
import {
  adviceOn,
  battingWords,
  howItLies,
  judgedRows,
  judgementWords,
  recommend,
  throatWords,
} from '../rows/index.js';
import type { SheetContent } from './sheet.js';

export function sheetContent(
  study: Study,
  findings: readonly Finding[],
  accounts: readonly Pick<MendAccount, 'message'>[],
): SheetContent {
  requireStitchable(study);
  const { motif, setup } = study;
  const nestings = layouts.map((layout) => study.nesting(layout));
  const recommended = recommend(nestings, setup.battingMm);
  const chosen = nestings.find(({ layout }) => layout === recommended)!;
  const say = sayIn(setup.unit);
  const shown = rowsToShow(study, recommended);
  const judged = judgedRows(study, shown.layout);
  return {
    study,
    findings,
    nestings,
    recommended,
    shown,
    advice: [
      ...(judged ? [judgementWords(judged, setup.battingMm, say)] : []),
      adviceOn(chosen, setup.battingMm, say),
      ...battingWords(study, shown.layout, say),
      ...throatWords(study, shown.rows.spacingMm, say),
      ...howItLies(study, say),
    ].join(' '),
    motifPicture: motifPicture(motif, { widthPx: 720, findings, withScan: true }),
    rowsPicture: rowsPicture(study, shown, { widthPx: 720 }),
    mended: accounts.map(({ message }) => message),
  };
}
