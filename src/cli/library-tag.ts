/** `linewright library tag`: the owner's tags and notes. */
import { tagMotif } from '../library/tag.js';
import type { ExitCode } from './exit-code.js';
import type { Typed } from './options.js';
import { plain } from './page.js';
import { print } from './print.js';

export async function tag(typed: Typed): Promise<ExitCode> {
  // What stands after `--` comes as a file in this folder; no name of a motif has a slash.
  const name = (typed.name as string).replace(/^\.\//, '');
  const { tags = [], note } = await tagMotif(typed.folder as string, name, {
    add: typed.add as string[],
    remove: typed.remove as string[],
    ...(typed.note !== undefined && { note: typed.note as string }),
  });
  print(
    `${plain(name)}: ${tags.length > 0 ? tags.map(plain).join(', ') : 'no tags'}${note ? ` (${plain(note)})` : ''}`,
  );
  return 0;
}
