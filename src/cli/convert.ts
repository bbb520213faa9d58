/** `linewright convert`: the motif in other forms. It judges nothing. */
import type { Layout, layouts } from '../../shared/layout.js';
import type { Motif } from '../../shared/motif.js';
import { outputNames } from '../../shared/output-name.js';
import { Refusal } from '../../shared/refusal.js';
import { sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { settings } from '../setup/index.js';
import { type ExitCode, eachFile, worst } from './each.js';
import { loadMotif, loadSetup } from './load.js';
import type { Typed } from './options.js';
import { plain } from './page.js';
import { print, printJson } from './print.js';
import { namedExporters, writeAll } from './write-all.js';

interface Converted {
  readonly file: string;
  readonly written: readonly string[];
  readonly error?: string;
}

export async function convert(typed: Typed): Promise<ExitCode> {
  const files = typed.files as readonly string[];
  const setup = await loadSetup(typed);
  const to = namedExporters(typed.to as string);
  const pixels = pixelsFrom(typed.pixels as string | undefined);
  const rows = rowsFrom(typed.rows);
  const names = outputNames(files);
  const say = sayIn(setup.unit);
  const done = await eachFile<Converted>(
    files,
    async (file, index) => {
      const motif = await withRows(await loadMotif(file, setup), rows, setup);
      const written = await writeAll(motif, to, {
        folder: typed.out as string,
        name: names[index],
        pixels,
        force: typed.force as boolean,
        inputs: files,
      });
      if (!typed.json) {
        print(
          `${plain(file)}: ${say.size(motif.widthMm, motif.heightMm)} -> ${written.map(plain).join(', ')}`,
        );
      }
      return { file, written };
    },
    (file, error) => ({ file, written: [], error }),
  );
  if (typed.json) printJson({ files: done });
  return worst(done.map(({ error }) => (error === undefined ? 0 : 2)));
}

function pixelsFrom(typed: string | undefined): number {
  if (typed === undefined) return 480;
  const pixels = Number(typed);
  if (Number.isInteger(pixels) && pixels >= 16 && pixels <= 20_000) return pixels;
  throw new Refusal(`--pixels takes a whole number from 16 to 20000, not ${JSON.stringify(typed)}.`);
}

function rowsFrom(typed: unknown): Layout | null {
  if (typed === undefined) return null;
  return settings.layout.parse(typed, '--rows', 'in') as (typeof layouts)[number];
}

/** The layout chosen, with the spacing asked for or the even one, is stored in the motif. */
async function withRows(motif: Motif, layout: Layout | null, setup: Setup): Promise<Motif> {
  if (layout === null) return motif;
  const { studyOf } = await import('../measure/index.js');
  const spacing = setup.spacingMm ?? studyOf(motif, setup).nesting(layout).evenSpacingMm;
  return { ...motif, rows: { layout, spacing, clearance: setup.clearanceMm } };
}
