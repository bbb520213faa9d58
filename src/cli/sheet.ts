/** `linewright sheet`: one page about one motif, to print and pin up. */
import { rules } from '../../rules/index.js';
import { Refusal } from '../../shared/refusal.js';
import { writeWhole } from '../files.js';
import { lint } from '../lint/index.js';
import { statusOf } from '../lint/report.js';
import { studyOf } from '../measure/index.js';
import { writeSheet } from '../sheet/sheet.js';
import { sheetContent } from '../sheet/sheet-content.js';
import type { ExitCode } from './exit-code.js';
import { loadMotif, loadSetup } from './load.js';
import type { Typed } from './options.js';
import { plain } from './page.js';
import { print } from './print.js';

/** Exits with 1 where the motif has errors: the sheet is written all the same, and tells them. */
export async function sheet(typed: Typed): Promise<ExitCode> {
  const file = typed.file as string;
  const out = typed.out as string;
  if (/\.(?:pdf|png|jpe?g|svg|json|csv|txt)$/i.test(out))
    throw new Refusal('A sheet is a web page: let --out end in .html, and print it to PDF from the browser.');
  const setup = await loadSetup(typed);
  const study = studyOf(await loadMotif(file, setup), setup);
  const findings = lint(study, rules);
  const page = writeSheet(sheetContent(study, findings, []));
  await writeWhole(out, page, { force: typed.force as boolean, inputs: [file], typed: true });
  print(`${plain(file)} -> ${plain(out)}`);
  return statusOf(findings) === 'errors' ? 1 : 0;
}
