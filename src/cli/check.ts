/** `linewright check`: reads, measures and judges each file. */
import { join } from 'node:path';
import { rules } from '../../rules/index.js';
import type { Finding } from '../../shared/finding.js';
import type { Motif } from '../../shared/motif.js';
import { outputNames } from '../../shared/output-name.js';
import { sayIn } from '../../shared/say.js';
import { version } from '../../shared/version.js';
import { writeWhole } from '../files.js';
import { lint } from '../lint/index.js';
import { type FileReport, reportOf, summaryOf, unreadable } from '../lint/report.js';
import { studyOf } from '../measure/index.js';
import { checkReport, summaryLine, unreadableLine } from './check-report.js';
import { type ExitCode, eachFile, exitCodes, worst } from './each.js';
import { loadMotif, loadSetup } from './load.js';
import type { Typed } from './options.js';
import { pageOn } from './page.js';
import { print, printJson } from './print.js';

const picturePx = 1200;

export async function check(typed: Typed): Promise<ExitCode> {
  const files = typed.files as readonly string[];
  const setup = await loadSetup(typed);
  const names = outputNames(files);
  const page = pageOn(process.stdout);
  const tell = (text: string) => {
    if (!typed.json) print(files.length > 1 ? `${text}\n` : text);
  };

  /** As the line at the end counts them: a motif that was read has its verdict, also where its picture failed. */
  const judged: FileReport[] = [];
  const reports = await eachFile<FileReport>(
    files,
    async (file, index) => {
      const motif = await loadMotif(file, setup);
      const study = studyOf(motif, setup);
      const findings = lint(study, rules);
      const report = reportOf(file, study, findings);
      if (!typed.json) tell(checkReport(file, study, findings, page));
      judged.push(report);
      if (typed.picture !== undefined) {
        const path = join(typed.picture as string, `${names[index]}.png`);
        await drawFlagged(motif, findings, path, { force: typed.force as boolean, inputs: files });
      }
      return report;
    },
    (file, error) => {
      const report = unreadable(file, error);
      if (judged.at(-1)?.file === file) return report;
      judged.push(report);
      if (files.length > 1) tell(unreadableLine(file, page));
      return report;
    },
  );

  if (typed.json) printJson({ linewright: version, setup, files: reports, summary: summaryOf(reports) });
  else if (files.length > 1) print(page.wrap(summaryLine(summaryOf(judged), sayIn(setup.unit))));
  return worst(reports.map(({ status }) => exitCodes[status]));
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
  const picture = motifPicture(motif, { widthPx: picturePx, findings });
  await writeWhole(path, await writePng(picture, picturePx), options);
}
