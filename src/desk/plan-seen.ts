/** The plan of a quilt from what was typed, and the same in words and a picture. */
import type { Plan } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import { sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { planPicture } from '../picture/plan-picture.js';
import { passWords } from '../plan/pass-words.js';
import { planJson } from '../plan/plan-json.js';
import { choiceWords, noThroatWords, settingWords, sumsInWords, tooOpenWords } from '../plan/plan-words.js';
import { readPlan } from '../plan/read-plan.js';
import { parsePercent, parseSize } from '../setup/lengths.js';
import { assumedSizeWords } from '../tasks/assumed-size.js';
import { planned } from '../tasks/planned.js';
import { noPlan, type PlanSeen } from './questions.js';
import type { Worked } from './worked.js';

const usualResize = 0.1;
const picturePx = 1100;

/** What the person chose, as the command line would have it. */
export async function planOf({ file: { file }, study, choices, finer }: Worked) {
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

export async function planSeen(worked: Worked): Promise<PlanSeen> {
  const { study } = worked;
  const assumedSize = assumedSizeWords(study);
  try {
    const { plan, error } = await planOf(worked);
    if (plan === null) return { ...noPlan, assumedSize, error: error.message };
    return { ...inWords(plan, study.setup), assumedSize, error: error?.message ?? null };
  } catch (error) {
    if (error instanceof Refusal) return { ...noPlan, error: error.message };
    throw error;
  }
}

/**
 * A pass of the plan, read back from the text of its file, so that it is rounded as that is.
 *
 * @throws Refusal where there is no plan, or no such pass
 */
export async function passAsSaved(worked: Worked, number: number) {
  const { plan: made, error } = await planOf(worked);
  if (made === null) throw new Refusal(error.message);
  const bytes = new TextEncoder().encode(planJson(made, { asFile: true }));
  const plan = readPlan(bytes, 'The plan', worked.study.setup.stitchesPerInch);
  const pass = plan.passes.find((each) => each.pass === number);
  if (!pass) throw new Refusal(`The plan has ${plan.passes.length} passes; there is no pass ${number}.`);
  return { plan, pass };
}

function inWords(plan: Plan, setup: Setup): Omit<PlanSeen, 'error' | 'assumedSize'> {
  const say = sayIn(setup.unit);
  return {
    picture: planPicture(plan, { widthPx: picturePx }),
    choices: plan.choices.map((choice) => choiceWords(choice, say)),
    chosen: plan.chosen,
    quilt: plan.quilt,
    spansMm: plan.passes.map(({ topMm, bottomMm }) => [topMm, bottomMm]),
    set: settingWords(plan, say),
    open: tooOpenWords(plan, setup, say),
    noThroat: noThroatWords(plan, setup),
    passes: plan.passes.map((pass) => passWords(pass, plan, say)),
    sums: sumsInWords(plan, say),
  };
}
