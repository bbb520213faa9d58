/** Going on after a break: the rest of a pass from where the stitching stopped, from the plan as its file has it. */
import type { Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { sayIn } from '../../shared/say.js';
import { parseLength } from '../../shared/units.js';
import { restPicture } from '../picture/rest-picture.js';
import { alignmentWords } from '../plan/alignment-words.js';
import { restInWords, resumePass, waysInWords } from '../plan/resume.js';
import { parsePlace } from '../setup/lengths.js';
import { passFiles, passName } from '../tasks/pass-files.js';
import { textExporters } from '../write/index.js';
import { alignmentFor } from './aligned-seen.js';
import { passAsSaved } from './plan-seen.js';
import type { RestSeen, Saved } from './questions.js';
import type { Worked } from './worked.js';

const picturePx = 1100;
const usualOverlap = '1/2in';

async function restOf(worked: Worked) {
  const { pass: number, at, which, overlap } = worked.choices.stopped!;
  const { plan, pass } = await passAsSaved(worked, number);
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
  const { rest, ways } = resumed;
  // A pass that was lined up goes on as it was lined up.
  const alignment = alignmentFor(worked, pass);
  const apply = alignment?.apply ?? ((line: Polyline) => line);
  const lined = rest && { ...rest, strokes: rest.strokes.map(apply), done: rest.done.map(apply) };
  return { plan, pass, rest: lined, ways, alignment };
}

export async function restSeen(worked: Worked): Promise<RestSeen> {
  const say = sayIn(worked.choices.unit);
  try {
    const { plan, pass, rest, ways, alignment } = await restOf(worked);
    const told = waysInWords(ways, say).map((words) => words.replace(/^--which \d+: /, ''));
    if (rest === null) return { picture: null, words: null, ways: told, error: null };
    const before = plan.passes.filter((each) => each.pass < pass.pass).flatMap((each) => each.strokes);
    return {
      picture: restPicture(plan.quilt, [...before, ...rest.done], rest.strokes, { widthPx: picturePx }),
      words: `${restInWords(pass.pass, rest, say)}${alignment ? ` It is lined up as pass ${pass.pass} was: ${alignmentWords(alignment, say).join(' ')}` : ''}`,
      ways: ways.length > 1 ? told : [],
      error: null,
    };
  } catch (error) {
    if (error instanceof Refusal) return { picture: null, words: null, ways: [], error: error.message };
    throw error;
  }
}

export async function restFiles(worked: Worked): Promise<readonly Saved[]> {
  const { plan, pass, rest } = await restOf(worked);
  if (rest === null) throw new Refusal('Say first which time the line came by.');
  const svg = textExporters.filter((each) => each.name === 'svg');
  const made = await passFiles(rest, `${passName(pass.pass)}-rest`, plan, svg);
  return made.map(({ name, data }) => ({ name, type: 'image/svg+xml', text: data as string }));
}
