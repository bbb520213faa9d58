/** `linewright paper`: rows of a motif at full size on paper. It judges nothing. */
import type { Motif } from '../../shared/motif.js';
import { Refusal } from '../../shared/refusal.js';
import { sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { parseLength } from '../../shared/units.js';
import { requireFree, writeWhole } from '../files.js';
import { toMicron } from '../markup/number-text.js';
import { studyOf } from '../measure/index.js';
import {
  layOnPaper,
  type Paper,
  type PaperWanted,
  parseCount,
  parsePaper,
  usualPaper,
  writePaper,
} from '../paper/index.js';
import { assumedSizeKey, assumedSizeWords } from '../tasks/assumed-size.js';
import { withStoredClearance } from '../tasks/stored-rows.js';
import type { ExitCode } from './exit-code.js';
import { loadMotif, loadSetup } from './load.js';
import type { Typed } from './options.js';
import { pageOn } from './page.js';
import { answering, print, printJson } from './print.js';

export async function paper(typed: Typed): Promise<ExitCode> {
  const file = typed.file as string;
  const out = typed.out as string;
  if (!/\.pdf$/i.test(out)) throw new Refusal('A pattern on paper is a PDF: let --out end in .pdf.');
  const asked = await loadSetup(typed);
  const { unit } = asked;
  const wanted = {
    sheetMm: parsePaper((typed.paper as string | undefined) ?? usualPaper(unit), unit, '--paper'),
    repeats: parseCount(typed.repeats as string, '--repeats'),
    rows: parseCount(typed.rows as string, '--rows'),
    overlapMm: parseLength(typed.overlap as string, unit, '--overlap'),
  };
  return answering(typed, () => answer(file, asked, wanted, typed));
}

async function answer(file: string, asked: Setup, wanted: PaperWanted, typed: Typed): Promise<ExitCode> {
  const out = typed.out as string;
  const options = { force: typed.force as boolean, inputs: [file], typed: true };
  await requireFree(out, options);
  const motif = await loadMotif(file, asked);
  const study = studyOf(motif, withStoredClearance(asked, motif));
  const laid = layOnPaper(study, wanted);
  await writeWhole(out, await writePaper(study, laid), options);
  if (typed.json) printJson(forJson(file, motif, laid, out));
  else {
    const page = pageOn(process.stdout);
    const say = sayIn(asked.unit);
    const pages = say.count(laid.tiles.length, 'page');
    const rows = `${say.count(laid.rows.length, `${laid.layout} row`)} of ${say.count(laid.repeats, 'repeat')}`;
    print(
      page.wrap(
        `${page.plain(file)}: ${rows}, ${say.spacing(laid.spacingMm)} apart, ` +
          `on ${pages} of ${say.size(...laid.paperMm)} -> ${page.plain(out)}`,
        '',
        '  ',
      ),
    );
    for (const remark of assumedSizeWords(study)) print(page.wrap(remark, '  '));
    print(
      page.wrap(
        'Print it at 100 %, not fitted to the page, and measure the two squares on page 1 before you put the pages together.',
        '  ',
      ),
    );
  }
  return 0;
}

function forJson(file: string, motif: Motif, laid: Paper, out: string) {
  const pair = (mm: readonly [number, number]) => mm.map(toMicron);
  return {
    file,
    ...assumedSizeKey(motif),
    layout: laid.layout,
    spacingMm: toMicron(laid.spacingMm),
    repeats: laid.repeats,
    rows: laid.rows.length,
    paperMm: pair(laid.paperMm),
    overlapMm: toMicron(laid.overlapMm),
    tiles: laid.tiles.map(({ fromMm }, index) => ({
      page: index + 2,
      fromMm: pair(fromMm),
      sizeMm: pair(laid.sizeMm),
      atMm: pair(laid.atMm),
    })),
    written: [out],
  };
}
