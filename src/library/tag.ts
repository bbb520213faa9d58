/** The owner's tags and notes, in a file of their own that no build writes to. */
import { realpath } from 'node:fs/promises';
import { join } from 'node:path';
import { Refusal } from '../../shared/refusal.js';
import { fileInTheWay, noFolder, writeWhole } from '../files.js';
import { didYouMean } from '../setup/index.js';
import {
  hasDesk,
  type LibraryIndex,
  lockName,
  pageName,
  readIndex,
  readTags,
  type Tags,
  tagsName,
} from './contents/index-file.js';
import { acquireLock } from './lock.js';
import { libraryPage } from './page/index.js';

export interface TagChange {
  readonly add: readonly string[];
  readonly remove: readonly string[];
  /** Replaces the note; an empty one takes it away; left out, the note stays. */
  readonly note?: string;
}

/** Changes one motif's tags and note and shows them in the page. Returns what the motif has now. */
export async function tagMotif(folder: string, name: string, change: TagChange): Promise<Tags[string]> {
  // Before the lock: where there is no library nothing is made.
  await requireIndex(folder);
  const home = await realpath(folder);
  const lock = await acquireLock(join(home, lockName), () => {});
  try {
    const index = await requireIndex(home);
    requireMotif(index, name);
    const tags = await readTags(home);
    const had = Object.hasOwn(tags, name) ? tags[name] : {};
    const kept = [...(had.tags ?? []), ...change.add].filter((tag) => !change.remove.includes(tag));
    const note = change.note ?? had.note;
    const has = { ...(kept.length > 0 && { tags: [...new Set(kept)].sort() }), ...(note && { note }) };
    const { [name]: _, ...rest } = tags;
    const all: Tags = Object.keys(has).length > 0 ? { ...rest, [name]: has } : rest;
    await writeWhole(join(home, tagsName), `${JSON.stringify(all, null, 2)}\n`, { force: true });
    const page = libraryPage(index, all, index.unit, await hasDesk(home));
    await writeWhole(join(home, pageName), page, { force: true });
    return has;
  } finally {
    await lock.release();
  }
}

/** @throws Refusal where the folder holds no library */
export async function requireIndex(folder: string): Promise<LibraryIndex> {
  const inTheWay = await fileInTheWay(folder);
  if (inTheWay !== null) throw noFolder(inTheWay);
  const index = await readIndex(folder);
  if (index === null)
    throw new Refusal(`${folder} holds no library: build one with \`linewright library build\`.`);
  return index;
}

function requireMotif(index: LibraryIndex, name: string): void {
  const names = index.entries.flatMap(({ motif }) => (motif ? [motif.name] : []));
  if (names.includes(name)) return;
  throw new Refusal(`There is no motif "${name}" in the library.${didYouMean(name, names)}`);
}
