/** Results to stdout. */
import type { ExitCode } from './exit-code.js';
import type { Typed } from './options.js';
import { sentenceFor } from './sentence.js';

export function print(text: string): void {
  process.stdout.write(`${text}\n`);
}

export function printJson(document: unknown): void {
  print(JSON.stringify(document, null, 2));
}

/**
 * Does what was asked for in so many words: what is wrong with the words themselves is told before, and on stderr alone.
 * What cannot be done is told to a program, too, in the one document that `--json` prints.
 */
export async function answering(
  { json }: Typed,
  work: () => Promise<ExitCode>,
  document: (error: string) => string = (error) => JSON.stringify({ error }, null, 2),
): Promise<ExitCode> {
  try {
    return await work();
  } catch (error) {
    if (json) print(document(sentenceFor(error)));
    throw error;
  }
}
