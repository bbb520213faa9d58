import { rules } from '../../rules/index.js';
import type { Study } from '../../shared/study.js';
import { lint } from '../lint/index.js';
import { type Planned, type PlanWanted, planQuilt } from '../plan/index.js';

/** The plan itself answers what these ask. */
const answered: readonly string[] = ['fits-throat', 'row-collision'];

/** The plan of a quilt; a motif with errors of its own is not planned. `file` names it in sentences. */
export function planned(study: Study, file: string, wanted: PlanWanted): Planned {
  const asked = rules.filter(({ id }) => !answered.includes(id));
  const error = lint(study, asked).find(({ severity }) => severity === 'error');
  if (!error) return planQuilt(study, file, wanted);
  const message = `${file} is not planned: ${error.message}`;
  return { plan: null, error: { message, row: null, largestHeightMm: null } };
}
