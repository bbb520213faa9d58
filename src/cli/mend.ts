/** `linewright mend`: puts right what can be put right, says what was done, and judges the mended motif. */
import { join } from 'node:path';
import { rules } from '../../rules/index.js';
import { type MendName, mendNames } from '../../shared/finding.js';
import type { MendAccount } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import { outputNames } from '../../shared/output-name.js';
import { Refusal } from '../../shared/refusal.js';
import { version } from '../../shared/version.js';
import { writeWhole } from '../files.js';
import { lint } from '../lint/index.js';
import {
  type FileReport,
  type FindingReport,
  findingReport,
  reportOf,
  summaryOf,
  unreadable,
} from '../lint/report.js';
import { toMicron } from '../markup/number-text.js';
import { studyOf } from '../measure/index.js';
import { mendMotif } from '../mend/index.js';
import { didYouMean } from '../setup/index.js';
import { type ExitCode, eachFile, exitCodes, worst } from './each.js';
import { loadMotif, loadSetup } from './load.js';
import { mendReport } from './mend-report.js';
import type { Typed } from './options.js';
import { pageOn } from './page.js';
import { print, printJson } from './print.js';
import { namedExporters, writeAll } from './write-all.js';

const exportPx = 480;
const picturePx = 1600;

/** What `check --json` says of a file, for the mended motif, and what came before it. */
type MendReport = FileReport & {
  readonly mended?: readonly MendJson[];
  readonly before?: readonly FindingReport[];
  readonly written?: readonly string[];
};

interface MendJson {
  readonly mend: MendName;
  readonly places: number;
  readonly addedMm: number;
  readonly movedMm: number;
}

export async function mend(typed: Typed): Promise<ExitCode> {
  const files = typed.files as readonly string[];
  const setup = await loadSetup(typed);
  const to = namedExporters(typed.to as string);
  const choice = {
    reshape: typed.reshape as boolean,
    only: mendsNamed(typed.only, '--only'),
    skip: mendsNamed(typed.skip, '--skip'),
  };
  const names = outputNames(files);
  const page = pageOn(process.stdout);
  const tell = (text: string) => {
    if (!typed.json) print(files.length > 1 ? `${text}\n` : text);
  };

  const reports = await eachFile<MendReport>(
    files,
    async (file, index) => {
      const original = await loadMotif(file, setup);
      const before = lint(studyOf(original, setup), rules);
      const { motif, accounts } = mendMotif(original, setup, choice);
      const study = studyOf(motif, setup);
      const findings = lint(study, rules);
      const report = reportOf(file, study, findings);
      const where = { folder: typed.out as string, name: names[index], pixels: exportPx };
      const safely = { force: typed.force as boolean, inputs: files };
      const written = await writeAll(motif, to, { ...where, ...safely });
      try {
        if (typed.picture !== undefined) {
          const path = join(typed.picture as string, `${names[index]}-mended.png`);
          await drawBoth(original, motif, accounts, path, safely);
          written.push(path);
        }
      } finally {
        // The mended motif is there, also where its picture could not be written.
        if (!typed.json) tell(mendReport({ file, study, before, findings, accounts, written }, page));
      }
      return { ...report, mended: accounts.map(forJson), before: before.map(findingReport), written };
    },
    unreadable,
  );

  if (typed.json) printJson({ linewright: version, setup, files: reports, summary: summaryOf(reports) });
  return worst(reports.map(({ status }) => exitCodes[status]));
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

function forJson({ mend, places, addedMm, movedMm }: MendAccount): MendJson {
  return { mend, places: places.length, addedMm: toMicron(addedMm), movedMm: toMicron(movedMm) };
}

async function drawBoth(
  before: Motif,
  after: Motif,
  accounts: readonly MendAccount[],
  path: string,
  options: { force: boolean; inputs: readonly string[] },
): Promise<void> {
  const [{ mendPicture }, { writePng }] = await Promise.all([
    import('../picture/index.js'),
    import('../write/png.js'),
  ]);
  const picture = mendPicture(before, after, accounts, { widthPx: picturePx });
  await writeWhole(path, await writePng(picture, picturePx), options);
}
