#!/usr/bin/env node
/**
 * Starts the program. Compiling it takes longer than checking a small motif, so it lies in one script, beside it the code
 * that V8 made of that script when the package was built (a code cache: `cachedData` of `vm.Script` in Node's manual).
 * V8 itself refuses code that another version of it made, and compiles the script as ever.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';

const file = fileURLToPath(new URL('./program.cjs', import.meta.url));

export const program = new Script(readFileSync(file, 'latin1'), { filename: file, cachedData: compiled() });

program.runInThisContext()(createRequire(import.meta.url), import.meta.url);

function compiled(): Buffer | undefined {
  try {
    return readFileSync(`${file}.code`);
  } catch {
    return undefined;
  }
}
