/** `linewright library check`: whether the files of a library are as they were written. */
import { grouped } from '../../shared/grouped.js';
import { requireIndex } from '../library/tag.js';
import { verifyLibrary } from '../library/verify.js';
import type { ExitCode } from './exit-code.js';
import type { Typed } from './options.js';
import { plain } from './page.js';
import { answering, print, printJson } from './print.js';

export async function verify(typed: Typed): Promise<ExitCode> {
  return answering(typed, () => answer(typed));
}

async function answer(typed: Typed): Promise<ExitCode> {
  const folder = typed.folder as string;
  const index = await requireIndex(folder);
  const flaws = await verifyLibrary(folder, index);
  if (typed.json) printJson({ flaws });
  else {
    for (const { path, what } of flaws) print(`${plain(path)}: ${what}`);
    const files = index.entries.reduce((sum, { motif }) => sum + (motif?.files.length ?? 0), 0);
    print(
      flaws.length === 0
        ? `All ${grouped(files)} files are as they were written.`
        : `${flaws.length} of ${grouped(files)} files ${flaws.length === 1 ? 'is' : 'are'} not as ${flaws.length === 1 ? 'it was' : 'they were'} written; build the library again to make them good.`,
    );
  }
  return flaws.length > 0 ? 1 : 0;
}
