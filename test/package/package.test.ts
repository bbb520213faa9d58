/** What is published: only what runs, all that it needs, and the licences of what is in it. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { isBuiltin } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { version } from '../../shared/version.js';

const root = new URL('../../', import.meta.url);
const read = (path: string) => readFileSync(new URL(path, root), 'utf8');
const manifest = JSON.parse(read('package.json'));
/** Made of this very script, on this kind of machine. */
const { platform, arch, versions } = process;
const scriptHash = createHash('sha256').update(read('dist/program.cjs')).digest('hex').slice(0, 12);
const code = `program-${scriptHash}-${platform}-${arch}-${versions.v8}.code`;

describe('the package', () => {
  it('holds only what runs, its types, the schemas and what people read (npm pack)', () => {
    const report = execFileSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
      cwd: root,
      encoding: 'utf8',
    });
    const paths: string[] = JSON.parse(report)[0].files.map(({ path }: { path: string }) => path);
    const belongs =
      /^(dist\/[^/]+\.js|dist\/program\.cjs|dist\/program-[^/]+\.code|dist\/types\/(src|rules|shared)\/.+\.d\.ts|dist\/types\/shared\/.+\.json|dist\/NOTICES\.txt|dist\/linewright\.html|shared\/[^/]+\.schema\.json|README\.md|LICENSE|package\.json)$/;
    expect(paths.filter((path) => !belongs.test(path))).toEqual([]);
    for (const needed of [
      'dist/main.js',
      'dist/program.cjs',
      `dist/${code}`,
      'dist/index.js',
      'dist/node.js',
      'dist/linewright.html',
      'dist/worker.js',
      'dist/types/src/index.d.ts',
    ]) {
      expect(paths).toContain(needed);
    }
  });

  it('leads to files that exist', () => {
    const { '.': core, './node': node, ...files } = manifest.exports;
    const entries = [core, node].flatMap(({ types, default: code }) => [types, code]);
    for (const path of [...entries, ...Object.values(files), manifest.bin.linewright]) {
      expect(existsSync(new URL(path, root)), path).toBe(true);
    }
    expect(read(manifest.bin.linewright)).toMatch(/^#!\/usr\/bin\/env node\n/);
  });

  it('imports nothing but Node itself and its dependencies, at once or when needed (esbuild finds both)', async () => {
    const modules = readdirSync(new URL('dist/', root)).filter((name) => name.endsWith('.js'));
    // The command line is a function to which `require` is given: what it holds is looked at.
    const program = read('dist/program.cjs').trim();
    const inside = program.slice(program.indexOf('{') + 1, program.lastIndexOf('}'));
    const found = await Promise.all(
      [
        { entryPoints: modules.map((name) => new URL(`dist/${name}`, root).pathname) },
        { stdin: { contents: inside, resolveDir: root.pathname } },
      ].map((what) =>
        build({
          ...what,
          bundle: true,
          packages: 'external',
          platform: 'node',
          format: 'esm',
          outdir: 'nowhere',
          write: false,
          metafile: true,
          logLevel: 'silent',
        }),
      ),
    );
    for (const { metafile } of found) {
      const imported = Object.values(metafile.inputs)
        .flatMap(({ imports }) => imports)
        .filter(({ external, path }) => external && !isBuiltin(path));
      const packages = [...new Set(imported.map(({ path }) => path.match(/^(?:@[^/]+\/)?[^/]+/)![0]))];
      expect(packages).toEqual(Object.keys(manifest.dependencies));
    }
    const imported = Object.values(found[0].metafile.inputs).flatMap(({ imports }) => imports);
    // The one there is, is loaded only when a picture is painted: imports of that kind are seen too.
    expect(imported.map(({ kind }) => kind)).toContain('dynamic-import');
  });

  it('starts from code that V8 takes, and without it, or with code that is spoiled, does the same', () => {
    const program = new URL('dist/program.cjs', root).pathname;
    const made = new URL(`dist/${code}`, root).pathname;
    expect(readdirSync(new URL('dist/', root)).filter((name) => name.endsWith('.code'))).toEqual([code]);
    // It is read as one byte a character.
    expect(read('dist/program.cjs')).toMatch(/^[\0-\x7f]*$/);
    const taken = `const { readFileSync } = require('node:fs');
      const [source, cachedData] = [readFileSync('${program}', 'latin1'), readFileSync('${made}')];
      console.log(new (require('node:vm').Script)(source, { cachedData }).cachedDataRejected)`;
    expect(execFileSync(process.execPath, ['-e', taken], { encoding: 'utf8' })).toBe('false\n');
    const motif = new URL('corpus/motifs/kelp.svg', root).pathname;
    const check = (main: string) =>
      execFileSync(process.execPath, [main, 'check', motif], { encoding: 'utf8' });
    const told = check(new URL('dist/main.js', root).pathname);
    const folder = mkdtempSync(join(tmpdir(), 'linewright-package-'));
    for (const name of ['main.js', 'program.cjs'])
      copyFileSync(new URL(`dist/${name}`, root), join(folder, name));
    writeFileSync(join(folder, 'package.json'), '{"type":"module"}');
    expect(check(join(folder, 'main.js'))).toBe(told);
    writeFileSync(join(folder, code), readFileSync(made).fill(7, 0, 64));
    expect(check(join(folder, 'main.js'))).toBe(told);
    rmSync(folder, { recursive: true });
  });

  it('has a core that browsers can take as it is, loaded when needed or not (esbuild for browsers knows none of Node)', async () => {
    const { metafile } = await build({
      entryPoints: [new URL('dist/index.js', root).pathname],
      bundle: true,
      platform: 'browser',
      format: 'esm',
      write: false,
      metafile: true,
      logLevel: 'silent',
    });
    const foreign = Object.values(metafile.inputs).flatMap(({ imports }) =>
      imports.filter(({ external, path }) => external || isBuiltin(path)),
    );
    expect(foreign).toEqual([]);
  });

  it('has one version everywhere', () => {
    expect(version).toBe(manifest.version);
  });

  it('names the licence of every package that is part of it', () => {
    const notices = read('dist/NOTICES.txt');
    for (const name of ['preact', 'saxes', 'yargs', 'css-tree', 'delaunator', 'pngjs']) {
      expect(notices).toMatch(new RegExp(`^${name} \\d[\\d.]* \\([A-Z]`, 'm'));
    }
    const unfree = [...notices.matchAll(/^(\S+ [\d.]+) \((.+)\)$/gm)].filter(
      ([, , licence]) => !/^(MIT|ISC|BSD-[23]-Clause|Unlicense|Apache-2\.0|0BSD)$/.test(licence),
    );
    expect(unfree).toEqual([]);
  });
});
