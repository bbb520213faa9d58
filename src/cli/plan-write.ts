/** The folder of a plan: `plan.json`, the sheet, the picture, and each pass in the forms asked for. All or nothing. */
import { readdir, rm, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { Motif } from '../../shared/motif.js';
import type { Plan } from '../../shared/plan.js';
import type { Setup } from '../../shared/setup.js';
import { planPicture } from '../picture/plan-picture.js';
import { planJson } from '../plan/plan-json.js';
import { writePlanSheet } from '../sheet/plan-sheet.js';
import type { Exporter } from '../write/index.js';
import { writePng } from '../write/png.js';
import { type Output, writeAllOrNone } from './all-or-none.js';
import { planName } from './load-plan.js';
import type { Typed } from './options.js';
import { passName, passOutputs } from './pass-files.js';

const planPx = 1600;
const sheetPx = 900;

/** The files of each pass. */
export async function writePlan(
  plan: Plan,
  motif: Motif,
  setup: Setup,
  forms: readonly Exporter[],
  typed: Typed,
): Promise<string[][]> {
  const folder = typed.out as string;
  const force = typed.force as boolean;
  const passes: Output[][] = [];
  for (const pass of plan.passes)
    passes.push(await passOutputs(pass, passName(pass.pass), motif, forms, folder));
  const written = passes.map((outputs) => outputs.map(({ path }) => path));
  const names = written.map((paths) => paths.map((path) => basename(path)));
  const file = join(folder, planName);
  const isAgain = await stat(file).then(
    () => true,
    () => false,
  );
  await writeAllOrNone(
    [
      { path: file, data: planJson(plan, { written: names, asFile: true }) },
      {
        path: join(folder, 'plan.html'),
        data: writePlanSheet(plan, motif.name, planPicture(plan, { widthPx: sheetPx }), setup),
      },
      {
        path: join(folder, 'plan.png'),
        data: await writePng(planPicture(plan, { widthPx: planPx }), planPx),
      },
      ...passes.flat(),
    ],
    { force, inputs: [typed.file as string] },
  );
  if (force && isAgain) await removeOthers(folder, new Set(names.flat()));
  return written;
}

const ofAPass = /^pass-\d{2,}(?:-rest|-aligned)?\.(?:motif\.json|svg|dxf|png|csv)$/;

/** Passes of an earlier plan would be taken for this one's. */
async function removeOthers(folder: string, written: ReadonlySet<string>): Promise<void> {
  for (const name of await readdir(folder)) {
    if (ofAPass.test(name) && !written.has(name)) await rm(join(folder, name), { force: true });
  }
}
