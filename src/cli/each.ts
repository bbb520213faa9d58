/** Many files, one after the other: one that cannot be done does not stop the others, and progress is shown. */
import { Refusal } from '../../shared/refusal.js';
import type { Status } from '../lint/report.js';
import { plain } from './page.js';
import { Progress } from './progress.js';

/** 0: no errors found, 1: errors found, 2: could not do it. Of many the worst counts. */
export type ExitCode = 0 | 1 | 2;

export const exitCodes: Readonly<Record<Status, ExitCode>> = {
  clean: 0,
  warnings: 0,
  errors: 1,
  unreadable: 2,
};

export function worst(codes: readonly ExitCode[]): ExitCode {
  return Math.max(0, ...codes) as ExitCode;
}

/**
 * `work` for each file, in turn; where it cannot be done, `refused` says what comes of it, and the sentence goes to
 * stderr. Returns what came of each, in order.
 */
export async function eachFile<T>(
  files: readonly string[],
  work: (file: string, index: number) => Promise<T>,
  refused: (file: string, message: string) => T,
): Promise<T[]> {
  const progress = new Progress(files.length, process.stderr);
  const results: T[] = [];
  for (const [index, file] of files.entries()) {
    progress.show(index, plain(file));
    try {
      results.push(await work(file, index));
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      progress.clear();
      process.stderr.write(`${plain(error.message)}\n`);
      results.push(refused(file, error.message));
    }
    progress.clear();
  }
  return results;
}
