#!/usr/bin/env node
/**
 * Starts the program. Compiling it takes longer than checking a small motif, so it lies in one script, beside it the code
 * that V8 made of that script when the package was built (a code cache: `cachedData` of `vm.Script` in Node's manual).
 *
 * V8 refuses code that another version of it or other flags made, and compiles the script as ever. Of the script it
 * compares the length only, and of the machine nothing, though code made on another kind may end the program; so the
 * file's name says what it was made of and where, and any other is not found.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';

/** Of the script, by the bundler. */
declare const scriptHash: string;

const { platform, arch, versions } = process;
const file = besideThis('program.cjs');
export const codeFile = besideThis(`program-${scriptHash}-${platform}-${arch}-${versions.v8}.code`);

export const program = new Script(readFileSync(file, 'latin1'), { filename: file, cachedData: compiled() });

program.runInThisContext()(createRequire(import.meta.url), import.meta.url);

function besideThis(name: string): string {
  return fileURLToPath(new URL(name, import.meta.url));
}

function compiled(): Buffer | undefined {
  try {
    return readFileSync(codeFile);
  } catch {
    return undefined;
  }
}
