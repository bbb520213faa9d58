/** `linewright check`: reads, measures and judges each file. */
import { sayIn } from '../../shared/say.js';
import { version } from '../../shared/version.js';
import { type FileReport, summaryOf, unreadable } from '../lint/report.js';
import type { Checked } from './check-file.js';
import { needsWork, summaryLine, unreadableColumn, unreadableLine } from './check-report.js';
import { type ExitCode, exitCodes, worst } from './exit-code.js';
import { eachFile } from './file-work.js';
import { inputsFrom } from './inputs.js';
import { loadSetup } from './load.js';
import type { Typed } from './options.js';
import { pageOn } from './page.js';
import { print, printJson } from './print.js';

/** Of more files than this each gets a line, unless the reports are asked for. */
const mostReports = 5;

export async function check(typed: Typed): Promise<ExitCode> {
  const setup = await loadSetup(typed);
  const { files, jobs, lacking } = await inputsFrom(typed);
  const page = pageOn(process.stdout);
  const full = (typed.full as boolean) || files.length <= mostReports;
  const colour = page.isColoured;
  const unreadableText = (file: string) => {
    if (!full) return unreadableColumn(file, page);
    return files.length > 1 ? unreadableLine(file, page) : null;
  };
  const run = { command: 'check', typed: { ...typed, full }, setup, inputs: files, colour } as const;
  const reports: FileReport[] = [];
  /** As the line at the end counts them: a motif that was read has its verdict, also where its picture failed. */
  const judged: FileReport[] = [];
  await eachFile<Checked>(jobs, run, ({ result, refused }, { file }) => {
    const report = refused === undefined ? result!.report : unreadable(file, refused);
    reports.push(report);
    judged.push(result?.report ?? report);
    if (typed.json) return;
    const text = result?.text ?? unreadableText(file);
    if (text !== null) print(full && files.length > 1 ? `${text}\n` : text);
  });

  if (typed.json)
    printJson({ linewright: version, setup, files: reports, summary: summaryOf(reports), ...lacking });
  else if (files.length > 1) {
    if (!full) print('');
    print(page.wrap(summaryLine(summaryOf(judged), sayIn(setup.unit))));
    if (!full) for (const line of needsWork(judged, page)) print(line);
  }
  return worst([lacking.complaints ? 2 : 0, ...reports.map(({ status }) => exitCodes[status])]);
}
