/** `linewright convert` on one file: the motif in other forms. */
import type { Layout } from '../../shared/layout.js';
import type { Motif } from '../../shared/motif.js';
import type { Setup } from '../../shared/setup.js';
import type { FileDone, FileJob, Run } from './file-job.js';
import { loadMotif } from './load.js';
import { namedExporters, writeAll } from './write-all.js';

export interface Converted {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly written: readonly string[];
}

/** `typed.rows` is a layout or null, `typed.pixels` a number by now. */
export async function convertFile({ file, name }: FileJob, run: Run): Promise<FileDone<Converted>> {
  const { typed, setup, inputs } = run;
  const motif = await withRows(await loadMotif(file, setup), typed.rows as Layout | null, setup);
  const written = await writeAll(motif, namedExporters(typed.to as string), {
    folder: typed.out as string,
    name,
    pixels: typed.pixels as number,
    force: typed.force as boolean,
    inputs,
  });
  return { result: { widthMm: motif.widthMm, heightMm: motif.heightMm, written } };
}

/** The layout chosen, with the spacing asked for or the even one, is stored in the motif. */
async function withRows(motif: Motif, layout: Layout | null, setup: Setup): Promise<Motif> {
  if (layout === null) return motif;
  const { studyOf } = await import('../measure/index.js');
  const spacing = setup.spacingMm ?? studyOf(motif, setup).nesting(layout).evenSpacingMm;
  return { ...motif, rows: { layout, spacing, clearance: setup.clearanceMm } };
}
