/** Asks the worker anew whenever what was chosen changes. */
import { effect, signal } from '@preact/signals';
import type { MendName } from '../../shared/finding.js';
import type { Layout } from '../../shared/layout.js';
import { ask, blinkMs, letGo, type Outcome, stopped } from './ask.js';
import type { Choices } from './choices.js';
import {
  aligned,
  answeredFor,
  forget,
  look,
  noteUnread,
  offers,
  plan,
  refused,
  rest,
  rows,
  rowsRefused,
  seen,
} from './known.js';
import { type Kind, type Look, noPlan, type Offers, type Questions } from './questions.js';
import {
  asksWhereStopped,
  current,
  endOfFresh,
  type Item,
  passOver,
  pointed,
  ticked,
  walked,
} from './state.js';
import { onPage } from './words.js';

let blink: ReturnType<typeof setTimeout> | undefined;
/** Choices that have been followed for longer than a blink. */
export const longSince = signal<Choices | null>(null);
/** Choices of which not everything was worked out, since that was stopped. */
export const halted = signal<Choices | null>(null);

/** What was asked last of each kind: an answer to anything older is not shown. */
function keeping<K extends Kind>(
  kind: K,
  asked: Questions[K]['asked'],
  then: (answer: Questions[K]['answer'] | null, why: string | null) => void,
): void {
  void ask(kind, asked).then((outcome: Outcome<K>) => {
    if ('dropped' in outcome || current.value?.id !== asked.id) return;
    if (current.value.choices !== asked.choices) return;
    const why = 'refused' in outcome ? outcome.refused : null;
    if (why === stopped) {
      halted.value = asked.choices;
      longSince.value = asked.choices;
      // What is known from before stays, and is said to be so; of a file that was not read yet it is said that it is not.
      if (kind !== 'look' || look.value !== null) return;
    } else answeredFor.value = { ...answeredFor.value, [kind]: asked.choices };
    then('answer' in outcome ? outcome.answer : null, why);
  });
}

/** What is asked of the choices as they are; a file is saved as it was when that was asked. */
const ofChoices: readonly Kind[] = ['look', 'offers', 'rows', 'spacing', 'plan', 'rest', 'aligned'];
const none: Offers = { ways: [], leaves: [], findings: null };
let lastId = 0;

function askAnew(item: Item): void {
  if (item.id !== lastId) {
    forget();
    walked.value = null;
    ticked.value = null;
    asksWhereStopped.value = false;
  }
  lastId = item.id;
  letGo(ofChoices);
  halted.value = null;
  clearTimeout(blink);
  blink = setTimeout(() => {
    longSince.value = item.choices;
  }, blinkMs);
  pointed.value = null;
  keeping('look', item, (answer, why) => {
    look.value = answer;
    refused.value = why;
    if (why !== stopped) noteUnread(item.id, why);
    if (answer === null) {
      if (why === stopped) endOfFresh();
      else passOver(item.id, onPage(why ?? ''));
      rows.value = null;
      offers.value = null;
      plan.value = null;
      return;
    }
    endOfFresh();
    askOffers(item, answer);
    rowsRefused.value = null;
    keeping('rows', item, (found, whyNot) => {
      rows.value = found;
      rowsRefused.value = whyNot;
      if (found) askSpacing(item, found.layout, found.spacingMm);
    });
    if (!item.choices.stopped?.at) rest.value = null;
    else keeping('rest', item, (found) => (rest.value = found));
    if (!item.choices.rolled) aligned.value = null;
    else keeping('aligned', item, (found) => (aligned.value = found));
    if (item.choices.quilt === '') plan.value = null;
    else keeping('plan', item, (found, whyNot) => (plan.value = found ?? { ...noPlan, error: whyNot }));
  });
}

function askOffers(item: Item, { findings }: Look): void {
  const isWell = findings.length === 0 && item.choices.typed.smooth === undefined;
  if (isWell) {
    offers.value = none;
    answeredFor.value = { ...answeredFor.value, offers: item.choices };
  } else
    keeping('offers', { ...item, only: ticked.value }, (found) => {
      offers.value = found ?? none;
      if (found?.findings && look.value) look.value = { ...look.value, findings: found.findings };
    });
}

/** Mends are ticked for one motif, as long as it lies on the desk. */
export function tick(names: readonly MendName[] | null): void {
  ticked.value = names;
  letGo(['offers']);
  if (current.value && look.value) askOffers(current.value, look.value);
}

export function askSpacing(item: Item, layout: Layout, spacingMm: number): void {
  keeping('spacing', { ...item, layout, spacingMm }, (answer) => {
    if (answer) seen.value = answer;
  });
}

export function askAgain(): void {
  if (current.value) askAnew(current.value);
}

/** From now on. */
export function follow(): void {
  effect(() => {
    const item = current.value;
    if (item !== null) return askAnew(item);
    letGo(ofChoices);
    forget();
    lastId = 0;
  });
}
