/** The example for programs in the README, run as it stands there, against the built package. */
import { execFileSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const root = new URL('../../', import.meta.url).pathname;

it('does what the README says', () => {
  const readme = readFileSync(join(root, 'README.md'), 'utf8');
  const [example] = /(?:^ {4}.*\n|^\n)+/m.exec(
    readme.slice(readme.indexOf('\n    import { readFile }') + 1),
  )!;
  const folder = mkdtempSync(join(tmpdir(), 'linewright-example-'));
  mkdirSync(join(folder, 'node_modules'));
  symlinkSync(root, join(folder, 'node_modules/linewright'));
  copyFileSync(join(root, 'corpus/motifs/kelp.svg'), join(folder, 'kelp.svg'));
  writeFileSync(join(folder, 'example.mjs'), example.replace(/^ {4}/gm, ''));
  const said = execFileSync(process.execPath, ['example.mjs'], { cwd: folder, encoding: 'utf8' });
  // What `linewright rows kelp.svg --height 6in` recommends: the command line is another way to the same functions.
  const rows = execFileSync(
    process.execPath,
    [join(root, 'dist/main.js'), 'rows', 'kelp.svg', '--height', '6in', '--json'],
    { cwd: folder, encoding: 'utf8' },
  );
  const { recommended, layouts } = JSON.parse(rows);
  const { evenSpacingMm } = layouts.find(({ layout }: { layout: string }) => layout === recommended);
  expect(said).toContain(`${recommended} rows, ${evenSpacingMm.toFixed(1)} mm apart`);
  for (const file of ['kelp.motif.json', 'kelp.png'])
    expect(existsSync(join(folder, 'ready', file)), file).toBe(true);
});
