/**
 * What lies on the desk: the motifs that were brought and what is chosen for each. Everything else follows from it and
 * is asked of the worker anew whenever it changes; undoing and redoing move back and forth through it.
 */
import { computed, signal } from '@preact/signals';
import type { MendName } from '../../shared/finding.js';
import type { Layout } from '../../shared/layout.js';
import type { Brought } from '../tasks/motif-from.js';
import { bringToWorker } from './ask.js';
import { type Asked, type Change, type Choices, noChoices, setupOf } from './choices.js';
import { rows } from './known.js';

export interface Item {
  readonly id: number;
  readonly choices: Choices;
}

export interface Desk {
  readonly items: readonly Item[];
  /** Id of the motif that is shown; 0 where there is none. */
  readonly current: number;
}

export const files = new Map<number, Brought>();
export const desk = signal<Desk>({ items: [], current: 0 });
export const past = signal<readonly Desk[]>([]);
export const future = signal<readonly Desk[]>([]);
/** The file of a motif; of several with one name the later ones are counted. */
export function nameOnDesk({ id }: Item): string {
  const { file } = files.get(id)!;
  const namesakes = desk.value.items.filter((item) => files.get(item.id)!.file === file);
  const at = namesakes.findIndex((item) => item.id === id);
  return at > 0 ? `${file} (${at + 1})` : file;
}

/** What is told to everyone at once, also to a screen reader. */
export const told = signal('');
/** What the large picture shows. */
export const shown = signal<'motif' | 'rows' | 'quilt'>('motif');
/** How far along the line the handle is, from 0 to 1; null while nobody walks it. */
export const walked = signal<number | null>(null);
/** Whether a click on the quilt says where the stitching stopped. */
export const asksWhereStopped = signal(false);
/** Number of the finding that is pointed at, or null. */
export const pointed = signal<number | null>(null);

/** Mends that are ticked, for who wants not all; null where all are. */
export const ticked = signal<readonly MendName[] | null>(null);

export const current = computed(() => desk.value.items.find(({ id }) => id === desk.value.current) ?? null);

/** The spacing under the hand, mm; null while nothing is dragged. Only the picture follows it at once. */
export const underHand = signal<number | null>(null);
/** The same as the rest of the page follows it, a few times a second. */
export const dragged = signal<number | null>(null);

/** Layout and spacing as they are chosen now, ahead of what is still being worked out. */
export const chosenRows = computed((): { layout: Layout; spacingMm: number } | null => {
  const known = rows.value;
  const item = current.value;
  if (!known || !item) return null;
  const { setup } = setupOf(item.choices);
  const layout = setup.layout ?? known.layout;
  const nesting = known.layouts.find((each) => each.layout === layout)!;
  const own =
    layout === known.layout && item.choices.typed.layout === undefined ? known.spacingMm : nesting.evenMm;
  return { layout, spacingMm: dragged.value ?? setup.spacingMm ?? own };
});

const mostPast = 200;
/** What is done in one go, such as dragging, is undone in one go. */
const oneGoMs = 900;
let lastGo = { label: '', at: 0 };

/** What comes now is gone back from by itself, however soon after the last change. */
export function beginGo(): void {
  lastGo = { label: '', at: 0 };
}

/** Puts `next` on the desk. Of changes with the same label, shortly after one another, only the first is gone back to. */
function put(next: Desk, label: string): void {
  const now = performance.now();
  const isSameGo = label !== '' && label === lastGo.label && now - lastGo.at < oneGoMs;
  if (!isSameGo) past.value = [...past.value.slice(-mostPast), desk.value];
  lastGo = { label, at: now };
  future.value = [];
  desk.value = next;
}

export function undo(): void {
  const before = past.value.at(-1);
  if (!before) return;
  past.value = past.value.slice(0, -1);
  future.value = [desk.value, ...future.value];
  move(before, 'Undone.');
}

export function redo(): void {
  const [after] = future.value;
  if (!after) return;
  future.value = future.value.slice(1);
  past.value = [...past.value, desk.value];
  move(after, 'Done again.');
}

function move(to: Desk, words: string): void {
  beginGo();
  desk.value = to;
  told.value = words;
}

