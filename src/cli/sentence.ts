/** What could not be done, as one sentence. */
import { Refusal } from '../../shared/refusal.js';
import { isSystemError, reason } from '../files.js';

export function sentenceFor(error: unknown): string {
  if (error instanceof Refusal) return error.message;
  if (isSystemError(error)) return `${error.path ?? 'The work'} failed, ${reason(error)}.`;
  // For those who work on the program.
  if (process.env.LINEWRIGHT_TRACE) console.error(error);
  return `This could not be done: a fault of the program, not of your file (${String(error)}).`;
}
