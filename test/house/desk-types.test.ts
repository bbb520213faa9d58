/** The desk has types of its own kind, those of a browser: what changes in the core must not leave it behind. */
import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';

it('holds by the TypeScript compiler, under the settings of a browser', () => {
  const { stdout, status } = spawnSync('npx', ['tsc', '-p', 'src/desk'], {
    cwd: new URL('../../', import.meta.url),
    encoding: 'utf8',
  });
  expect(stdout).toBe('');
  expect(status).toBe(0);
}, 60_000);
