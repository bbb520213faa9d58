/**
 * Builds a library, or brings it up to date: only sources whose content or settings changed are worked on again.
 *
 * Each motif's outputs are written whole and then its entry goes into the journal, so a build that is interrupted at
 * any moment loses at most the motifs in the making and goes on from there. Index and page are written last, from
 * entries alone. Nothing written depends on time, order of work or number of cores: an interrupted build, finished,
 * equals an undisturbed one byte for byte.
 *
 * Entries of earlier builds whose source was not named this time stay, unless `prune` is set; sources are only read.
 */
import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile, rm, stat, truncate } from 'node:fs/promises';
import { basename, join, relative, resolve, sep } from 'node:path';
import { outputBase } from '../../shared/output-name.js';
import { Refusal } from '../../shared/refusal.js';
import type { Setup } from '../../shared/setup.js';
import { version } from '../../shared/version.js';
import { fileInTheWay, noFolder, readRegularFile, writeWhole } from '../files.js';
import {
  addToJournal,
  type Entry,
  entryOrder,
  indexName,
  journalName,
  type LibraryIndex,
  lockName,
  motifsFolder,
  pageName,
  readIndex,
  readJournal,
  readTags,
  tagsName,
} from './index-file.js';
import { acquireLock } from './lock.js';
import type { MotifJob } from './motif-work.js';
import { namesFor } from './names.js';
import { libraryPage } from './page/index.js';
import { spread } from './pool.js';
import { withSame } from './same.js';
import { findSources } from './sources.js';
import type { Answer } from './worker.js';

export interface BuildReport {
  /** Another build is at work in the folder; this one waits for it. */
  onWait(): void;
  /** Once, when it is known how much there is to do. */
  onStart(toDo: number, unchanged: number): void;
  /** For each source worked on. */
  onDone(entry: Entry): void;
}

export interface BuildResult {
  readonly index: LibraryIndex;
  /** Sources worked on this time, and those that had not changed. */
  readonly done: number;
  readonly unchanged: number;
  /** Files in the source folders that are no motif files. */
  readonly passedOver: number;
  /** Sentences about sources that could not be looked into. */
  readonly complaints: readonly string[];
}

/** @throws Refusal where the folder holds something else, or no source holds a motif file */
export async function buildLibrary(
  paths: readonly string[],
  folder: string,
  setup: Setup,
  { prune, report }: { readonly prune: boolean; readonly report: BuildReport },
): Promise<BuildResult> {
  await requireLibraryOrEmpty(folder);
  const home = resolve(folder);
  // First of all: where there is nothing to build from, nothing is written.
  const sources = await findSources(paths, home);
  const lock = await acquireLock(join(home, lockName), report.onWait);
  try {
    await sweep(home);
    const earlier = await earlierEntries(home);
    const plan = await planned(sources.files, earlier, home, setup);
    report.onStart(plan.jobs.length, plan.kept.length);
    const entries = [...plan.kept, ...plan.unreadable, ...(await worked(plan.jobs, home, report))];
    for (const entry of plan.unreadable) report.onDone(entry);
    const named = new Set(entries.map(({ source }) => source));
    const others = [...earlier.values()].filter(({ source }) => !named.has(source));
    const index = await finished(home, prune ? entries : [...entries, ...others], earlier, setup);
    return {
      index,
      done: plan.jobs.length + plan.unreadable.length,
      unchanged: plan.kept.length,
      passedOver: sources.passedOver,
      complaints: sources.complaints,
    };
  } finally {
    await lock.release();
  }
}

const ownNames = new Set<string>([
  indexName,
  pageName,
  tagsName,
  journalName,
  lockName,
  `${lockName}.takeover`,
  motifsFolder,
]);
/** What `writeWhole` leaves where it is killed between writing and renaming. */
const unfinished = /^\.[0-9a-f]{16}\.part$/;

async function requireLibraryOrEmpty(folder: string): Promise<void> {
  const found = await readdir(folder).catch(async (error: NodeJS.ErrnoException): Promise<string[]> => {
    if (error.code === 'ENOENT') return [];
    const inTheWay = await fileInTheWay(folder);
    if (inTheWay !== null) throw noFolder(inTheWay);
    throw new Refusal(`${folder}: this cannot be used as a folder for the library.`);
  });
  const strange = found.filter(
    (name) => !ownNames.has(name) && !unfinished.test(name) && !name.startsWith('.'),
  );
  const isLibrary = found.includes(indexName) || found.includes(journalName) || found.includes(lockName);
  if (strange.length > 0 && !isLibrary) {
    throw new Refusal(
      `${folder} holds other things (such as ${strange[0]}) and no library: name a new folder or an empty one.`,
    );
  }
}

