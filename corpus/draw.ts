/**
 * Draws the corpus: `npm run corpus`, or `tsx corpus/draw.ts FOLDER` to draw it elsewhere. Every file comes out the
 * same, byte for byte, each time.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { corpusFiles } from './draw/files.js';
import { scanFiles } from './draw/scans.js';

const folder = process.argv[2] ?? dirname(fileURLToPath(import.meta.url));
const files = new Map<string, string | Uint8Array>([...corpusFiles(), ...scanFiles()]);
for (const [path, content] of files) {
  const target = join(folder, path);
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, content);
}
console.log(`${files.size} files drawn in ${folder}`);
