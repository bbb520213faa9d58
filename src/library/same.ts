/** Which motifs of a library are the same line again, and how. */
import { join } from 'node:path';
import type { Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { defaultSetup } from '../../shared/setup.js';
import { readBytes } from '../files.js';
import { readArtwork } from '../read/index.js';
import { toMotif } from '../size/index.js';
import { type Entry, motifsFolder, type SameEntry } from './contents/index-file.js';
import { alikePairs, type Likeness, likenessOf } from './contents/shape.js';

/** The entries with `same` filled in anew. Only motifs whose signatures agree are read again from `folder`. */
export async function withSame(folder: string, entries: readonly Entry[]): Promise<Entry[]> {
  const known = entries.flatMap(({ motif }) => (motif ? [motif] : []));
  const same = new Map<string, SameEntry[]>();
  const note = (name: string, entry: SameEntry) => same.set(name, [...(same.get(name) ?? []), entry]);
  const strokesOf = lastFew((name: string) => readStrokes(folder, name));
  for (const [i, j] of alikePairs(known.map(({ shape }) => shape))) {
    const [first, second] = [known[i].name, known[j].name];
    const [one, other] = [await strokesOf(first), await strokesOf(second)];
    // A motif of an earlier build whose file was damaged since is like no other.
    const likeness = one && other && likenessOf(one, other);
    if (!likeness) continue;
    note(first, { name: second, how: inWords(likeness) });
    note(second, { name: first, how: inWords(turnedBack(likeness)) });
  }
  return entries.map((entry) => {
    if (entry.motif === undefined) return entry;
    const { same: _, ...motif } = entry.motif;
    const found = same.get(motif.name)?.sort((a, b) => (a.name < b.name ? -1 : 1));
    return { ...entry, motif: found ? { ...motif, same: found } : motif };
  });
}

async function readStrokes(folder: string, name: string): Promise<readonly Polyline[] | null> {
  const path = join(folder, motifsFolder, `${name}.motif.json`);
  try {
    const bytes = await readBytes(path, defaultSetup.limits);
    const artwork = await readArtwork(bytes, path, { take: 'auto', limits: defaultSetup.limits });
    return toMotif(artwork, defaultSetup).strokes;
  } catch (error) {
    if (error instanceof Refusal) return null;
    throw error;
  }
}

/** Remembers the few answers asked for last, so that memory does not grow with the library. */
function lastFew<T>(get: (name: string) => Promise<T>): (name: string) => Promise<T> {
  const kept = new Map<string, Promise<T>>();
  return (name) => {
    const answer = kept.get(name) ?? get(name);
    kept.delete(name);
    kept.set(name, answer);
    if (kept.size > 8) kept.delete(kept.keys().next().value as string);
    return answer;
  };
}

/** The second seen from the first is the first seen from the second, the other way about. */
function turnedBack({ mirrored, quarterTurns, scale }: Likeness): Likeness {
  const back = mirrored ? quarterTurns : (4 - quarterTurns) % 4;
  return { mirrored, quarterTurns: back as Likeness['quarterTurns'], scale: 1 / scale };
}

function inWords({ mirrored, quarterTurns, scale }: Likeness): string {
  const parts = [
    mirrored && quarterTurns === 2 ? 'flipped top to bottom' : mirrored ? 'mirrored' : '',
    quarterTurns === 2 && !mirrored
      ? 'turned by half a turn'
      : quarterTurns % 2 === 1
        ? 'turned by a quarter turn'
        : '',
    Math.abs(scale - 1) < 0.005 ? 'the same size' : `${Math.round(scale * 100)} % of the size`,
  ];
  return parts.filter(Boolean).join(', ');
}
