/** What is published: only what runs, all that it needs, and the licences of what is in it. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { isBuiltin } from 'node:module';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { version } from '../../shared/version.js';

const root = new URL('../../', import.meta.url);
const read = (path: string) => readFileSync(new URL(path, root), 'utf8');
const manifest = JSON.parse(read('package.json'));

describe('the package', () => {
  it('holds only what runs, its types, the schemas and what people read (npm pack)', () => {
    const report = execFileSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
      cwd: root,
      encoding: 'utf8',
    });
    const paths: string[] = JSON.parse(report)[0].files.map(({ path }: { path: string }) => path);
    const belongs =
      /^(dist\/[^/]+\.js|dist\/types\/(src|rules|shared)\/.+\.d\.ts|dist\/types\/shared\/.+\.json|dist\/NOTICES\.txt|dist\/linewright\.html|shared\/[^/]+\.schema\.json|README\.md|LICENSE|package\.json)$/;
    expect(paths.filter((path) => !belongs.test(path))).toEqual([]);
    for (const needed of [
      'dist/main.js',
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
    const { metafile } = await build({
      entryPoints: readdirSync(new URL('dist/', root))
        .filter((name) => name.endsWith('.js'))
        .map((name) => new URL(`dist/${name}`, root).pathname),
      bundle: true,
      packages: 'external',
      platform: 'node',
      format: 'esm',
      outdir: 'nowhere',
      write: false,
      metafile: true,
      logLevel: 'silent',
    });
    const imported = Object.values(metafile.inputs)
      .flatMap(({ imports }) => imports)
      .filter(({ external, path }) => external && !isBuiltin(path));
    const packages = [...new Set(imported.map(({ path }) => path.match(/^(?:@[^/]+\/)?[^/]+/)![0]))];
    expect(packages).toEqual(Object.keys(manifest.dependencies));
    // The one there is, is loaded only when a picture is painted: imports of that kind are seen too.
    expect(imported.map(({ kind }) => kind)).toContain('dynamic-import');
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
