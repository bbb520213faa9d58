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
import { readdir, readFile, rm, truncate } from 'node:fs/promises';
import { join } from 'node:path';
import { Refusal } from '../../shared/refusal.js';
import type { Setup } from '../../shared/setup.js';
import { version } from '../../shared/version.js';
import { isUnfinished, makeFolder, refusing, writeWhole } from '../files.js';
import { spread } from '../pool.js';
import {
  addToJournal,
  deskName,
  type Entry,
  entryOrder,
  hasDesk,
  indexName,
  journalName,
  type LibraryIndex,
  lockName,
  motifsFolder,
  pageName,
  readIndex,
  readJournal,
  readTags,
} from './contents/index-file.js';
import { libraryHome } from './ground.js';
import { acquireLock } from './lock.js';
import { type MotifJob, outputPaths } from './motif-work.js';
import { libraryPage, pageMark } from './page/index.js';
import { withSame } from './same.js';
import { findSources, type PassedOver } from './sources.js';
import { type Earlier, toDo, unread } from './to-do.js';
import type { Answer } from './worker.js';

export interface BuildReport {
  /** Another build is at work in the folder; this one waits for it. */
  onWait(): void;
  /** Once, when it is known how much there is to do. */
  onStart(toDo: number, unchanged: number): void;
  /** For each source worked on. */
  onDone(entry: Entry): void;
}

export interface BuildChoice {
  /** Drop motifs whose source is not named this time. */
  readonly prune: boolean;
  /** Mend what changes the look, too. */
  readonly reshape: boolean;
  /** Text of the desk, to be laid beside the library's page and linked from it. */
  readonly desk?: string;
  readonly report: BuildReport;
}

export interface BuildResult {
  readonly index: LibraryIndex;
  /** Sources worked on this time, and those that had not changed. */
  readonly done: number;
  readonly unchanged: number;
  readonly passedOver: PassedOver;
  /** Sentences about sources that could not be looked into. */
  readonly complaints: readonly string[];
}

/** @throws Refusal where the folder holds something else, no source holds a motif file, or the disk takes nothing */
export async function buildLibrary(
  paths: readonly string[],
  folder: string,
  setup: Setup,
  { prune, reshape, desk, report }: BuildChoice,
): Promise<BuildResult> {
  const home = await libraryHome(folder);
  // First of all: where there is nothing to build from, nothing is written.
  const sources = await findSources(paths, home);
  await makeFolder(home).catch(refusing(home, 'the folder cannot be made'));
  const lock = await acquireLock(join(home, lockName), report.onWait);
  try {
    // Before anything is changed: what the owner wrote there must be readable.
    await readTags(home);
    const earlier = await earlierWork(home, setup);
    await requireOwn(home, pageName, pageMark, 'the page of this library');
    await requireOwn(home, deskName, deskMark, 'the desk');
    const work = await toDo(sources.files, earlier, home, setup, reshape);
    report.onStart(work.jobs.length, work.kept.length);
    const entries = [...work.kept, ...work.unreadable, ...(await worked(work.jobs, home, setup, report))];
    for (const entry of work.unreadable) report.onDone(entry);
    const named = new Set(entries.map(({ source }) => source));
    const others = [...earlier.entries.values()].filter(({ source }) => !named.has(source));
    if (desk !== undefined) await writeIfNew(join(home, deskName), desk);
    const index = await finished(home, prune ? entries : [...entries, ...others], earlier.owned, setup);
    return {
      index,
      done: work.jobs.length + work.unreadable.length,
      unchanged: work.kept.length,
      passedOver: sources.passedOver,
      complaints: sources.complaints,
    };
  } finally {
    await lock.release();
  }
}

