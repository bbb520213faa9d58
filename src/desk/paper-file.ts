/** The motif at full size on paper, as typed: the same PDF as the command line's. */
import { parseLength } from '../../shared/units.js';
import { studyOf } from '../measure/index.js';
import { layOnPaper, parseCount, parsePaper, usualPaper, writePaper } from '../paper/index.js';
import { withStoredClearance } from '../tasks/stored-rows.js';
import type { Saved } from './questions.js';
import type { Worked } from './worked.js';

const usualCount = '2';
const usualOverlap = '1/2in';

/** @throws Refusal where a field cannot be read, or the sheets would be too many */
export async function paperFile(name: string, { motif, study: { setup }, choices }: Worked): Promise<Saved> {
  const { sheet, repeats, rows, overlap } = choices.paper;
  const { unit } = setup;
  const study = studyOf(motif, withStoredClearance(setup, motif));
  const laid = layOnPaper(study, {
    sheetMm: parsePaper(sheet || usualPaper(unit), unit, 'The paper'),
    repeats: parseCount(repeats || usualCount, 'Repeats in a row'),
    rows: parseCount(rows || usualCount, 'Rows'),
    overlapMm: parseLength(overlap || usualOverlap, unit, 'The overlap'),
  });
  return { name: `${name}.pdf`, type: 'application/pdf', text: await writePaper(study, laid) };
}
