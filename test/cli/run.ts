/** The built program, run as its own process, as a user runs it. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export const program = new URL('../../dist/main.js', import.meta.url).pathname;

export interface Run {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface Around {
  /** Working folder; a new and empty one where none is given. */
  readonly cwd?: string;
  readonly env?: Readonly<Record<string, string>>;
}

/** `linewright WORDS...` with its output in pipes. */
export function linewright(words: readonly string[], { cwd = emptyFolder(), env = {} }: Around = {}): Run {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
    cwd,
    env: { PATH: process.env.PATH, ...env },
    encoding: 'utf8',
  });
  return { code: status, stdout, stderr };
}

export function emptyFolder(): string {
  return mkdtempSync(join(tmpdir(), 'linewright-cli-'));
}

/** A small drawing of one level stroke, 100 mm wide and 40 mm high. */
export const waveSvg =
  '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="40mm" viewBox="0 0 100 40">' +
  '<title>Wave</title><path fill="none" stroke="#000" d="M0 20L25 0L75 40L100 20"/></svg>';
