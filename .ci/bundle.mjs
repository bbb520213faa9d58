/**
 * Bundles the program into dist/: few files to open make a small `check` start fast, and a package without
 * dependencies but one. What the bundled packages' licences ask for goes into dist/NOTICES.txt.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { isBuiltin } from 'node:module';
import { join } from 'node:path';
import { build, transform } from 'esbuild';

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

/** Yargs asks two things of `node:assert`, which loads half a dozen of Node's modules: a fiftieth of what a check takes. */
const lightAssert = {
  name: 'light-assert',
  setup(asked) {
    asked.onResolve({ filter: /^assert$/ }, ({ importer }) =>
      /node_modules.yargs/.test(importer) ? { path: 'yargs', namespace: 'light-assert' } : undefined,
    );
    asked.onLoad({ filter: /.*/, namespace: 'light-assert' }, () => ({
      contents: `const hold = (holds, message) => { if (!holds) throw new Error(message); };
        export const strictEqual = (one, other, message) => hold(Object.is(one, other), message);
        export const notStrictEqual = (one, other, message) => hold(!Object.is(one, other), message);`,
    }));
  },
};

/** `@cantoo/pdf-lib` does not say that its files do nothing by themselves, so all of it would be bundled: a megabyte. */
const pdfParts = {
  name: 'pdf-parts',
  setup(asked) {
    asked.onResolve({ filter: /^(?:@cantoo\/pdf-lib$|\.)/ }, async ({ path, pluginData, ...from }) => {
      if (pluginData === pdfParts) return undefined;
      if (path.startsWith('.') && !/node_modules.@cantoo.pdf-lib/.test(from.importer)) return undefined;
      return { ...(await asked.resolve(path, { ...from, pluginData: pdfParts })), sideEffects: false };
    });
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
    // The same package without threads of its own, which it gets by a `require` in Node.
    fflate: 'fflate/browser',
  },
  logLevel: 'warning',
};

const { metafile } = await build({
  ...shared,
  entryPoints: ['src/index.ts', 'src/node.ts', 'src/library/worker.ts', 'src/cli/file-worker.ts'],
  outdir: 'dist',
  entryNames: '[name]',
  splitting: true,
  format: 'esm',
  platform: 'node',
  // A native module: it cannot be bundled, and is loaded only where a picture is made.
  external: ['@resvg/resvg-js'],
  plugins: [nodeModules, pdfParts],
  metafile: true,
});

const program = await bundleProgram();
const desk = await bundleDesk();

// Last, so that a program that is running meanwhile still finds its parts.
for (const name of readdirSync('dist')) {
  if (name.endsWith('.js') && name !== 'main.js' && !(`dist/${name}` in metafile.outputs))
    rmSync(join('dist', name));
}

// Packages may lie inside one another, in different versions.
const folders = new Set(
  [metafile, program, desk]
    .flatMap(({ inputs }) => Object.keys(inputs))
    .flatMap((path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/.exec(path)?.[0] ?? []),
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

/**
 * The command line: one script, what V8 made of all that a check runs through, which is most of it, and the module that
 * starts it. Returns what went in.
 */
async function bundleProgram() {
  for (const name of readdirSync('dist')) if (name.endsWith('.code')) rmSync(join('dist', name));
  const { outputFiles, metafile: made } = await build({
    ...shared,
    entryPoints: ['src/cli/main.ts'],
    format: 'cjs',
    platform: 'node',
    external: ['@resvg/resvg-js'],
    minifyWhitespace: true,
    lineLimit: 160,
    legalComments: 'none',
    // A script, unlike a module, has neither `import()` nor an address of its own.
    supported: { 'dynamic-import': false },
    define: { 'import.meta.url': 'here' },
    banner: { js: '(function (require, here) {' },
    footer: { js: '})' },
    plugins: [lightAssert, pdfParts],
    write: false,
    metafile: true,
  });
  // With a byte to a character it is read sooner. What is not ASCII stands in patterns, where this means the same.
  const script = outputFiles[0].text.replace(
    /[^\0-\x7f]/g,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
  writeFileSync('dist/program.cjs', script);
  await build({
    ...shared,
    entryPoints: ['src/cli/start.ts'],
    outfile: 'dist/main.js',
    platform: 'node',
    format: 'esm',
    define: { scriptHash: JSON.stringify(createHash('sha256').update(script).digest('hex').slice(0, 12)) },
  });
  execFileSync(process.execPath, ['.ci/compile.mjs']);
  return made;
}

/** The desk as one file: script, style, worker (the same script) and the harbour's motifs in it. Returns what went in. */
async function bundleDesk() {
  const { outputFiles, metafile: made } = await build({
    ...shared,
    entryPoints: ['src/desk/main.tsx'],
    target: 'es2022',
    format: 'iife',
    platform: 'browser',
    minify: true,
    charset: 'utf8',
    legalComments: 'none',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    loader: { '.svg': 'text' },
    plugins: [pdfParts],
    write: false,
    metafile: true,
  });
  // Whatever would end a script element is written otherwise, which means the same inside a string or a pattern.
  const script = outputFiles[0].text.trim().replace(/<(?=\/script|!--|script)/gi, '\\x3C');
  const css = await transform(readFileSync('src/desk/style.css', 'utf8'), { loader: 'css', minify: true });
  const style = css.code.trim();
  const hash = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
  const policy = [
    "default-src 'none'",
    `script-src ${hash(script)}`,
    `style-src ${hash(style)}`,
    'worker-src blob:',
    'img-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  writeFileSync(
    'dist/linewright.html',
    `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>Linewright: the quilting desk</title>
<link rel="icon" href="data:,">
<style>${style}</style>
</head>
<body>
<div id="desk"></div>
<noscript><p>This page works with JavaScript: allow it for this file. Nothing leaves your computer.</p></noscript>
<script>${script}</script>
</body>
</html>
`,
  );
  return made;
}
