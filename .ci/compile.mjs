/** Checks a motif with curves too tight for it and keeps what V8 compiled meanwhile, so that the next start need not (see src/cli/start.ts). */
import { writeFileSync } from 'node:fs';

process.argv.splice(1, Infinity, 'dist/main.js', 'check', 'corpus/motifs/breakers.svg', '--width', '70mm');
const { program, codeFile } = await import('../dist/main.js');
process.on('exit', () => writeFileSync(codeFile, program.createCachedData()));
