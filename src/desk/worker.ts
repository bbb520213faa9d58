/** The worker: gets files and questions, posts answers back. Any failure is a sentence. */
import { Refusal } from '../../shared/refusal.js';
import type { Brought } from '../tasks/motif-from.js';
import { answers, bring, type Changed, onWorked, takeOver } from './answers.js';
import type { Kind } from './questions.js';

export type ToWorker =
  | { readonly bring: Brought; readonly id: number }
  | { readonly takeOver: Changed }
  | { readonly ask: Kind; readonly asked: unknown };
export interface FromWorker {
  /** No answer yet: what another worker may go on from. */
  readonly worked?: Changed;
  readonly answer?: unknown;
  readonly refused?: string;
}

export function work(): void {
  const here = globalThis as unknown as {
    onmessage: (event: { data: ToWorker }) => void;
    postMessage(message: FromWorker): void;
  };
  onWorked((worked) => here.postMessage({ worked }));
  here.onmessage = async ({ data }) => {
    if ('bring' in data) return bring(data.id, data.bring);
    if ('takeOver' in data) return takeOver(data.takeOver);
    try {
      const answerer = answers[data.ask] as (asked: unknown) => unknown;
      here.postMessage({ answer: await answerer(data.asked) });
    } catch (error) {
      const refused =
        error instanceof Refusal
          ? error.message
          : `This could not be done: a fault of the program, not of your file (${String(error)}).`;
      here.postMessage({ refused });
    }
  };
}