export function choose(change: Partial<Choices>, label = ''): void {
  const { items, current: id } = desk.value;
  const changed = items.map((item) =>
    item.id === id ? { id, choices: { ...item.choices, ...change } } : item,
  );
  put({ items: changed, current: id }, label);
}

/** Types `text` into a field; an empty text takes it out. */
export function type(name: Asked, text: string, others: Partial<Record<Asked, string>> = {}): void {
  const had = current.value?.choices.typed ?? {};
  const all: Partial<Record<Asked, string>> = { ...had, ...others, [name]: text.trim() };
  // A spacing is one of a layout: with it the layout that is shown is chosen too.
  if (name === 'spacing' && text.trim() && !all.layout && rows.value) all.layout = rows.value.layout;
  // In one order, so that what is typed back is as it was.
  const typed = Object.fromEntries(
    Object.entries(all)
      .filter(([, each]) => each)
      .sort(),
  ) as typeof all;
  // Leaving a field as it was is no change to go back from.
  if (JSON.stringify(typed) === JSON.stringify(had)) return;
  choose({ typed }, name);
}

export function addChange(change: Change): void {
  const { changes = [] } = current.value?.choices ?? {};
  choose({ changes: [...changes, change] });
}

/** Takes a layout, and with it no spacing that was set for another one. */
export function takeLayout(layout: Layout): void {
  type('layout', layout, { spacing: '' });
}

/** What a machine and its owner want stays from motif to motif. */
const ofTheStudio = [
  'spi',
  'throat',
  'clearance',
  'batting',
  'gap',
  'margin',
  'roller',
  'reserve',
  'bobbin',
  'speed',
  'price',
];
let ids = 0;

/** Brought last and not looked at yet: the first that can be read is shown. */
const fresh = new Set<number>();

/** Of motifs that were just brought, one that cannot be read is told of, and the next is shown. */
export function passOver(id: number, why: string): void {
  if (!fresh.delete(id)) return;
  told.value = [told.value, why].filter(Boolean).join(' ');
  const next = desk.value.items.find((item) => fresh.has(item.id));
  if (next) desk.value = { ...desk.value, current: next.id };
}

export function endOfFresh(): void {
  fresh.clear();
}

/** Lays files on the desk and shows the first of them. */
export function layOut(brought: readonly Brought[]): void {
  if (brought.length === 0) return;
  const { choices: had = noChoices } = current.value ?? {};
  const typed = Object.fromEntries(Object.entries(had.typed).filter(([name]) => ofTheStudio.includes(name)));
  const items = brought.map((file) => {
    const id = ++ids;
    keepFile(id, file);
    return { id, choices: { ...noChoices, unit: had.unit, quilt: had.quilt, runs: had.runs, typed } };
  });
  noteSaved(items);
  shown.value = 'motif';
  fresh.clear();
  for (const { id } of items) fresh.add(id);
  put({ items: [...desk.value.items, ...items], current: items[0].id }, '');
}

function keepFile(id: number, file: Brought): void {
  files.set(id, file);
  bringToWorker(id, file);
}

/** A desk from a session, in the place of the one there is. */
export function restore(motifs: readonly { file: Brought; choices: Choices }[], which: number): void {
  const items = motifs.map(({ file, choices }) => {
    const id = ++ids;
    keepFile(id, file);
    return { id, choices };
  });
  noteSaved(items);
  put({ items, current: items[which]?.id ?? items[0]?.id ?? 0 }, '');
}

export function show(id: number): void {
  put({ ...desk.value, current: id }, 'show');
}

export function putAway(id: number): void {
  const items = desk.value.items.filter((item) => item.id !== id);
  const isShown = desk.value.current === id;
  put({ items, current: isShown ? (items[0]?.id ?? 0) : desk.value.current }, '');
}

export function clearDesk(): void {
  put({ items: [], current: 0 }, '');
}

/** As each motif came, or was saved last. */
const safe = new Map<number, Choices>();

export function noteSaved(items: readonly Item[]): void {
  for (const { id, choices } of items) safe.set(id, choices);
}

/** Whether anything was chosen on the desk that was not saved; in which unit it is looked at is nothing to lose. */
export function wouldLose(): boolean {
  const work = (choices: Choices | undefined) => JSON.stringify({ ...choices, unit: null });
  return desk.value.items.some(({ id, choices }) => work(choices) !== work(safe.get(id)));
}
