/** The files that were typed: folders and quoted patterns become the motifs they stand for. */
import { outputNames } from '../../shared/output-name.js';
import { filesMeant } from '../library/files-meant.js';
import { bareName } from '../read/index.js';
import type { FileJob } from './file-job.js';
import type { Typed } from './options.js';
import { plain } from './page.js';

export interface Inputs {
  readonly files: readonly string[];
  readonly jobs: readonly FileJob[];
  /** What was typed and could not be found is told on stderr, and to programs in this part of the document. */
  readonly lacking: { readonly complaints?: readonly string[] };
}

export async function inputsFrom(typed: Typed): Promise<Inputs> {
  const { files, complaints } = await filesMeant(typed.files as string[], typed.out as string | undefined);
  for (const sentence of complaints) process.stderr.write(`${plain(sentence)}\n`);
  const names = outputNames(files.map(bareName));
  return {
    files,
    jobs: files.map((file, i) => ({ file, name: names[i] })),
    lacking: complaints.length > 0 ? { complaints } : {},
  };
}
