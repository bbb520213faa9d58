/** The plan of a quilt from what was typed, and the same in words and a picture. */
import type { Plan } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import { sayIn } from '../../shared/say.js';
import { planPicture } from '../picture/plan-picture.js';
import { passWords } from '../plan/pass-words.js';
import { choiceWords, settingWords, sumsInWords } from '../plan/plan-words.js';
import { parsePercent, parseSize } from '../setup/lengths.js';
import type { Brought } from '../tasks/motif-from.js';
import { planned } from '../tasks/planned.js';
import type { Choices } from './choices.js';
import { noPlan, type PlanSeen } from './questions.js';
import type { Worked } from './worked.js';

const usualResize = 0.1;
const picturePx = 1100;

/** What the person chose, as the command line would have it. */
export async function planOf(
  { file }: Brought,
  { study }: Worked,
  choices: Choices,
  finer: (share: number) => Promise<Worked>,
) {
  const { setup } = study;
  const [widthMm, heightMm] = parseSize(choices.quilt, setup.unit, 'The quilt');
  const isSized = setup.heightMm !== null || setup.widthMm !== null;
  const resize =
    choices.resize === '' ? (isSized ? 0 : usualResize) : parsePercent(choices.resize, 'The change of size');
  const fine = await finer(resize);
  const wanted = {
    quilt: { widthMm, heightMm, marginMm: setup.marginMm },
    resize,
    runs: choices.runs,
    choose: choices.choose,
  };
  return { ...planned(fine.study, file, wanted), motif: fine.motif };
}

export async function planSeen(
  file: Brought,
  worked: Worked,
  choices: Choices,
  finer: (share: number) => Promise<Worked>,
): Promise<PlanSeen> {
  try {
    const { plan, error } = await planOf(file, worked, choices, finer);
    if (plan === null) return { ...noPlan, error: error.message };
    return { ...inWords(plan, choices), error: error?.message ?? null };
  } catch (error) {
    if (error instanceof Refusal) return { ...noPlan, error: error.message };
    throw error;
  }
}

function inWords(plan: Plan, { unit }: Choices): Omit<PlanSeen, 'error'> {
  const say = sayIn(unit);
  return {
    picture: planPicture(plan, { widthPx: picturePx }),
    choices: plan.choices.map((choice) => choiceWords(choice, say)),
    chosen: plan.chosen,
    quilt: plan.quilt,
    spansMm: plan.passes.map(({ topMm, bottomMm }) => [topMm, bottomMm]),
    set: settingWords(plan, say),
    passes: plan.passes.map((pass) => passWords(pass, plan, say)),
    sums: sumsInWords(plan, say),
  };
}
