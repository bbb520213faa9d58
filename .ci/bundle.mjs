/**
 * Bundles the program into dist/: few files to open make a small `check` start fast, and a package without
 * dependencies but one. What the bundled packages' licences ask for goes into dist/NOTICES.txt.
 */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { isBuiltin } from 'node:module';
import { join } from 'node:path';
import { build } from 'esbuild';

/**
 * Node's own modules, which CommonJS packages ask for with `require`, as imports: so no file carries a `require` made from
 * `node:module`, and the core stays free of Node.
 */
const nodeModules = {
  name: 'node-modules',
  setup(asked) {
    asked.onResolve({ filter: /.*/ }, ({ path, kind }) =>
      kind === 'require-call' && isBuiltin(path) ? { path, namespace: 'node-module' } : undefined,
    );
    asked.onLoad({ filter: /.*/, namespace: 'node-module' }, ({ path }) => ({
      contents: `import whole from 'node:${path.replace(/^node:/, '')}'; module.exports = whole;`,
    }));
  },
};

const shared = {
  bundle: true,
  target: 'node20',
  alias: {
    // The same package as one file, which does not look for its data on disk.
    'css-tree': 'css-tree/dist/csstree.esm',
    // Gives the same widths, without loading tables of all scripts before the first word is said.
    'string-width': 'fast-string-width',
  },
  logLevel: 'warning',
};

const { metafile } = await build({
  ...shared,
  entryPoints: [
    'src/cli/main.ts',
    'src/index.ts',
    'src/node.ts',
    'src/library/worker.ts',
    'src/cli/file-worker.ts',
  ],
  outdir: 'dist',
  entryNames: '[name]',
  splitting: true,
  format: 'esm',
  platform: 'node',
  // A native module: it cannot be bundled, and is loaded only where a picture is made.
  external: ['@resvg/resvg-js'],
  plugins: [nodeModules],
  metafile: true,
});

// Last, so that a program that is running meanwhile still finds its parts.
for (const name of readdirSync('dist')) {
  if (name.endsWith('.js') && !(`dist/${name}` in metafile.outputs)) rmSync(join('dist', name));
}

// Packages may lie inside one another, in different versions.
const folders = new Set(
  Object.keys(metafile.inputs).flatMap(
    (path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/.exec(path)?.[0] ?? [],
  ),
);
const notices = [...folders].map((folder) => {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const file = readdirSync(folder).find((each) => /^licen[cs]e/i.test(each));
  if (!license) throw new Error(`${name} states no licence`);
  return `${name} ${version} (${license})\n\n${file ? readFileSync(join(folder, file), 'utf8').trim() : ''}\n`;
});
notices.sort();
writeFileSync(
  'dist/NOTICES.txt',
  `Packages that are part of this program, and their licences.\n\n${notices.join('\n----\n\n')}`,
);
