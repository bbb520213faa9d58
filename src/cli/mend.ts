/** `linewright mend`: puts right what can be put right, says what was done, and judges the mended motifs. */
import { type MendName, mendNames } from '../../shared/finding.js';
import { Refusal } from '../../shared/refusal.js';
import { version } from '../../shared/version.js';
import { summaryOf, unreadable } from '../lint/report.js';
import type { MendChoice } from '../mend/index.js';
import { didYouMean } from '../setup/index.js';
import { type ExitCode, exitCodes, worst } from './exit-code.js';
import { eachFile } from './file-work.js';
import { inputsFrom } from './inputs.js';
import { loadSetup } from './load.js';
import type { MendDone, MendReport } from './mend-file.js';
import type { Typed } from './options.js';
import { pageOn } from './page.js';
import { print, printJson } from './print.js';
import { exportersTyped } from './write-all.js';

export async function mend(typed: Typed): Promise<ExitCode> {
  const setup = await loadSetup(typed);
  // What is wrong with the call is said before any file is touched.
  exportersTyped(typed);
  const asked: MendChoice = {
    reshape: typed.reshape as boolean,
    only: mendsNamed(typed.only, '--only'),
    skip: mendsNamed(typed.skip, '--skip'),
  };
  const choice = typed.curves === true ? unthinned(asked) : asked;
  const both = choice.only?.find((name) => choice.skip?.includes(name));
  if (both !== undefined)
    throw new Refusal(`--only and --skip both name ${both}: leave it out of one of them.`);
  if (choice.only?.includes('smooth') && setup.smoothMm === null)
    throw new Refusal('smooth needs a distance: say --smooth 0.5mm, for instance.');
  if (typed.smooth !== undefined && !choice.reshape && !choice.only?.includes('smooth'))
    throw new Refusal('--smooth changes the look of the line: add --reshape.');
  const { files, jobs, lacking } = await inputsFrom(typed);
  const run = {
    command: 'mend',
    typed: { ...typed, choice },
    setup,
    inputs: files,
    colour: pageOn(process.stdout).isColoured,
  } as const;
  const reports: MendReport[] = [];
  await eachFile<MendDone>(jobs, run, ({ result, refused }, { file }) => {
    reports.push(refused === undefined ? result!.report : unreadable(file, refused));
    if (!typed.json && result) print(files.length > 1 ? `${result.text}\n` : result.text);
  });
  if (typed.json)
    printJson({ linewright: version, setup, files: reports, summary: summaryOf(reports), ...lacking });
  return worst([lacking.complaints ? 2 : 0, ...reports.map(({ status }) => exitCodes[status])]);
}

/** Curves follow the line as it was drawn: where points are thinned first, each that is left looks like a corner. */
function unthinned(choice: MendChoice): MendChoice {
  return choice.only?.includes('thin') ? choice : { ...choice, skip: [...(choice.skip ?? []), 'thin'] };
}

/** The mends of a list such as `join,drop`. */
function mendsNamed(typed: unknown, option: string): readonly MendName[] | undefined {
  if (typed === undefined) return undefined;
  return String(typed)
    .split(',')
    .map((part) => {
      const wanted = part.trim();
      const name = mendNames.find((each) => each === wanted);
      if (name) return name;
      throw new Refusal(
        `${option} takes ${mendNames.join(', ')}, not "${wanted}".${didYouMean(wanted, mendNames)}`,
      );
    });
}
