/**
 * The index of a library: what `index.json` holds (`library.schema.json` says the same), the journal that a build
 * keeps while it runs, and the file in which the owner's tags and notes live.
 *
 * While a build runs, what it is about to write and each motif that is done are lines added to the journal. A build
 * that was interrupted finds index and journal and goes on; a last line that was cut off is not counted. So it is known
 * of every file whether the library wrote it. At the end the index is written whole and the journal removed. Nothing in the index depends on the time or on the order in which the work was done.
 */
import { appendFile, readFile, stat, truncate } from 'node:fs/promises';
import { join } from 'node:path';
import type { FindingUnit, Severity } from '../../../shared/finding.js';
import type { Layout } from '../../../shared/layout.js';
import librarySchema from '../../../shared/library.schema.json' with { type: 'json' };
import { Refusal } from '../../../shared/refusal.js';
import type { LengthUnit } from '../../../shared/setup.js';
import tagsSchema from '../../../shared/tags.schema.json' with { type: 'json' };
import { reason, refusing } from '../../files.js';
import { flawsAgainst } from '../../json-schema.js';
import type { Signature } from './shape.js';

export const indexName = 'index.json';
export const pageName = 'index.html';
/** The desk, beside the page. */
export const deskName = 'linewright.html';
export const tagsName = 'tags.json';
export const journalName = 'build.journal';
export const lockName = 'build.lock';
export const motifsFolder = 'motifs';

export type Verdict = 'clean' | 'warnings' | 'errors' | 'unreadable';

export interface LibraryIndex {
  readonly format: 'linewright-library';
  readonly version: 1;
  readonly linewright: string;
  /** The unit its page shows first. */
  readonly unit: LengthUnit;
  readonly entries: readonly Entry[];
}

/** One source file. Lengths are millimetres. */
export interface Entry {
  /** Path from the library's folder, with forward slashes. */
  readonly source: string;
  readonly sha256: string;
  /** Of the settings and the program's version: what must be the same for the work not to be done again. */
  readonly setup: string;
  readonly status: Verdict;
  /** Why it could not be read; only where `status` is `unreadable`. */
  readonly reason?: string;
  readonly motif?: MotifEntry;
}

export interface MotifEntry {
  /** Unique in the library; the outputs are named after it. */
  readonly name: string;
  readonly title?: string;
  readonly creator?: string;
  readonly rights?: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly lengthMm: number;
  readonly assumedSize: boolean;
  readonly stitches: number;
  readonly needleThreadM: number;
  readonly recommended: Layout;
  readonly rows: readonly RowsEntry[];
  readonly findings: readonly FindingEntry[];
  readonly mended: readonly string[];
  readonly files: readonly FileEntry[];
  readonly shape: Signature;
  /** Other motifs with the same line, by name. */
  readonly same?: readonly SameEntry[];
}

export interface RowsEntry {
  readonly layout: Layout;
  readonly closestMm: number;
  readonly evenMm: number;
  readonly openMm: number;
  readonly evenness: number;
}

export interface FindingEntry {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly measured: number | null;
  readonly limit: number | null;
  readonly unit: FindingUnit | null;
}

export interface FileEntry {
  /** Path from the library's folder. */
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
}

export interface SameEntry {
  readonly name: string;
  /** In words: "mirrored, half the size". */
  readonly how: string;
}

/** What the owner added, by motif name. */
export type Tags = Readonly<Record<string, { readonly tags?: readonly string[]; readonly note?: string }>>;

const flawOfIndex = flawsAgainst(librarySchema);
const flawOfEntry = flawsAgainst({ $ref: '#/definitions/entry', definitions: librarySchema.definitions });
const flawOfTags = flawsAgainst(tagsSchema);
const notJson = 'it is cut short or no JSON';

/**
 * The finished index of a library, or null where the folder has none.
 *
 * @throws Refusal where it is no index, of a newer version, or damaged: its paths are followed, so it must hold to its
 * schema
 */
export async function readIndex(folder: string): Promise<LibraryIndex | null> {
  const path = join(folder, indexName);
  const text = await readText(path);
  if (text === null) return null;
  const index = parsed(text);
  const { format, version } = (index ?? {}) as Partial<LibraryIndex>;
  if (index !== null && format !== 'linewright-library')
    throw new Refusal(`${path} is not the index of a library; name another folder.`);
  if (typeof version === 'number' && version > 1)
    throw new Refusal(`${path} is of version ${version}, and this program reads version 1.`);
  const flaw = index === null ? notJson : flawOfIndex(index);
  if (flaw === null) return index as LibraryIndex;
  throw new Refusal(`${path} is damaged: ${flaw}; put back a copy of it, or build into a new folder.`);
}

/** What builds that did not come to their end have done. */
export interface Journal {
  /** Later ones win over earlier ones and over the index. */
  readonly entries: readonly Entry[];
  /** Paths, from the library's folder, that were going to be written. */
  readonly writes: readonly string[];
}

/** A line that is neither is passed over: its source is then worked on again. */
export async function readJournal(folder: string): Promise<Journal> {
  const text = (await readText(join(folder, journalName))) ?? '';
  const lines = text.split('\n');
  lines.pop();
  const entries: Entry[] = [];
  const writes: string[] = [];
  for (const line of lines) {
    const value = parsed(line);
    if (isWrites(value)) for (const path of value.writes) writes.push(path);
    else if (flawOfEntry(value) === null) entries.push(value as Entry);
  }
  return { entries, writes };
}

const outputPath = new RegExp(librarySchema.definitions.file.properties.path.pattern);

function isWrites(value: unknown): value is Pick<Journal, 'writes'> {
  const { writes } = (value ?? {}) as Partial<Journal>;
  return Array.isArray(writes) && writes.every((path) => typeof path === 'string' && outputPath.test(path));
}

/** Adds a line, whole or not at all. */
export async function addToJournal(folder: string, line: Entry | Pick<Journal, 'writes'>): Promise<void> {
  const path = join(folder, journalName);
  const before = await stat(path).catch(() => null);
  try {
    await appendFile(path, `${JSON.stringify(line)}\n`);
  } catch (error) {
    await truncate(path, before?.size ?? 0).catch(() => {});
    refusing(path, 'cannot be written')(error);
  }
}

export async function readTags(folder: string): Promise<Tags> {
  const text = await readText(join(folder, tagsName));
  if (text === null) return {};
  const tags = parsed(text);
  const flaw = tags === null ? notJson : flawOfTags(tags);
  if (flaw === null) return tags as Tags;
  throw new Refusal(
    `${join(folder, tagsName)} cannot be read: ${flaw}; mend it or move it away; it was left as it is.`,
  );
}

export function entryOrder(a: Entry, b: Entry): number {
  return a.source < b.source ? -1 : a.source > b.source ? 1 : 0;
}

async function readText(path: string): Promise<string | null> {
  try {
    return await readFile(path, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw new Refusal(`${path}: cannot be read, ${reason(error)}.`);
  }
}

/** The value of a JSON text, or null where it is none. */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** Whether the page can lead to a desk beside it. */
export async function hasDesk(home: string): Promise<boolean> {
  return (await stat(join(home, deskName)).catch(() => null))?.isFile() ?? false;
}
