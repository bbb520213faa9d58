/** `linewright mend` on one file: mended, judged again, told, written. */
import { join } from 'node:path';
import { rules } from '../../rules/index.js';
import type { MendName } from '../../shared/finding.js';
import type { MendAccount, NotMended } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import { Refusal } from '../../shared/refusal.js';
import { writeWhole } from '../files.js';
import { lint } from '../lint/index.js';
import { type FileReport, type FindingReport, findingReport, reportOf } from '../lint/report.js';
import { toMicron } from '../markup/number-text.js';
import { studyOf } from '../measure/index.js';
import { type MendChoice, mendMotif } from '../mend/index.js';
import type { FileDone, FileJob, Run } from './file-job.js';
import { loadMotif } from './load.js';
import { mendReport } from './mend-report.js';
import { pageOn } from './page.js';
import { exportersTyped, writeAll } from './write-all.js';

const exportPx = 480;
const picturePx = 1600;

/** What `check --json` says of a file, for the mended motif, and what came before it. */
export type MendReport = FileReport & {
  readonly mended?: readonly MendJson[];
  readonly notMended?: readonly NotMended[];
  readonly before?: readonly FindingReport[];
  readonly written?: readonly string[];
};

export interface MendJson {
  readonly mend: MendName;
  readonly places: number;
  readonly addedMm: number;
  readonly movedMm: number;
}

export interface MendDone {
  readonly report: MendReport;
  /** For people. */
  readonly text: string;
}

/** `typed.choice` says which mends. */
export async function mendFile({ file, name }: FileJob, run: Run): Promise<FileDone<MendDone>> {
  const { typed, setup, inputs, colour } = run;
  const original = await loadMotif(file, setup);
  // First what may refuse: a tangle that cannot be mended need not be judged.
  const { motif, accounts, notMended } = mendMotif(original, setup, typed.choice as MendChoice);
  const before = lint(studyOf(original, setup), rules);
  const study = studyOf(motif, setup);
  const inVain = notMended.map(({ mend }) => mend);
  const findings = lint(study, rules, inVain);
  const safely = { force: typed.force as boolean, inputs };
  const written = await writeAll(motif, exportersTyped(typed), {
    folder: typed.out as string,
    name,
    pixels: exportPx,
    curves: typed.curves as boolean,
    ...safely,
  });
  const done = () => ({
    report: {
      ...reportOf(file, study, findings),
      mended: accounts.map(forJson),
      notMended,
      before: before.map(findingReport),
      written,
    },
    text: typed.json
      ? ''
      : mendReport(
          { file, study, original, before, findings, accounts, notMended, written },
          pageOn({ isTTY: colour }),
        ),
  });
  if (typed.picture === undefined) return { result: done() };
  try {
    const path = join(typed.picture as string, `${name}-mended.png`);
    await drawBoth(original, motif, accounts, path, safely);
    written.push(path);
    return { result: done() };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    // The mended motif is there, also where its picture could not be written.
    return { result: done(), refused: error.message };
  }
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
