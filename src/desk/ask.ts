/**
 * The page's side of its worker. One question is out at a time; of a kind that waits only the newest is kept, so that
 * what a hand does quickly is answered as it stands last. What takes too long is stopped by ending the worker.
 */
import { signal } from '@preact/signals';
import type { Brought } from '../tasks/motif-from.js';
import type { Kind, Questions } from './questions.js';
import type { FromWorker, ToWorker } from './worker.js';

export type Outcome<K extends Kind> =
  | { readonly answer: Questions[K]['answer'] }
  | { readonly refused: string }
  /** A newer question took its place, or it was stopped. */
  | { readonly dropped: true };

interface Waiting {
  readonly kind: Kind;
  readonly asked: unknown;
  readonly tell: (outcome: Outcome<Kind>) => void;
}

/** What the hand waits for comes first. */
const order: readonly Kind[] = ['save', 'spacing', 'look', 'rows', 'plan', 'rest', 'aligned', 'offers'];

/** The kind of question that is out, or null. */
export const busy = signal<Kind | null>(null);

const brought = new Map<number, Brought>();
const waiting = new Map<Kind, Waiting>();
let out: (Waiting & { number: number }) | null = null;
let worker: Worker | null = null;
let source = '';
let count = 0;

/** `script` is the text of this page's own script, which the worker runs too. */
export function workWith(script: string): void {
  source = URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
}

function running(): Worker {
  if (worker) return worker;
  worker = new Worker(source);
  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    if (out === null || data.number !== out.number) return;
    const { tell } = out;
    out = null;
    busy.value = null;
    tell('answer' in data ? ({ answer: data.answer } as Outcome<Kind>) : { refused: data.refused! });
    next();
  };
  worker.onerror = () => fail('This could not be done: the work broke off, perhaps for want of memory.');
  for (const [id, file] of brought) post({ bring: file, id });
  return worker;
}

function post(message: ToWorker): void {
  worker!.postMessage(message);
}

export function bringToWorker(id: number, file: Brought): void {
  brought.set(id, file);
  if (worker) post({ bring: file, id });
}

export function ask<K extends Kind>(kind: K, asked: Questions[K]['asked']): Promise<Outcome<K>> {
  return new Promise((tell) => {
    waiting.get(kind)?.tell({ dropped: true });
    waiting.set(kind, { kind, asked, tell: tell as Waiting['tell'] });
    next();
  });
}

function next(): void {
  if (out !== null) return;
  const kind = order.find((each) => waiting.has(each));
  if (kind === undefined) return;
  out = { ...waiting.get(kind)!, number: ++count };
  waiting.delete(kind);
  busy.value = kind;
  running();
  post({ ask: kind, asked: out.asked, number: out.number });
}

/** What is told of work that was stopped. */
export const stopped = 'Stopped.';

/** Ends what is being worked out. Files stay; the next question starts a new worker. */
export function stop(): void {
  fail(stopped);
}

function fail(sentence: string): void {
  worker?.terminate();
  worker = null;
  const all = [...(out ? [out] : []), ...waiting.values()];
  const kinds = new Set(all.map(({ kind }) => kind));
  out = null;
  waiting.clear();
  busy.value = null;
  for (const { kind, tell } of all)
    tell(kinds.has('look') && kind !== 'look' ? { dropped: true } : { refused: sentence });
}
