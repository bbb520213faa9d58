/** A sample of the changes: each is in it with the same chance, and for the same seed always the same ones. */
import { createHash } from 'node:crypto';
import { relative } from 'node:path';

/** `start` is counted from 1, as in Stryker's report. */
export function isInSample({ file, location: { start, end }, mutatorName, replacement }, { share, seed }) {
  const name = JSON.stringify([
    seed,
    file,
    start.line,
    start.column,
    end.line,
    end.column,
    mutatorName,
    replacement,
  ]);
  return createHash('sha256').update(name).digest().readUInt32BE() / 2 ** 32 < share;
}

/** Has Stryker pass over the others, as it would over changes that do not compile. */
class Sampler {
  static inject = ['options'];

  constructor({ sample }) {
    this.sample = sample;
  }

  async init() {}

  async check(mutants) {
    return Object.fromEntries(
      mutants.map(({ id, fileName, location, mutatorName, replacement }) => {
        const [start, end] = [location.start, location.end].map(({ line, column }) => ({
          line: line + 1,
          column: column + 1,
        }));
        const file = relative(process.cwd(), fileName);
        const isIn = isInSample({ file, location: { start, end }, mutatorName, replacement }, this.sample);
        return [id, isIn ? { status: 'passed' } : { status: 'compileError', reason: 'not in the sample' }];
      }),
    );
  }
}

export const strykerPlugins = [{ kind: 'Checker', name: 'sample', injectableClass: Sampler }];