async function sweep(home: string): Promise<void> {
  await mkdir(join(home, motifsFolder), { recursive: true });
  for (const folder of [home, join(home, motifsFolder)]) {
    for (const name of await readdir(folder)) {
      if (unfinished.test(name)) await rm(join(folder, name), { force: true });
    }
  }
  // A journal line that was cut off must not run together with the next one.
  const journal = join(home, journalName);
  const bytes = await readFile(journal).catch(() => null);
  if (bytes !== null) await truncate(journal, bytes.lastIndexOf(0x0a) + 1);
}

async function earlierEntries(home: string): Promise<Map<string, Entry>> {
  const index = await readIndex(home);
  const entries = [...(index?.entries ?? []), ...(await readJournal(home))];
  return new Map(entries.map((entry) => [entry.source, entry]));
}

interface Plan {
  readonly kept: readonly Entry[];
  readonly unreadable: readonly Entry[];
  readonly jobs: readonly MotifJob[];
}

async function planned(
  files: readonly string[],
  earlier: ReadonlyMap<string, Entry>,
  home: string,
  setup: Setup,
): Promise<Plan> {
  const setupKey = keyOf(setup);
  const paths = new Map(files.map((file) => [relative(home, file).split(sep).join('/'), file]));
  const taken = new Map(
    [...earlier].flatMap(([source, { motif }]) => (motif ? [[source, motif.name] as const] : [])),
  );
  const names = namesFor([...paths.keys()], taken, (source) => outputBase(basename(source)));
  const kept: Entry[] = [];
  const unreadable: Entry[] = [];
  const jobs: MotifJob[] = [];
  for (const [source, path] of paths) {
    const before = earlier.get(source);
    const sha256 = await readRegularFile(path, setup.limits).then(
      (file) => file.sha256,
      (error: unknown) => {
        if (!(error instanceof Refusal)) throw error;
        unreadable.push({
          source,
          sha256: '',
          setup: setupKey,
          status: 'unreadable',
          reason: error.message.replaceAll(path, source),
        });
        return null;
      },
    );
    if (sha256 === null) continue;
    const isSame = before?.sha256 === sha256 && before.setup === setupKey;
    if (isSame && (await hasOutputs(home, before))) kept.push(before);
    else jobs.push({ path, source, sha256, setupKey, name: names.get(source)!, folder: home, setup });
  }
  return { kept, unreadable, jobs };
}

/** What must be the same for an entry to stand: settings and program. */
function keyOf(setup: Setup): string {
  return createHash('sha256')
    .update(JSON.stringify([version, setup]))
    .digest('hex')
    .slice(0, 16);
}

async function hasOutputs(home: string, { motif }: Entry): Promise<boolean> {
  const looks = (motif?.files ?? []).map(({ path, bytes }) =>
    stat(join(home, path)).then(
      ({ size }) => size === bytes,
      () => false,
    ),
  );
  return (await Promise.all(looks)).every(Boolean);
}

/** @throws Refusal where the library cannot be written to; what is done by then stands in the journal */
async function worked(jobs: readonly MotifJob[], home: string, report: BuildReport): Promise<Entry[]> {
  const entries: Entry[] = [];
  await spread<MotifJob, Answer>({
    worker: new URL('./worker.js', import.meta.url),
    jobs,
    onResult: async (answer) => {
      if ('refused' in answer) throw new Refusal(answer.refused);
      await addToJournal(home, answer.entry);
      entries.push(answer.entry);
      report.onDone(answer.entry);
    },
    // Without a hash, so that the next build tries again: there may be more memory then.
    onLost: ({ source, setupKey }, reason) => ({
      entry: {
        source,
        sha256: '',
        setup: setupKey,
        status: 'unreadable',
        reason: `${source}: ${reason}.`,
      },
    }),
  });
  return entries;
}

/** Writes index and page, takes away what no entry owns any longer, and ends the journal. */
async function finished(
  home: string,
  entries: readonly Entry[],
  earlier: ReadonlyMap<string, Entry>,
  setup: Setup,
): Promise<LibraryIndex> {
  const sorted = [...entries].sort(entryOrder);
  const before = await readIndex(home);
  const isUnchanged = JSON.stringify(before?.entries) === JSON.stringify(sorted);
  const index: LibraryIndex = {
    format: 'linewright-library',
    version: 1,
    linewright: version,
    unit: setup.unit,
    entries: isUnchanged ? sorted : await withSame(home, sorted),
  };
  const owned = new Set(outputsOf(index.entries));
  for (const path of outputsOf(earlier.values())) {
    if (!owned.has(path)) await rm(join(home, path), { force: true });
  }
  await writeIfNew(join(home, indexName), `${JSON.stringify(index, null, 1)}\n`);
  await writeIfNew(join(home, pageName), libraryPage(index, await readTags(home), setup.unit));
  await rm(join(home, journalName), { force: true });
  return index;
}

function outputsOf(entries: Iterable<Entry>): string[] {
  return [...entries].flatMap(({ motif }) => motif?.files.map(({ path }) => path) ?? []);
}

async function writeIfNew(path: string, text: string): Promise<void> {
  const before = await readFile(path, 'utf8').catch(() => null);
  if (before !== text) await writeWhole(path, text, { force: true });
}
