/** A pass lined up with the quilt after it was rolled on: the places to look for, and what follows from where they were found. */
import type { Pass } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import { sayIn } from '../../shared/say.js';
import { type Alignment, alignmentOf } from '../plan/align.js';
import { alignmentWords } from '../plan/alignment-words.js';
import { parsePlace } from '../setup/lengths.js';
import { passFiles, passName } from '../tasks/pass-files.js';
import { textExporters } from '../write/index.js';
import { passAsSaved } from './plan-seen.js';
import type { AlignedSeen, Saved } from './questions.js';
import type { Worked } from './worked.js';

async function alignedOf(worked: Worked) {
  const { pass: number } = worked.choices.rolled!;
  const { plan, pass } = await passAsSaved(worked, number);
  const { checkMm } = pass;
  if (checkMm === null)
    throw new Refusal(
      number === 1
        ? 'The first pass follows no other: there is nothing to line it up with.'
        : `Before pass ${number} no two places of the row above can be reached.`,
    );
  return { plan, pass, checkMm, alignment: alignmentFor(worked, pass) };
}

/** How a pass is lined up; null where it is not, or not yet. */
export function alignmentFor({ choices, study }: Worked, { pass, checkMm }: Pass): Alignment | null {
  const { rolled } = choices;
  if (rolled?.pass !== pass || checkMm === null || rolled.left === '' || rolled.right === '') return null;
  const { unit } = study.setup;
  return alignmentOf(checkMm, [
    parsePlace(rolled.left, unit, 'The place on the left'),
    parsePlace(rolled.right, unit, 'The place on the right'),
  ]);
}

export async function alignedSeen(worked: Worked): Promise<AlignedSeen> {
  const say = sayIn(worked.choices.unit);
  try {
    const { checkMm, alignment } = await alignedOf(worked);
    return {
      expected: [say.onTop(checkMm[0]), say.onTop(checkMm[1])],
      words: alignment === null ? [] : alignmentWords(alignment, say),
      error: null,
    };
  } catch (error) {
    if (error instanceof Refusal) return { expected: null, words: [], error: error.message };
    throw error;
  }
}

export async function alignedFiles(worked: Worked): Promise<readonly Saved[]> {
  const { plan, pass, alignment } = await alignedOf(worked);
  if (alignment === null) throw new Refusal('Say first where the needle found the two places.');
  const aligned = { strokes: pass.strokes.map(alignment.apply), links: pass.links };
  const svg = textExporters.filter((each) => each.name === 'svg');
  const made = await passFiles(aligned, `${passName(pass.pass)}-aligned`, plan, svg);
  return made.map(({ name, data }) => ({ name, type: 'image/svg+xml', text: data as string }));
}
