/**
 * The index of a library: what `index.json` holds, the journal that a build keeps while it runs, and the file in
 * which the owner's tags and notes live.
 *
 * While a build runs, each motif that is done is one line added to the journal. A build that was interrupted finds
 * index and journal and goes on; a last line that was cut off is not counted. At the end the index is written whole
 * and the journal removed. Nothing in the index depends on the time or on the order in which the work was done.
 */
import { appendFile, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { FindingUnit, Severity } from '../../shared/finding.js';
import type { Layout } from '../../shared/motif.js';
import { Refusal } from '../../shared/refusal.js';
import type { LengthUnit } from '../../shared/setup.js';
import type { Signature } from './shape.js';

export const indexName = 'index.json';
export const pageName = 'index.html';
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

/** The finished index of a library, or null where the folder has none. */
export async function readIndex(folder: string): Promise<LibraryIndex | null> {
  const text = await readText(join(folder, indexName));
  if (text === null) return null;
  let index: unknown;
  try {
    index = JSON.parse(text);
  } catch {
    index = null;
  }
  const { format, version, entries } = (index ?? {}) as Partial<LibraryIndex>;
  if (format !== 'linewright-library' || !Array.isArray(entries)) {
    throw new Refusal(`${join(folder, indexName)} is not the index of a library; name another folder.`);
  }
  if (version !== 1) {
    throw new Refusal(
      `${join(folder, indexName)} is of version ${version}, and this program reads version 1.`,
    );
  }
  return index as LibraryIndex;
}

/** Entries of builds that did not come to their end; later lines win over earlier ones and over the index. */
export async function readJournal(folder: string): Promise<Entry[]> {
  const text = (await readText(join(folder, journalName))) ?? '';
  const lines = text.split('\n');
  lines.pop();
  return lines.flatMap((line) => {
    try {
      return [JSON.parse(line) as Entry];
    } catch {
      return [];
    }
  });
}

export async function addToJournal(folder: string, entry: Entry): Promise<void> {
  await appendFile(join(folder, journalName), `${JSON.stringify(entry)}\n`);
}

export async function readTags(folder: string): Promise<Tags> {
  const text = await readText(join(folder, tagsName));
  if (text === null) return {};
  try {
    const tags: unknown = JSON.parse(text);
    if (tags !== null && typeof tags === 'object' && !Array.isArray(tags)) return tags as Tags;
  } catch {
    // Answered below, with the same sentence.
  }
  throw new Refusal(
    `${join(folder, tagsName)} cannot be read: mend it or move it away; it was left as it is.`,
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
    throw error;
  }
}
