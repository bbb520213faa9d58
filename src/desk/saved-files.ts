/** The files to take along: the same functions make them that the command line calls, byte for byte. */
import { rules } from '../../rules/index.js';
import { layouts } from '../../shared/layout.js';
import type { Motif } from '../../shared/motif.js';
import { Refusal } from '../../shared/refusal.js';
import { lint } from '../lint/index.js';
import { requireStitchable, studyOf } from '../measure/index.js';
import { motifPicture, rowsPicture } from '../picture/index.js';
import { planPicture } from '../picture/plan-picture.js';
import { rowsToShow } from '../picture/rows-picture.js';
import { planJson } from '../plan/plan-json.js';
import { recommend } from '../rows/index.js';
import { writePlanSheet } from '../sheet/plan-sheet.js';
import { writeSheet } from '../sheet/sheet.js';
import { sheetContent } from '../sheet/sheet-content.js';
import { passFiles, passName } from '../tasks/pass-files.js';
import { withRows } from '../tasks/stored-rows.js';
import { textExporters, writeSvg } from '../write/index.js';
import { alignedFiles } from './aligned-seen.js';
import { paperFile } from './paper-file.js';
import { planOf } from './plan-seen.js';
import type { Saved, Saving } from './questions.js';
import { restFiles } from './rest-seen.js';
import type { Worked } from './worked.js';

const types: Readonly<Record<string, string>> = {
  motif: 'application/json',
  svg: 'image/svg+xml',
  dxf: 'image/vnd.dxf',
  csv: 'text/csv',
};
const picturePx = 480;
const rowsPx = 1600;
const sheetPx = 900;

export async function savedFiles(what: Saving, name: string, worked: Worked): Promise<readonly Saved[]> {
  const { study } = worked;
  const { setup } = study;
  const motif: Motif = setup.layout === null ? worked.motif : withRows(worked.motif, setup.layout, setup);
  const exporter = textExporters.find((each) => each.name === what);
  if (what === 'curves')
    return [{ name: `${name}.svg`, type: types.svg, text: writeSvg(motif, undefined, true) }];
  if (exporter) {
    const text = (await exporter.write(motif, { pixels: picturePx })) as string;
    return [{ name: name + exporter.ending, type: types[what] ?? 'text/plain', text }];
  }
  switch (what) {
    case 'png':
      return [
        {
          name: `${name}.png`,
          type: 'image/png',
          text: motifPicture(motif, { widthPx: picturePx }),
          pixels: picturePx,
        },
      ];
    case 'rows': {
      requireStitchable(study);
      const nestings = layouts.map((layout) => study.nesting(layout));
      const drawn = rowsToShow(study, recommend(nestings, setup.battingMm));
      const text = rowsPicture(study, drawn, { widthPx: rowsPx });
      return [{ name: `${name}-rows.png`, type: 'image/png', text, pixels: rowsPx }];
    }
    case 'sheet': {
      const stored = studyOf(motif, setup);
      const text = writeSheet(sheetContent(stored, lint(stored, rules), []));
      return [{ name: `${name}.html`, type: 'text/html', text }];
    }
    case 'paper':
      return [await paperFile(name, worked)];
    case 'rest':
      return restFiles(worked);
    case 'aligned':
      return alignedFiles(worked);
    default:
      return planFiles(what, worked);
  }
}

async function planFiles(what: Saving, worked: Worked): Promise<readonly Saved[]> {
  const { plan, error, motif } = await planOf(worked);
  if (plan === null) throw new Refusal(error.message);
  if (what === 'plan sheet') {
    const picture = planPicture(plan, { widthPx: sheetPx });
    const text = writePlanSheet(plan, motif.name, picture, worked.study.setup);
    return [{ name: 'plan.html', type: 'text/html', text }];
  }
  const form = what === 'passes dxf' ? 'dxf' : 'svg';
  const exporters = textExporters.filter((each) => each.name === form);
  const passes = await Promise.all(
    plan.passes.map((pass) => passFiles(pass, passName(pass.pass), motif, exporters)),
  );
  if (what !== 'plan')
    return passes.flat().map(({ name, data }) => ({ name, type: types[form], text: data as string }));
  const written = passes.map((files) => files.map(({ name }) => name));
  return [{ name: 'plan.json', type: 'application/json', text: planJson(plan, { written, asFile: true }) }];
}
