/** `linewright desk`: writes the page that does everything in a browser. */
import { readFile } from 'node:fs/promises';
import { Refusal } from '../../shared/refusal.js';
import { refusing, writeWhole } from '../files.js';
import type { ExitCode } from './exit-code.js';
import type { Typed } from './options.js';
import { plain } from './page.js';
import { print } from './print.js';

export async function desk(typed: Typed): Promise<ExitCode> {
  const out = typed.out as string;
  if (!/\.html?$/i.test(out)) throw new Refusal('The desk is a web page: let --out end in .html.');
  await writeWhole(out, await deskText(), { force: typed.force as boolean, typed: true });
  print(`${plain(out)}: open it in a browser, with a double click, and drop a motif on it.`);
  return 0;
}

export function deskText(): Promise<string> {
  const page = new URL('./linewright.html', import.meta.url);
  return readFile(page, 'utf8').catch(refusing('The page of the desk', 'cannot be read'));
}
