/**
 * The page's side of its workers. One takes the questions one by one; of a kind that waits only the newest is kept, but for
 * files to save, so that what a hand does quickly is answered as it stands last. What nobody wants any more has a blink to be
 * answered, then its worker is ended. Nothing holds up what comes before it for longer than a blink, nor does a file hold up
 * anything: it then goes on by itself, while another worker takes what comes next. Of each kind one is out at a time.
 */
import { signal } from '@preact/signals';
import type { Brought } from '../tasks/motif-from.js';
import type { Changed } from './answers.js';
import type { Kind, Questions } from './questions.js';
import type { FromWorker, ToWorker } from './worker.js';

export type Outcome<K extends Kind> =
  | { readonly answer: Questions[K]['answer'] }
  | { readonly refused: string }
  /** A newer question took its place, or it was stopped. */
  | { readonly dropped: true };

interface Question {
  readonly kind: Kind;
  readonly asked: unknown;
  /** Only what is told first counts. */
  readonly tell: (outcome: Outcome<Kind>) => void;
  /** Out for longer than a blink. */
  isLong: boolean;
}

/** Longer than this a hand waits, ms. */
export const blinkMs = 300;

/** What the hand waits for comes first. */
const order: readonly Kind[] = ['save', 'spacing', 'look', 'rows', 'plan', 'rest', 'aligned', 'offers'];

/** The kind of question that is out, or null. */
export const busy = signal<Kind | null>(null);

const brought = new Map<number, Brought>();
let waiting: Question[] = [];
/** What each worker is at. */
const out = new Map<Worker, Question>();
/** The one that takes what comes next; others end when they have answered. */
let worker: Worker | null = null;
/** The motif worked on last, from which a new worker goes on. */
let lastWorked: Changed | null = null;
let source = '';

/** `script` is the text of this page's own script, which the worker runs too. */
export function workWith(script: string): void {
  source = URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
}

function started(): Worker {
  const made = new Worker(source);
  made.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    if (data.worked) lastWorked = data.worked;
    const asked = out.get(made);
    if (!asked || data.worked) return;
    out.delete(made);
    if (made !== worker) made.terminate();
    asked.tell('answer' in data ? ({ answer: data.answer } as Outcome<Kind>) : { refused: data.refused! });
    queueMicrotask(next);
  };
  made.onerror = () => {
    const asked = out.get(made);
    end(made);
    asked?.tell({ refused: 'This could not be done: the work broke off, perhaps for want of memory.' });
    queueMicrotask(next);
  };
  for (const [id, file] of brought) post(made, { bring: file, id });
  if (lastWorked) post(made, { takeOver: lastWorked });
  return made;
}

function post(to: Worker, message: ToWorker): void {
  to.postMessage(message);
}

export function bringToWorker(id: number, file: Brought): void {
  brought.set(id, file);
  if (worker) post(worker, { bring: file, id });
}

export function ask<K extends Kind>(kind: K, asked: Questions[K]['asked']): Promise<Outcome<K>> {
  return new Promise((tell) => {
    if (kind !== 'save') dropWaiting([kind]);
    waiting.push({ kind, asked, tell: tell as Question['tell'], isLong: false });
    // What is asked in one go, or because of the answer before, comes in its order.
    queueMicrotask(next);
  });
}

/** Nobody wants to know any more what was asked of these kinds. */
export function letGo(kinds: readonly Kind[]): void {
  dropWaiting(kinds);
  for (const [at, asked] of out) {
    if (!kinds.includes(asked.kind)) continue;
    asked.tell({ dropped: true });
    setTimeout(() => {
      if (out.get(at) === asked) end(at);
      next();
    }, blinkMs);
  }
}

function dropWaiting(kinds: readonly Kind[]): void {
  const dropped = waiting.filter(({ kind }) => kinds.includes(kind));
  waiting = waiting.filter((each) => !dropped.includes(each));
  for (const { tell } of dropped) tell({ dropped: true });
}

function end(at: Worker): void {
  at.terminate();
  out.delete(at);
  if (at === worker) worker = null;
}

/** Whether what is out for longer than a blink is to go on by itself. What follows from an answer goes on in its worker; nobody waits for offers. */
function stepsAside(held: Kind, asked: Kind): boolean {
  return order.indexOf(asked) < order.indexOf(held) || (held === 'save' && asked !== 'offers');
}

/** What is asked next, or undefined. */
function first(): Question | undefined {
  const isOut = new Set([...out.values()].map(({ kind }) => kind));
  const kind = order.find((each) => !isOut.has(each) && waiting.some((asked) => asked.kind === each));
  return waiting.find((asked) => asked.kind === kind);
}

function next(): void {
  const asked = first();
  const held = worker && out.get(worker);
  if (held?.isLong && asked && stepsAside(held.kind, asked.kind)) worker = null;
  if (asked && !(worker && out.has(worker))) {
    worker ??= started();
    out.set(worker, asked);
    post(worker, { ask: asked.kind, asked: asked.asked });
    waiting.splice(waiting.indexOf(asked), 1);
    setTimeout(() => {
      asked.isLong = true;
      next();
    }, blinkMs);
  }
  busy.value = [...out.values()].at(-1)?.kind ?? null;
}

/** What is told of work that was stopped. */
export const stopped = 'Stopped.';

/** Ends what is being worked out. Files stay; the next question starts a new worker. */
export function stop(): void {
  const all = [...out.values(), ...waiting];
  for (const at of [...out.keys()]) end(at);
  waiting = [];
  busy.value = null;
  for (const { tell } of all) tell({ refused: stopped });
}
