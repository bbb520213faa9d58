/** Several files written all or none, on the disk. */
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { writeAllOrNone } from '../../src/cli/all-or-none.js';

const folder = () => mkdtempSync(join(tmpdir(), 'linewright-all-'));

it('writes all of them, in folders that are not there yet', async () => {
  const out = folder();
  await writeAllOrNone([
    { path: join(out, 'a'), data: 'one' },
    { path: join(out, 'deep/er/b'), data: Uint8Array.of(116, 119, 111) },
  ]);
  expect([readFileSync(join(out, 'a'), 'utf8'), readFileSync(join(out, 'deep/er/b'), 'utf8')]).toEqual([
    'one',
    'two',
  ]);
  expect(readdirSync(out).sort()).toEqual(['a', 'deep']);
});

it('takes back what it has named where the next cannot be, and leaves no traces', async () => {
  const out = folder();
  writeFileSync(join(out, 'kept'), 'before');
  // The same name twice: free when looked at, taken when its turn comes.
  const twice = ['a', 'b', 'b'].map((name) => ({ path: join(out, name), data: name }));
  await expect(writeAllOrNone(twice)).rejects.toThrow('b: exists already; --force overwrites it.');
  expect(readdirSync(out)).toEqual(['kept']);
});

it('puts back what it has overwritten where the next cannot be', async () => {
  const out = folder();
  writeFileSync(join(out, 'old'), 'before');
  // A folder comes into the way of the last one after it was looked at: the one that the second output lies in.
  const outputs = [
    { path: join(out, 'old'), data: 'after' },
    { path: join(out, 'new/inside'), data: 'new' },
    { path: join(out, 'new'), data: 'never' },
  ];
  await expect(writeAllOrNone(outputs, { force: true })).rejects.toThrow(
    /new: cannot be written, this is a folder/,
  );
  expect(readdirSync(out).sort()).toEqual(['new', 'old']);
  expect(readdirSync(join(out, 'new'))).toEqual([]);
  expect(readFileSync(join(out, 'old'), 'utf8')).toBe('before');
});

it('asks before it overwrites, and never overwrites an input', async () => {
  const out = folder();
  writeFileSync(join(out, 'there'), 'before');
  const outputs = [
    { path: join(out, 'first'), data: '1' },
    { path: join(out, 'there'), data: '2' },
  ];
  await expect(writeAllOrNone(outputs)).rejects.toThrow('exists already');
  const inputs = [join(out, 'there')];
  await expect(writeAllOrNone(outputs, { force: true, inputs })).rejects.toThrow(
    'inputs are never overwritten',
  );
  expect(readdirSync(out)).toEqual(['there']);
  await writeAllOrNone(outputs, { force: true });
  expect(readFileSync(join(out, 'there'), 'utf8')).toBe('2');
  expect(readdirSync(out).sort()).toEqual(['first', 'there']);
});
