/** The worker: gets files and questions, posts answers back. Any failure is a sentence. */
import { Refusal } from '../../shared/refusal.js';
import type { Brought } from '../tasks/motif-from.js';
import { answers, bring } from './answers.js';
import type { Kind } from './questions.js';

export type ToWorker =
  | { readonly bring: Brought; readonly id: number }
  | { readonly ask: Kind; readonly asked: unknown; readonly number: number };
export interface FromWorker {
  readonly number: number;
  readonly answer?: unknown;
  readonly refused?: string;
}

export function work(): void {
  const here = globalThis as unknown as {
    onmessage: (event: { data: ToWorker }) => void;
    postMessage(message: FromWorker): void;
  };
  here.onmessage = async ({ data }) => {
    if ('bring' in data) return bring(data.id, data.bring);
    const { number } = data;
    try {
      const answerer = answers[data.ask] as (asked: unknown) => unknown;
      here.postMessage({ number, answer: await answerer(data.asked) });
    } catch (error) {
      const refused =
        error instanceof Refusal
          ? error.message
          : `This could not be done: a fault of the program, not of your file (${String(error)}).`;
      here.postMessage({ number, refused });
    }
  };
}
