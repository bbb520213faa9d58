/**
 * The bench: how long the work takes, as ratios taken in one run, beside the aims. Every module of this folder that
 * exports a function named `...Rows` adds its rows to the table.
 *
 *     npm run bench                    all of it
 *     npm run bench -- reading check   only these modules
 */
import { readdirSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import { wrapAnsi } from 'fast-wrap-ansi';
import type { BenchRow } from './row.js';

type Rows = () => BenchRow[] | Promise<BenchRow[]>;

const wanted = process.argv.slice(2);
const modules = readdirSync(import.meta.dirname)
  .filter((file) => file.endsWith('.ts') && file !== 'bench.ts')
  .filter((file) => wanted.length === 0 || wanted.includes(file.replace('.ts', '')));

console.log(machine());
for (const module of modules) {
  const exported: Record<string, unknown> = await import(`./${module}`);
  for (const [name, rows] of Object.entries(exported)) {
    if (name.endsWith('Rows')) for (const row of await (rows as Rows)()) console.log(`\n${told(row)}`);
  }
}

function machine(): string {
  const [{ model }] = cpus();
  const memory = (totalmem() / 2 ** 30).toFixed(1);
  return `Node ${process.versions.node} on ${cpus().length} x ${model.trim()}, ${memory} GB, ${process.platform}`;
}

/** A row in 80 columns, its parts under one another: sentences do not fit beside each other. */
function told({ work, measured, aim }: BenchRow): string {
  const part = (label: string, text: string) =>
    wrapAnsi(text, 68)
      .split('\n')
      .map((line, i) => `  ${(i === 0 ? label : '').padEnd(9)} ${line}`)
      .join('\n');
  return `${work}\n${part('measured', measured)}\n${part('aim', aim)}`;
}
