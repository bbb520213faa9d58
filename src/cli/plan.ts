/** `linewright plan`: the whole quilt, from the size of the top to the passes to stitch. */
import { type Quilt, type Runs, runsOf } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import type { Setup } from '../../shared/setup.js';
import { studyOf } from '../measure/index.js';
import { noPlanJson, planJson } from '../plan/plan-json.js';
import type { PlanWanted } from '../plan/plan-quilt.js';
import { parsePercent, parseSize } from '../setup/lengths.js';
import { assumedSizeKey, assumedSizeWords } from '../tasks/assumed-size.js';
import { planned } from '../tasks/planned.js';
import type { Exporter } from '../write/index.js';
import type { ExitCode } from './exit-code.js';
import { loadMotif, loadSetup } from './load.js';
import type { Typed } from './options.js';
import { pageOn } from './page.js';
import { planReport } from './plan-report.js';
import { writePlan } from './plan-write.js';
import { answering, print } from './print.js';
import { namedExporters } from './write-all.js';

const usualResize = 0.1;

export async function plan(typed: Typed): Promise<ExitCode> {
  const file = typed.file as string;
  const setup = await loadSetup(typed);
  const { unit, marginMm } = setup;
  const [widthMm, heightMm] = parseSize(typed.quilt as string, unit, '--quilt');
  const quilt: Quilt = { widthMm, heightMm, marginMm };
  const resize = resizeFrom(typed);
  const wanted = { quilt, resize, runs: runsFrom(typed.runs), choose: chooseFrom(typed.choose) };
  const forms = namedExporters(typed.to as string);
  const refused = (message: string) =>
    noPlanJson({ file, quilt }, { message, row: null, largestHeightMm: null });
  return answering(typed, () => answer(file, setup, wanted, forms, typed), refused);
}

async function answer(
  file: string,
  setup: Setup,
  wanted: PlanWanted,
  forms: readonly Exporter[],
  typed: Typed,
): Promise<ExitCode> {
  // Curves are drawn a little finer, so that a larger size of the same points keeps to the wanted distance too.
  const motif = await loadMotif(file, { ...setup, flattenMm: setup.flattenMm / (1 + wanted.resize) });
  const study = studyOf(motif, setup);
  const made = planned(study, file, wanted);
  const remarks = assumedSizeWords(study);
  const page = pageOn(process.stdout);
  if (made.plan === null) {
    const { quilt } = wanted;
    if (typed.json) print(noPlanJson({ file, quilt, ...assumedSizeKey(motif) }, made.error));
    else for (const each of [made.error.message, ...remarks]) print(page.wrap(each));
    return 1;
  }
  const written = typed.out === undefined ? [] : await writePlan(made.plan, motif, setup, forms, typed);
  if (typed.json) print(planJson(made.plan, { written, error: made.error }));
  else {
    print(planReport(made.plan, remarks, setup, page));
    if (made.error) print(`\n${page.wrap(made.error.message)}`);
    if (typed.out !== undefined)
      print(`\n${page.wrap(`Written to ${page.plain(typed.out as string)}: print plan.html.`)}`);
  }
  return made.error ? 1 : 0;
}

/** A size that was typed is kept, unless it may be changed in so many words. */
function resizeFrom(typed: Typed): number {
  if (typed.resize !== undefined) return parsePercent(typed.resize as string, '--resize');
  return typed.height === undefined && typed.width === undefined ? usualResize : 0;
}

function runsFrom(typed: unknown): Runs {
  const runs = runsOf.find((each) => each === typed);
  if (runs) return runs;
  throw new Refusal(`--runs takes back-and-forth or one-way, not "${typed}".`);
}

function chooseFrom(typed: unknown): number {
  const number = Number(typed);
  if (Number.isInteger(number) && number >= 1) return number;
  throw new Refusal(`--choose takes the number of a choice, from 1, not "${typed}".`);
}
