/**
 * What a build has to do: which sources changed since their outputs were written, which cannot be read, and under which
 * names the outputs go. A source is worked on anew where its bytes, the settings or the program changed, or where an
 * output is missing or damaged.
 */
import { createHash } from 'node:crypto';
import { readdir, realpath } from 'node:fs/promises';
import { basename, dirname, join, relative, sep } from 'node:path';
import { outputBase } from '../../shared/output-name.js';
import { Refusal } from '../../shared/refusal.js';
import type { Setup } from '../../shared/setup.js';
import { version } from '../../shared/version.js';
import { readRegularFile, refusing } from '../files.js';
import { bareName } from '../read/index.js';
import { type Entry, motifsFolder } from './contents/index-file.js';
import { type MotifJob, outputPaths } from './motif-work.js';
import { namesFor } from './names.js';
import { flawOf } from './verify.js';

/** What earlier builds did, by source, and every path they wrote or were about to write. */
export interface Earlier {
  readonly entries: ReadonlyMap<string, Entry>;
  readonly owned: ReadonlySet<string>;
}

export interface ToDo {
  readonly kept: readonly Entry[];
  readonly unreadable: readonly Entry[];
  readonly jobs: readonly MotifJob[];
}

export async function toDo(
  files: readonly string[],
  earlier: Earlier,
  home: string,
  setup: Setup,
  reshape: boolean,
): Promise<ToDo> {
  const setupKey = keyOf(setup, reshape);
  const paths = new Map<string, string>();
  for (const file of files) paths.set(await sourceName(home, file), file);
  const taken = new Map(
    [...earlier.entries].flatMap(([source, { motif }]) => (motif ? [[source, motif.name] as const] : [])),
  );
  const foreign = await foreignNames(home, earlier.owned);
  const names = namesFor([...paths.keys()], taken, (source) => outputBase(bareName(source)), foreign);
  const kept: Entry[] = [];
  const unreadable: Entry[] = [];
  const jobs: MotifJob[] = [];
  for (const [source, path] of paths) {
    const before = earlier.entries.get(source);
    const sha256 = await readRegularFile(path, setup.limits).then(
      (file) => file.sha256,
      (error: unknown) => {
        if (!(error instanceof Refusal)) throw error;
        unreadable.push(unread(source, setupKey, error.message.replaceAll(path, source)));
        return null;
      },
    );
    if (sha256 === null) continue;
    const isSame = before?.sha256 === sha256 && before.setup === setupKey;
    if (isSame && (await hasOutputs(home, before))) kept.push(before);
    else
      jobs.push({ path, source, sha256, setupKey, name: names.get(source)!, folder: home, setup, reshape });
  }
  return { kept, unreadable, jobs };
}

/** A source that gave no motif. Without a hash, so that the next build tries again. */
export function unread(source: string, setup: string, reason: string): Entry {
  return { source, sha256: '', setup, status: 'unreadable', reason };
}

/** As the index has it: from the library's folder, through real folders, so that no link gives a file two names. */
async function sourceName(home: string, file: string): Promise<string> {
  const folder = await realpath(dirname(file)).catch(() => dirname(file));
  return relative(home, join(folder, basename(file)))
    .split(sep)
    .join('/');
}

/** Names of motifs whose outputs would meet a file in the motifs folder that no build wrote. */
async function foreignNames(home: string, owned: ReadonlySet<string>): Promise<string[]> {
  const folder = join(home, motifsFolder);
  const found = await readdir(folder).catch(refusing(folder, 'cannot be read'));
  return found
    .filter((name) => !owned.has(`${motifsFolder}/${name}`))
    .map((name) => name.replace(/\.(?:motif\.json|desk\.htm|[^.]+)$/i, ''));
}

/** What must be the same for an entry to stand: settings, program, and what it writes. */
function keyOf(setup: Setup, reshape: boolean): string {
  return createHash('sha256')
    .update(JSON.stringify([version, outputPaths(''), setup, ...(reshape ? ['reshape'] : [])]))
    .digest('hex')
    .slice(0, 16);
}

/** Whether all is there and as it was written: what was damaged meanwhile is made again. */
async function hasOutputs(home: string, { motif }: Entry): Promise<boolean> {
  for (const file of motif?.files ?? []) if ((await flawOf(home, file)) !== null) return false;
  return true;
}
