/** The file layer: regular files only, whole files or none, nothing of the user's lost. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { outputBase, outputNames } from '../../shared/output-name.js';
import { findUpwards, readRegularFile, writeWhole } from '../../src/files.js';
import { bareName } from '../../src/read/index.js';

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'linewright-files-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const limits = { fileBytes: 1000 };

describe('reading', () => {
  it('gives the bytes and the hash that sha256sum gives', async () => {
    const path = join(folder, 'a.svg');
    await writeFile(path, 'swell');
    const { bytes, sha256 } = await readRegularFile(path, limits);
    expect(new TextDecoder().decode(bytes)).toBe('swell');
    expect(sha256).toBe(execFileSync('sha256sum', [path], { encoding: 'utf8' }).split(' ')[0]);
  });

  it('unpacks gzip within the limit, and hashes what lies on disk', async () => {
    const packed = gzipSync('x'.repeat(900));
    await writeFile(join(folder, 'a.svgz'), packed);
    expect((await readRegularFile(join(folder, 'a.svgz'), limits)).bytes).toHaveLength(900);
    await writeFile(join(folder, 'bomb.svgz'), gzipSync('x'.repeat(1_000_000)));
    await expect(readRegularFile(join(folder, 'bomb.svgz'), limits)).rejects.toThrow(/larger than/);
    await writeFile(join(folder, 'cut.svgz'), packed.subarray(0, packed.length - 6));
    await expect(readRegularFile(join(folder, 'cut.svgz'), limits)).rejects.toThrow(/damaged or cut short/);
  });

  it('opens no pipe, device or folder, and names what is missing or too large', async () => {
    const pipe = join(folder, 'pipe.svg');
    execFileSync('mkfifo', [pipe]);
    await expect(readRegularFile(pipe, limits)).rejects.toThrow(/pipe/);
    await expect(readRegularFile('/dev/zero', limits)).rejects.toThrow(/device/);
    await expect(readRegularFile(folder, limits)).rejects.toThrow(/folder/);
    await expect(readRegularFile(join(folder, 'none.svg'), limits)).rejects.toThrow(/no such file/);
    await writeFile(join(folder, 'large.svg'), 'x'.repeat(1001));
    await expect(readRegularFile(join(folder, 'large.svg'), limits)).rejects.toThrow(/larger than/);
    await symlink(join(folder, 'loop.svg'), join(folder, 'loop.svg'));
    await expect(readRegularFile(join(folder, 'loop.svg'), limits)).rejects.toMatchObject({
      name: 'Refusal',
      message: `${join(folder, 'loop.svg')}: cannot be read, the links lead in a circle.`,
    });
  });
});

describe('writing', () => {
  it('makes the folder, and leaves nothing but the file', async () => {
    await writeWhole(join(folder, 'new/deep/a.txt'), 'one');
    expect(await readdir(join(folder, 'new/deep'))).toEqual(['a.txt']);
  });

  it('overwrites with force only, and an input never', async () => {
    const path = join(folder, 'a.txt');
    await writeWhole(path, 'one');
    await expect(writeWhole(path, 'two')).rejects.toThrow(/exists already; --force/);
    await writeWhole(path, 'two', { force: true });
    expect(await readFile(path, 'utf8')).toBe('two');
    await symlink(path, join(folder, 'other-name.txt'));
    const inputs = [join(folder, 'other-name.txt')];
    await expect(writeWhole(path, 'three', { force: true, inputs })).rejects.toThrow(/input/);
    expect(await readFile(path, 'utf8')).toBe('two');
    expect((await readdir(folder)).sort()).toEqual(['a.txt', 'other-name.txt']);
  });

  it('says what is in the way', async () => {
    await writeFile(join(folder, 'a'), '');
    await expect(writeWhole(join(folder, 'a/b.txt'), 'x')).rejects.toMatchObject({ name: 'Refusal' });
  });

  // The system keeps /proc itself, and says of a folder to be made there that there is none.
  it.runIf(existsSync('/proc/self'))('refuses where the system takes no folders', async () => {
    for (const path of ['/proc/none/a.txt', '/proc/none/deep/a.txt'])
      await expect(writeWhole(path, 'x')).rejects.toThrow(
        /cannot be written, there is no such file or folder/,
      );
  });

  it('makes a folder that is made elsewhere at the same time', async () => {
    const paths = Array.from({ length: 20 }, (_, k) => join(folder, `a/b/c/${k}.txt`));
    await Promise.all(paths.map((path) => writeWhole(path, 'x')));
    expect(await readdir(join(folder, 'a/b/c'))).toHaveLength(20);
  });
});

describe('the settings file', () => {
  it('is the nearest upwards', async () => {
    await mkdir(join(folder, 'a/b/c'), { recursive: true });
    await writeFile(join(folder, 'a/linewright.json'), '{}');
    expect(await findUpwards('linewright.json', join(folder, 'a/b/c'))).toBe(
      join(folder, 'a/linewright.json'),
    );
    expect(await findUpwards('no-such-name.json', join(folder, 'a'))).toBeNull();
  });
});

describe('names of outputs', () => {
  it.each([
    ['swell.svg', 'swell'],
    ['folder/swell.motif.json', 'swell'],
    ['../../etc/passwd', 'passwd'],
    ['C:\\quilts\\kelp.SVGZ', 'kelp'],
    ['..', '__'],
    ['.svg', '_svg'],
    ['CON.svg', 'CON_'],
    ['con.fusion.svg', 'con_.fusion'],
    ['confusion.svg', 'confusion'],
    ['lpt1 .old.svg', 'lpt1_ .old'],
    ['a:b?.svg', 'a_b_'],
    ['swell\u001b[31m.svg', 'swell_[31m'],
    ['étoile de mer.svg', 'étoile de mer'],
    ['trailing. .svg', 'trailing'],
  ])('%j gives %j', (file, name) => {
    expect(outputBase(bareName(file))).toBe(name);
  });

  it('lead nowhere, are never empty, and differ from one another, whatever the inputs are called', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'binary', maxLength: 300 }), { maxLength: 8 }), (files) => {
        const names = outputNames(files);
        expect(new Set(names.map((name) => name.normalize('NFC').toLowerCase())).size).toBe(files.length);
        for (const name of names) {
          expect(name).not.toMatch(/[\\/]|^\.|^$/u);
          expect(name).not.toContain('\0');
          expect(Buffer.byteLength(name)).toBeLessThan(200);
        }
      }),
      { seed: 31 },
    );
  });

  it('number the second of two alike', () => {
    expect(outputNames(['a/swell.svg', 'b/swell.dxf', 'swell.motif.json'].map(bareName))).toEqual([
      'swell',
      'swell-2',
      'swell-3',
    ]);
  });
});
