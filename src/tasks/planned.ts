import { rules } from '../../rules/index.js';
import type { Finding } from '../../shared/finding.js';
import type { Study } from '../../shared/study.js';
import { lint } from '../lint/index.js';
import { mends } from '../mend/index.js';
import { type Planned, type PlanWanted, planQuilt } from '../plan/index.js';

/** The plan of a quilt; a motif with errors of its own is not planned. `file` names it in sentences. */
export function planned(study: Study, file: string, wanted: PlanWanted): Planned {
  const flaw = flawOf(study, file);
  if (flaw === null) return planQuilt(study, file, wanted);
  return { plan: null, error: { message: flaw, row: null, largestHeightMm: null } };
}

/** The plan itself answers what these ask. */
const answered: readonly string[] = ['fits-throat', 'row-collision'];

/** What is wrong, and what puts it right. */
function flawOf(study: Study, file: string): string | null {
  const asked = rules.filter(({ id }) => !answered.includes(id));
  const error = lint(study, asked).find(({ severity }) => severity === 'error');
  return error ? `${file} is not planned: ${error.message}${remedyFor(error)}` : null;
}

/** Nothing where the finding itself names its mend. */
function remedyFor({ rule, mend, message }: Finding): string {
  if (/linewright mend/.test(message)) return '';
  if (mend === null) return ` ${rules.find(({ id }) => id === rule)?.remedy ?? ''}`;
  const isSafe = mends.find(({ name }) => name === mend)?.safe ?? false;
  return ` Let linewright mend ${isSafe ? '' : '--reshape '}put it right.`;
}
