/** `linewright check` on one file: read, measured, judged, told, and drawn where a picture is wanted. */
import { join } from 'node:path';
import { rules } from '../../rules/index.js';
import type { Finding } from '../../shared/finding.js';
import type { Motif } from '../../shared/motif.js';
import { Refusal } from '../../shared/refusal.js';
import { writeWhole } from '../files.js';
import { lint } from '../lint/index.js';
import { type FileReport, reportOf } from '../lint/report.js';
import { studyOf } from '../measure/index.js';
import { checkLine, checkReport } from './check-report.js';
import type { FileDone, FileJob, Run } from './file-job.js';
import { motifOf } from './load.js';
import { pageOn } from './page.js';

export interface Checked {
  readonly report: FileReport;
  /** For people: the whole report, or a line. */
  readonly text: string;
}

const picturePx = 1200;

/** `typed.full` says whether people get the whole report. */
export async function checkFile({ file, name }: FileJob, run: Run): Promise<FileDone<Checked>> {
  const { typed, setup, inputs, colour } = run;
  const motif = await motifOf(file, setup);
  const study = studyOf(motif, setup);
  const findings = lint(study, rules);
  const page = pageOn({ isTTY: colour });
  const text = typed.full ? checkReport(file, study, findings, page) : checkLine(file, study, findings, page);
  const result = { report: reportOf(file, study, findings), text: typed.json ? '' : text };
  if (typed.picture === undefined) return { result };
  try {
    const path = join(typed.picture as string, `${name}.png`);
    await drawFlagged(motif, findings, path, { force: typed.force as boolean, inputs });
    return { result };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { result, refused: error.message };
  }
}

async function drawFlagged(
  motif: Motif,
  findings: readonly Finding[],
  path: string,
  options: { force: boolean; inputs: readonly string[] },
): Promise<void> {
  const [{ motifPicture }, { writePng }] = await Promise.all([
    import('../picture/index.js'),
    import('../write/png.js'),
  ]);
  const picture = motifPicture(motif, { widthPx: picturePx, findings, withScan: true });
  await writeWhole(path, await writePng(picture, picturePx), options);
}
