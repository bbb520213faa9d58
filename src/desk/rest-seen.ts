/** Going on after a break: the rest of a pass from where the stitching stopped, from the plan as its file has it. */
import { grouped } from '../../shared/grouped.js';
import { Refusal } from '../../shared/refusal.js';
import { sayIn } from '../../shared/say.js';
import { parseLength } from '../../shared/units.js';
import { restPicture } from '../picture/rest-picture.js';
import { planJson } from '../plan/plan-json.js';
import { readPlan } from '../plan/read-plan.js';
import { resumePass, waysInWords } from '../plan/resume.js';
import { parsePlace } from '../setup/lengths.js';
import type { Brought } from '../tasks/motif-from.js';
import { passFiles, passName } from '../tasks/pass-files.js';
import { textExporters } from '../write/index.js';
import type { Choices } from './choices.js';
import { planOf } from './plan-seen.js';
import type { RestSeen, Saved } from './questions.js';
import type { Worked } from './worked.js';

const picturePx = 1100;
const usualOverlap = '1/2in';

async function restOf(
  file: Brought,
  worked: Worked,
  choices: Choices,
  finer: (share: number) => Promise<Worked>,
) {
  const { pass: number, at, which, overlap } = choices.stopped!;
  const { plan: made, error } = await planOf(file, worked, choices, finer);
  if (made === null) throw new Refusal(error.message);
  // Read back, so that it is the rest of the plan that was saved, rounded as that is.
  const bytes = new TextEncoder().encode(planJson(made, { asFile: true }));
  const plan = readPlan(bytes, 'The plan', worked.study.setup.stitchesPerInch);
  const pass = plan.passes.find((each) => each.pass === number);
  if (!pass) throw new Refusal(`The plan has ${plan.passes.length} passes; there is no pass ${number}.`);
  const setup = { ...worked.study.setup, stitchesPerInch: plan.stitchesPerInch };
  const resumed = resumePass(
    pass,
    {
      atMm: parsePlace(at, setup.unit, 'The place'),
      which,
      overlapMm: parseLength(overlap || usualOverlap, setup.unit, 'The overlap'),
    },
    setup,
  );
  return { plan, pass, ...resumed };
}

export async function restSeen(
  file: Brought,
  worked: Worked,
  choices: Choices,
  finer: (share: number) => Promise<Worked>,
): Promise<RestSeen> {
  const say = sayIn(choices.unit);
  try {
    const { plan, pass, rest, ways } = await restOf(file, worked, choices, finer);
    const told = waysInWords(ways, say).map((words) => words.replace(/^--which \d+: /, ''));
    if (rest === null) return { picture: null, words: null, ways: told, error: null };
    const before = plan.passes.filter((each) => each.pass < pass.pass).flatMap((each) => each.strokes);
    return {
      picture: restPicture(plan.quilt, [...before, ...rest.done], rest.strokes, { widthPx: picturePx }),
      words: `Pass ${pass.pass}: ${say.thread(rest.way.alongMm / 1000)} of its line are done, ${say.thread(rest.leftMm / 1000)} are left: ${grouped(rest.stitchesLeft)} stitches from where it starts again.`,
      ways: ways.length > 1 ? told : [],
      error: null,
    };
  } catch (error) {
    if (error instanceof Refusal) return { picture: null, words: null, ways: [], error: error.message };
    throw error;
  }
}

export async function restFiles(
  file: Brought,
  worked: Worked,
  choices: Choices,
  finer: (share: number) => Promise<Worked>,
): Promise<readonly Saved[]> {
  const { plan, pass, rest } = await restOf(file, worked, choices, finer);
  if (rest === null) throw new Refusal('Say first which time the line came by.');
  const svg = textExporters.filter((each) => each.name === 'svg');
  const made = await passFiles(rest, `${passName(pass.pass)}-rest`, plan, svg);
  return made.map(({ name, data }) => ({ name, type: 'image/svg+xml', text: data as string }));
}