/** Marks the folder as a library where it is none yet, and clears away what was cut off. */
async function earlierWork(home: string, setup: Setup): Promise<Earlier> {
  const index = await readIndex(home);
  if (index === null) await writeIfNew(join(home, indexName), indexText([], setup));
  const motifs = join(home, motifsFolder);
  await makeFolder(motifs).catch(refusing(motifs, 'the folder cannot be made'));
  for (const folder of [home, motifs]) {
    for (const name of await readdir(folder).catch(refusing(folder, 'cannot be read')))
      if (isUnfinished(name)) await takenAway(join(folder, name));
  }
  const path = join(home, journalName);
  const bytes = await readFile(path).catch(() => null);
  // A line that was cut off must not run together with the next one.
  if (bytes !== null)
    await truncate(path, bytes.lastIndexOf(0x0a) + 1).catch(refusing(path, 'cannot be written'));
  const journal = await readJournal(home);
  const entries = [...(index?.entries ?? []), ...journal.entries];
  return {
    entries: new Map(entries.map((entry) => [entry.source, entry])),
    owned: new Set([...outputsOf(entries), ...journal.writes]),
  };
}

/** By this the desk is known. */
const deskMark = '<title>Linewright: the quilting desk</title>';

/** A page that the library did not make is somebody's own. */
async function requireOwn(home: string, name: string, mark: string, what: string): Promise<void> {
  const path = join(home, name);
  const text = await readFile(path, 'utf8').catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return null;
    return refusing(path, 'cannot be read')(error);
  });
  if (text !== null && !text.includes(mark))
    throw new Refusal(`${path} is not ${what}: move it away, then build again.`);
}

/** @throws Refusal where the library cannot be written to; what is done by then stands in the journal */
async function worked(
  jobs: readonly MotifJob[],
  home: string,
  setup: Setup,
  report: BuildReport,
): Promise<Entry[]> {
  const entries: Entry[] = [];
  if (jobs.length > 0) await addToJournal(home, { writes: jobs.flatMap(({ name }) => outputPaths(name)) });
  await spread<MotifJob, Answer>({
    worker: new URL('./worker.js', import.meta.url),
    jobs,
    patienceMs: 1000 * setup.limits.secondsAFile,
    onResult: async (answer) => {
      if ('refused' in answer) throw new Refusal(answer.refused);
      await addToJournal(home, answer.entry);
      entries.push(answer.entry);
      report.onDone(answer.entry);
    },
    // The next build may have more memory.
    onLost: ({ source, setupKey }, reason) => ({ entry: unread(source, setupKey, `${source}: ${reason}.`) }),
  });
  return entries;
}

/** Writes index and page, takes away what no entry owns any longer, and ends the journal. */
async function finished(
  home: string,
  entries: readonly Entry[],
  earlier: ReadonlySet<string>,
  setup: Setup,
): Promise<LibraryIndex> {
  const sorted = [...entries].sort(entryOrder);
  const before = await readIndex(home);
  const isUnchanged = JSON.stringify(before?.entries) === JSON.stringify(sorted);
  const index = indexOf(isUnchanged ? sorted : await withSame(home, sorted), setup);
  const owned = new Set(outputsOf(index.entries));
  for (const path of earlier) if (!owned.has(path)) await takenAway(join(home, path));
  await writeIfNew(join(home, indexName), indexText(index.entries, setup));
  await writeIfNew(
    join(home, pageName),
    libraryPage(index, await readTags(home), setup.unit, await hasDesk(home)),
  );
  await takenAway(join(home, journalName));
  return index;
}

function indexOf(entries: readonly Entry[], { unit }: Setup): LibraryIndex {
  return { format: 'linewright-library', version: 1, linewright: version, unit, entries };
}

function indexText(entries: readonly Entry[], setup: Setup): string {
  return `${JSON.stringify(indexOf(entries, setup), null, 1)}\n`;
}

function outputsOf(entries: Iterable<Entry>): string[] {
  return [...entries].flatMap(({ motif }) => motif?.files.map(({ path }) => path) ?? []);
}

async function takenAway(path: string): Promise<void> {
  await rm(path, { force: true }).catch(refusing(path, 'cannot be taken away'));
}

async function writeIfNew(path: string, text: string): Promise<void> {
  const before = await readFile(path, 'utf8').catch(() => null);
  if (before !== text) await writeWhole(path, text, { force: true });
}
