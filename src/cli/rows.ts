/** `linewright rows`: how the rows of a motif nest in each layout, and which one to choose. */
import { type Layout, layouts } from '../../shared/layout.js';
import { Refusal } from '../../shared/refusal.js';
import type { Nesting } from '../../shared/rows.js';
import type { Setup } from '../../shared/setup.js';
import type { Study } from '../../shared/study.js';
import { type WriteOptions, writeWhole } from '../files.js';
import { fine } from '../lint/report.js';
import { toMicron } from '../markup/number-text.js';
import { requireStitchable, studyOf } from '../measure/index.js';
import { type RowsShown, rowsLegend, rowsToShow } from '../picture/rows-picture.js';
import { type JudgedRows, judgedRows, recommend } from '../rows/index.js';
import { assumedSizeKey } from '../tasks/assumed-size.js';
import { withStoredClearance } from '../tasks/stored-rows.js';
import type { ExitCode } from './exit-code.js';
import { loadSetup, motifOf } from './load.js';
import type { Typed } from './options.js';
import { pageOn } from './page.js';
import { answering, print, printJson } from './print.js';
import { rowsReport } from './rows-report.js';

const picturePx = 1600;

/** Exits with 1 where rows come too near at a spacing asked for or stored with the motif, or it is too tall for the throat. */
export async function rows(typed: Typed): Promise<ExitCode> {
  const file = typed.file as string;
  const picture = typed.picture as string | undefined;
  if (picture !== undefined && !/\.png$/i.test(picture))
    throw new Refusal('The picture is a PNG: let --picture end in .png.');
  const asked = await loadSetup(typed.layout === 'all' ? { ...typed, layout: undefined } : typed);
  return answering(typed, () => answer(file, asked, typed));
}

async function answer(file: string, asked: Setup, typed: Typed): Promise<ExitCode> {
  const picture = typed.picture as string | undefined;
  const all = typed.layout === 'all';
  const motif = await motifOf(file, asked);
  const setup = withStoredClearance(asked, motif);
  const study = studyOf(motif, setup);
  requireStitchable(study);
  const shown = setup.layout === null || all ? layouts : [setup.layout];
  const nestings = shown.map((layout) => study.nesting(layout));
  const choice = recommend(nestings, setup.battingMm);
  const recommended = nestings.find(({ layout }) => layout === choice)!;
  const judged = judgedIn(study, shown);
  const drawn = rowsToShow(study, choice);
  if (picture !== undefined)
    await draw(study, drawn, picture, { force: typed.force as boolean, inputs: [file], typed: true });
  if (typed.json) printJson(forJson(file, study, nestings, choice));
  else {
    const page = pageOn(process.stdout);
    print(rowsReport(file, study, nestings, recommended, judged, page));
    if (picture !== undefined) print(`\n${page.wrap(`${page.plain(picture)}: ${rowsLegend(drawn)}`)}`);
  }
  const fits = setup.throatMm === null || study.heightMm <= setup.throatMm;
  return fits && judged.every(({ clear }) => clear) ? 0 : 1;
}

/** A spacing that was asked for is judged in every layout shown, a stored one in its own. */
function judgedIn(study: Study, shown: readonly Layout[]): JudgedRows[] {
  const { motif, setup } = study;
  const inLayouts =
    setup.spacingMm !== null ? shown : shown.filter((layout) => layout === motif.rows?.layout);
  return inLayouts.map((layout) => judgedRows(study, layout)).filter((each) => each !== null);
}

async function draw(study: Study, shown: RowsShown, path: string, options: WriteOptions): Promise<void> {
  const [{ rowsPicture }, { writePng }] = await Promise.all([
    import('../picture/index.js'),
    import('../write/png.js'),
  ]);
  const svg = rowsPicture(study, shown, { widthPx: picturePx });
  await writeWhole(path, await writePng(svg, picturePx), options);
}

function forJson(file: string, study: Study, nestings: readonly Nesting[], recommended: Layout) {
  return {
    file,
    heightMm: toMicron(study.heightMm),
    ...assumedSizeKey(study.motif),
    clearanceMm: nestings[0].clearanceMm,
    recommended,
    layouts: nestings.map(
      ({ layout, closestSpacingMm, evenSpacingMm, nestingOffsetMm, even, interlocksMm }) => ({
        layout,
        closestSpacingMm: fine(closestSpacingMm),
        evenSpacingMm: fine(evenSpacingMm),
        nestingOffsetMm: fine(nestingOffsetMm),
        innerOpenMm: even.inner && fine(even.inner.diameterMm),
        seamOpenMm: even.seam && fine(even.seam.diameterMm),
        unevenness: fine(even.unevenness),
        openness: fine(even.openness),
        evenness: fine(even.openness),
        interlocksMm: interlocksMm.map((interval) => interval.map(fine)),
        ...(study.setup.battingMm !== null && { widestSpacingMm: widestIn(study, layout) }),
      }),
    ),
  };
}

/** The widest spacing that the batting allows, rounded down; null where it allows none. */
function widestIn(study: Study, layout: Layout): number | null {
  const widest = study.battingRows(layout);
  return widest && Math.floor(widest.spacingMm * 1000) / 1000;
}
