/** The examples of the README, run in their order as they are typed there, in a copy of what the project ships. */
import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { program } from './run.js';

const project = new URL('../../', import.meta.url).pathname;
const readme = readFileSync(join(project, 'README.md'), 'utf8');

interface Example {
  readonly command: string;
  /** What the README shows of the output, up to its "…". */
  readonly shown: readonly string[];
}

/** Indented blocks; of one that begins with a prompt the rest is output. */
function examplesIn(text: string): Example[] {
  const blocks = text.split(/\n\n/).filter((block) => /^ {4}(?:\$ )?linewright /.test(block));
  return blocks.flatMap((block) => {
    const lines = block.split('\n').map((line) => line.slice(4));
    if (!lines[0].startsWith('$ ')) return lines.map((command) => ({ command, shown: [] }));
    const [command, ...output] = lines;
    return [{ command: command.slice(2), shown: output.slice(0, output.indexOf('…')) }];
  });
}

const cwd = mkdtempSync(join(tmpdir(), 'linewright-readme-'));
cpSync(join(project, 'corpus'), join(cwd, 'corpus'), { recursive: true });
const bin = mkdtempSync(join(tmpdir(), 'linewright-bin-'));
writeFileSync(join(bin, 'linewright'), `#!/bin/sh\nexec '${process.execPath}' '${program}' "$@"\n`);
chmodSync(join(bin, 'linewright'), 0o755);

const inText = [...readme.matchAll(/`(linewright [^`]*\.svg[^`]*)`/g)].map(([, command]) => ({
  command: command.replaceAll(/\s+/g, ' '),
  shown: [],
}));

describe('the examples of the README', { timeout: 120_000 }, () => {
  const examples = [...examplesIn(readme), ...inText];

  it('are there', () => {
    expect(examples.length).toBeGreaterThan(12);
  });

  it.each(examples)('$command', ({ command, shown }) => {
    const { status, stdout, stderr } = spawnSync('sh', ['-c', command], {
      cwd,
      env: { ...process.env, PATH: `${bin}:${process.env.PATH}`, NO_COLOR: '1' },
      encoding: 'utf8',
    });
    // Faults of a motif are shown on purpose (1); a call that is wrong ends with 2 and a sentence.
    expect({ status, stderr: status === 2 ? stderr : '' }).toEqual({
      status: status === 1 ? 1 : 0,
      stderr: '',
    });
    expect(stdout.split('\n').slice(0, shown.length)).toEqual(shown);
  });
});
