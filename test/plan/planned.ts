/** Plans to test with: of corpus motifs, and of drawings made up in a test. */

import type { Plan } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup, type Setup } from '../../shared/setup.js';
import { studyOf } from '../../src/measure/index.js';
import { type PlanWanted, planQuilt } from '../../src/plan/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { motifIn } from '../checked.js';

export const wantedOf = (widthMm: number, heightMm: number, marginMm = 25.4): PlanWanted => ({
  quilt: { widthMm, heightMm, marginMm },
  resize: 0,
  runs: 'back-and-forth',
  choose: 1,
});

export async function planOf(name: string, wanted: PlanWanted, setup: Setup = defaultSetup): Promise<Plan> {
  const motif = await motifIn(new URL(`../../corpus/motifs/${name}.svg`, import.meta.url).pathname, setup);
  const { plan } = planQuilt(studyOf(motif, setup), `${name}.svg`, wanted);
  if (plan === null) throw new Error(`no plan for ${name}`);
  return plan;
}

export function planOfLine(line: Polyline, wanted: PlanWanted, setup: Setup = defaultSetup): Plan {
  const { plan, error } = planQuilt(studyOf(motifOf([line]), setup), 'line', wanted);
  if (plan === null) throw new Error(error.message);
  return plan;
}
