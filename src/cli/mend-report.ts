/** What `mend` says about one motif, for people to read: what it was, what was done, what is left. */
import type { Finding } from '../../shared/finding.js';
import { flagged } from '../../shared/flags.js';
import type { MendAccount, NotMended } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import { type Say, sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import { statusOf } from '../lint/report.js';
import { colourOf, findingText, labels, verdicts } from './check-report.js';
import type { Page } from './page.js';

/** Less is not worth telling, mm. */
const seenMm = 0.01;
/** A change of size that is told, mm. */
const sizeMm = 0.1;

export interface MendTold {
  readonly file: string;
  /** Of the mended motif. */
  readonly study: Study;
  readonly original: Motif;
  readonly before: readonly Finding[];
  readonly findings: readonly Finding[];
  readonly accounts: readonly MendAccount[];
  readonly notMended: readonly NotMended[];
  readonly written: readonly string[];
}

export function mendReport(told: MendTold, page: Page): string {
  const { file, study, original, before, findings, accounts, notMended, written } = told;
  const { paint, plain, wrap } = page;
  const say = sayIn(study.setup.unit);
  const [was, is] = [statusOf(before), statusOf(findings)];
  const colour = colourOf(is, page);
  return [
    `${paint.bold(plain(file))}: ${verdicts[was]} before, ${colour(verdicts[is])} now`,
    ...before.map(({ severity, rule }) => `  before: ${labels[severity]} ${rule}`),
    ...accounts.map((account) => wrap(accountText(account, say, page), '  ', '    ')),
    ...(accounts.length + notMended.length === 0 ? ['  Nothing to mend.'] : []),
    ...notMended.map(({ mend, message }) =>
      wrap(`${paint.bold(mend)}: left as it is. ${message}`, '  ', '    '),
    ),
    ...sizeText(original, study.motif, say).map((text) => wrap(text, '  ', '    ')),
    ...flagged(findings).map((each) => findingText(each, say, page)),
    wrap(`Written: ${written.map(plain).join(', ')}`, '  ', '    '),
  ].join('\n');
}

/** Where the size changed to the eye, the old and the new. */
function sizeText(was: Motif, is: Motif, say: Say): string[] {
  const changed = Math.max(Math.abs(was.widthMm - is.widthMm), Math.abs(was.heightMm - is.heightMm));
  if (changed < sizeMm) return [];
  return [
    `It is now ${say.length(is.widthMm)} wide and ${say.length(is.heightMm)} high; it was ${say.length(was.widthMm)} by ${say.length(was.heightMm)}.`,
  ];
}

function accountText({ mend, message, addedMm, movedMm }: MendAccount, say: Say, { paint }: Page): string {
  const parts = [
    ...(Math.abs(addedMm) >= seenMm
      ? [`${say.length(addedMm)} of line ${addedMm < 0 ? 'less' : 'more'}`]
      : []),
    // Turning moves the whole of it, or nothing, as its message says.
    ...(mend === 'turn'
      ? []
      : [movedMm >= seenMm ? `nothing moved by more than ${say.length(movedMm)}` : 'nothing moved']),
  ];
  return `${paint.bold(mend)}: ${message}${parts.length > 0 ? ` (${parts.join(', ')})` : ''}`;
}
