/** `linewright library build`: many files and folders to a library, or one brought up to date. */
import { existsSync, realpathSync } from 'node:fs';
import { relative, resolve, sep } from 'node:path';
import { type Say, sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { buildLibrary } from '../library/build.js';
import type { Entry, Verdict } from '../library/contents/index-file.js';
import { kindsText, type PassedOver } from '../library/sources.js';
import { deskText } from './desk.js';
import type { ExitCode } from './exit-code.js';
import { loadSetup } from './load.js';
import type { Typed } from './options.js';
import { plain } from './page.js';
import { answering, print, printJson } from './print.js';
import { Progress } from './progress.js';

export async function build(typed: Typed): Promise<ExitCode> {
  const setup = await loadSetup(typed);
  return answering(typed, () => answer(setup, typed));
}

async function answer(setup: Setup, typed: Typed): Promise<ExitCode> {
  const folder = typed.out as string;
  const say = sayIn(setup.unit);
  let progress = new Progress(0, process.stderr);
  let done = 0;
  const told = new Set<string>();
  const result = await buildLibrary(typed.sources as string[], folder, setup, {
    prune: typed.prune as boolean,
    reshape: typed.reshape as boolean,
    desk: await deskText(),
    report: {
      onWait: () => complain('Another build is at work in this folder; waiting for it.'),
      onStart: (toDo) => {
        progress = new Progress(toDo, process.stderr);
      },
      onDone: (entry) => {
        progress.show(done++, plain(fromHere(folder, entry.source)));
        // On a terminal the line of progress tells of them.
        if (typed.json || process.stderr.isTTY) return;
        print(entryLine(entry, folder));
        told.add(entry.source);
      },
    },
  });
  progress.clear();
  result.complaints.forEach(complain);
  const { entries } = result.index;
  const count = (status: Verdict) => entries.filter((entry) => entry.status === status).length;
  const counts = {
    clean: count('clean'),
    warnings: count('warnings'),
    errors: count('errors'),
    unreadable: count('unreadable'),
  };
  const { done: worked, unchanged, passedOver } = result;
  if (typed.json) {
    printJson({
      done: worked,
      unchanged,
      ...passedOverJson(passedOver),
      complaints: result.complaints,
      ...counts,
    });
  } else {
    for (const entry of entries) {
      if (entry.status === 'unreadable')
        complain((entry.reason ?? '').replaceAll(entry.source, fromHere(folder, entry.source)));
      // Also those of earlier builds: the count below has them in it.
      if (entry.status === 'errors' && !told.has(entry.source)) print(entryLine(entry, folder));
    }
    print(
      `${say.count(entries.length, 'file')}: ${counts.clean} clean, ${counts.warnings} with warnings, ` +
        `${counts.errors} with errors, ${counts.unreadable} that could not be read`,
    );
    print(`${worked} done now, ${unchanged} unchanged`);
    for (const sentence of passedOverText(passedOver, say)) print(sentence);
    print(`Open ${plain(folder)}/index.html to look at them.`);
  }
  if (counts.unreadable > 0 || result.complaints.length > 0) return 2;
  return counts.errors > 0 ? 1 : 0;
}

function passedOverText({ kinds, hiddenFolders, libraries }: PassedOver, say: Say): string[] {
  const sentences: string[] = [];
  const others = countOf(kinds);
  if (others > 0)
    sentences.push(`Passed over: ${say.count(others, 'file')} of other kinds (${plain(kindsText(kinds))})`);
  if (hiddenFolders > 0) sentences.push(`Passed over: ${say.count(hiddenFolders, 'hidden folder')}`);
  for (const folder of libraries)
    sentences.push(`Passed over: ${plain(folder)}, a library, whose motifs are made from originals`);
  return sentences;
}

/** `passedOver` is the number of files of other kinds. */
function passedOverJson({ kinds, hiddenFolders, libraries }: PassedOver) {
  return { passedOver: countOf(kinds), kinds: Object.fromEntries(kinds), hiddenFolders, libraries };
}

function countOf(kinds: PassedOver['kinds']): number {
  return kinds.reduce((sum, [, count]) => sum + count, 0);
}

/** A source, which the index tells from the library's folder, as one would type it here. */
function fromHere(folder: string, source: string): string {
  const path = resolve(existsSync(folder) ? realpathSync(folder) : folder, source);
  const here = relative(realpathSync('.'), path);
  return here.startsWith(`..${sep}..`) ? path : here;
}

function entryLine({ source, status, motif }: Entry, folder: string): string {
  const errors = motif?.findings.filter(({ severity }) => severity === 'error').map(({ rule }) => rule) ?? [];
  const why = errors.length > 0 ? ` (${[...new Set(errors)].join(', ')})` : '';
  return `${plain(fromHere(folder, source))}: ${status}${why}${motif ? ` -> ${plain(motif.name)}` : ''}`;
}

function complain(sentence: string): void {
  process.stderr.write(`${plain(sentence)}\n`);
}
