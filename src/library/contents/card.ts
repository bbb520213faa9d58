/**
 * A motif of the library as one looks for it: the few numbers and words by which the page and `library list` filter
 * and sort. `suits` and `inOrder` stand on their own, because the page carries them along as they are.
 */
import { mmPerInch } from '../../../shared/units.js';
import type { LibraryIndex, Tags, Verdict } from './index-file.js';

export interface Card {
  readonly name: string;
  readonly title: string;
  readonly creator: string;
  readonly rights: string;
  readonly status: Verdict;
  readonly heightMm: number;
  readonly widthMm: number;
  /** Whether that is a guess, nobody having said how large it is. */
  readonly assumedSize: boolean;
  /** Even spacing of the recommended layout, mm. */
  readonly spacingMm: number;
  readonly layout: string;
  /** Largest open circle at that spacing, mm. */
  readonly openMm: number;
  readonly stitches: number;
  readonly tags: readonly string[];
  readonly note: string;
}

/** What is looked for; what is left out does not matter. Words are matched in parts, whatever their case. */
export interface Wanted {
  /** In name, title, tags and note. */
  readonly words?: string;
  readonly creator?: string;
  /** The whole name, unlike `creator`. */
  readonly designer?: string;
  readonly tag?: string;
  readonly status?: Verdict;
  readonly minHeightMm?: number;
  readonly maxHeightMm?: number;
  readonly minSpacingMm?: number;
  readonly maxSpacingMm?: number;
  readonly maxOpenMm?: number;
  readonly maxStitches?: number;
}

/** Lengths are told to the sixteenth of an inch: half of one more, so that a motif as high as was typed is in. */
export const slackMm = mmPerInch / 32;

export const orders = ['name', 'creator', 'height', 'spacing', 'open circle', 'stitches', 'verdict'] as const;
export type Order = (typeof orders)[number];

export function suits(card: Card, wanted: Wanted): boolean {
  const has = (text: string, part: string | undefined) =>
    part === undefined || text.toLowerCase().includes(part.trim().toLowerCase());
  return (
    has([card.name, card.title, card.note, ...card.tags].join('\n'), wanted.words) &&
    has(card.creator, wanted.creator) &&
    (wanted.designer === undefined || card.creator.trim() === wanted.designer) &&
    (wanted.tag === undefined || card.tags.some((tag) => tag.toLowerCase() === wanted.tag?.toLowerCase())) &&
    (wanted.status === undefined || card.status === wanted.status) &&
    card.heightMm >= (wanted.minHeightMm ?? 0) &&
    card.heightMm <= (wanted.maxHeightMm ?? Infinity) &&
    card.spacingMm >= (wanted.minSpacingMm ?? 0) &&
    card.spacingMm <= (wanted.maxSpacingMm ?? Infinity) &&
    card.openMm <= (wanted.maxOpenMm ?? Infinity) &&
    card.stitches <= (wanted.maxStitches ?? Infinity)
  );
}

/** For sorting; equal ones by what each is called there, `by` name or title. */
export function inOrder(a: Card, b: Card, order: Order, by: 'name' | 'title' = 'name'): number {
  const verdicts = ['clean', 'warnings', 'errors', 'unreadable'];
  const byName = a[by].localeCompare(b[by], 'en') || (a.name < b.name ? -1 : 1);
  const compared = {
    name: 0,
    creator: a.creator < b.creator ? -1 : a.creator > b.creator ? 1 : 0,
    height: a.heightMm - b.heightMm,
    spacing: a.spacingMm - b.spacingMm,
    'open circle': a.openMm - b.openMm,
    stitches: a.stitches - b.stitches,
    verdict: verdicts.indexOf(a.status) - verdicts.indexOf(b.status),
  };
  return compared[order] || byName;
}

export function cardsOf(index: LibraryIndex, tags: Tags): Card[] {
  return index.entries.flatMap(({ motif, status }) => {
    if (motif === undefined) return [];
    const rows = motif.rows.find(({ layout }) => layout === motif.recommended);
    return [
      {
        name: motif.name,
        title: motif.title ?? motif.name,
        creator: motif.creator ?? '',
        rights: motif.rights ?? '',
        status,
        heightMm: motif.heightMm,
        widthMm: motif.widthMm,
        assumedSize: motif.assumedSize,
        spacingMm: rows?.evenMm ?? motif.heightMm,
        layout: motif.recommended,
        openMm: rows?.openMm ?? 0,
        stitches: motif.stitches,
        tags: Object.hasOwn(tags, motif.name) ? (tags[motif.name].tags ?? []) : [],
        note: Object.hasOwn(tags, motif.name) ? (tags[motif.name].note ?? '') : '',
      },
    ];
  });
}
