/**
 * Bundles the program into dist/: few files to open make a small `check` start fast, and a package without
 * dependencies but one. What the bundled packages' licences ask for goes into dist/NOTICES.txt.
 */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';

const { metafile } = await build({
  entryPoints: ['src/cli/main.ts', 'src/index.ts', 'src/library/worker.ts', 'src/cli/file-worker.ts'],
  outdir: 'dist',
  entryNames: '[name]',
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  // A native module: it cannot be bundled, and is loaded only where a picture is made.
  external: ['@resvg/resvg-js'],
  alias: {
    // The same package as one file, which does not look for its data on disk.
    'css-tree': 'css-tree/dist/csstree.esm',
    // Gives the same widths, without loading tables of all scripts before the first word is said.
    'string-width': 'fast-string-width',
  },
  // CommonJS packages ask for node's own modules with `require`.
  banner: {
    js: "import { createRequire as requireFrom } from 'node:module';\nconst require = requireFrom(import.meta.url);",
  },
  metafile: true,
  logLevel: 'warning',
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
