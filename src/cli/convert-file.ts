/** `linewright convert` on one file: the motif in other forms. */
import type { Layout } from '../../shared/layout.js';
import { studyOf } from '../measure/index.js';
import { assumedSizeWords } from '../tasks/assumed-size.js';
import type { FileDone, FileJob, Run } from './file-job.js';
import { loadMotif } from './load.js';
import { exportersTyped, writeAll } from './write-all.js';

export interface Converted {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly assumedSize: boolean;
  /** What is to be said of it: a sentence each. */
  readonly remarks: readonly string[];
  readonly written: readonly string[];
}

/** `typed.rows` is a layout or null, `typed.pixels` a number by now. */
export async function convertFile({ file, name }: FileJob, run: Run): Promise<FileDone<Converted>> {
  const { typed, setup, inputs } = run;
  const loaded = await loadMotif(file, setup);
  const layout = typed.rows as Layout | null;
  const motif =
    layout === null ? loaded : (await import('../tasks/stored-rows.js')).withRows(loaded, layout, setup);
  const written = await writeAll(motif, exportersTyped(typed), {
    folder: typed.out as string,
    name,
    pixels: typed.pixels as number,
    curves: typed.curves as boolean,
    force: typed.force as boolean,
    inputs,
  });
  const { widthMm, heightMm, assumedSize } = motif;
  const remarks = assumedSizeWords(studyOf(motif, setup));
  return { result: { widthMm, heightMm, assumedSize, remarks, written } };
}
