/** What is known of the motif on the desk: the answers to what was asked last, or null while there is none. */
import { signal } from '@preact/signals';
import type { Choices } from './choices.js';
import type { AlignedSeen, Kind, Look, Offers, PlanSeen, RestSeen, Rows, RowsSeen } from './questions.js';

export const look = signal<Look | null>(null);
/** Why the motif on the desk cannot be shown. */
export const refused = signal<string | null>(null);
export const rows = signal<Rows | null>(null);
export const rowsRefused = signal<string | null>(null);
export const offers = signal<Offers | null>(null);
export const plan = signal<PlanSeen | null>(null);
export const rest = signal<RestSeen | null>(null);
export const aligned = signal<AlignedSeen | null>(null);
/** The rows at the spacing that is chosen, or while one is dragged, at the last one that was worked out. */
export const seen = signal<RowsSeen | null>(null);

/** Each by the question that it answers. */
export const known = { look, rows, offers, plan, rest, aligned, spacing: seen } as const;
/** For which choices each question was answered last. */
export const answeredFor = signal<Readonly<Partial<Record<Kind, Choices>>>>({});

/** Why motifs that were shown could not be read, by their id on the desk. */
export const unread = signal<ReadonlyMap<number, string>>(new Map());

export function noteUnread(id: number, why: string | null): void {
  if ((unread.value.get(id) ?? null) === why) return;
  const noted = new Map(unread.value);
  if (why === null) noted.delete(id);
  else noted.set(id, why);
  unread.value = noted;
}

/** Of another motif nothing is known yet. */
export function forget(): void {
  for (const each of [...Object.values(known), refused, rowsRefused]) each.value = null;
  answeredFor.value = {};
}
