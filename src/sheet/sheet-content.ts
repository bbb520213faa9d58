/** Everything a sheet tells of a motif, gathered from study, findings and rows. */
import type { Finding } from '../../shared/finding.js';
import { layouts } from '../../shared/layout.js';
import type { MendAccount } from '../../shared/mend.js';
import { sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import { motifPicture, rowsPicture } from '../picture/index.js';
import { adviceOn, howItLies, recommend } from '../rows/index.js';
import type { SheetContent } from './sheet.js';

export function sheetContent(
  study: Study,
  findings: readonly Finding[],
  accounts: readonly MendAccount[],
): SheetContent {
  const { motif, setup } = study;
  const nestings = layouts.map((layout) => study.nesting(layout));
  const recommended = recommend(nestings, setup.battingMm);
  const chosen = nestings.find(({ layout }) => layout === recommended)!;
  const say = sayIn(setup.unit);
  return {
    study,
    findings,
    nestings,
    recommended,
    advice: [adviceOn(chosen, setup.battingMm, say), ...howItLies(study, say)].join(' '),
    motifPicture: motifPicture(motif, { widthPx: 720, findings }),
    rowsPicture: rowsPicture(study, recommended, chosen.even, { widthPx: 720 }),
    mended: accounts.map(({ message }) => message),
  };
}
