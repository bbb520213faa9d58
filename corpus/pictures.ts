/**
 * Makes the pictures of the README anew: `npm run pictures`, or with names such as `desk library`. Drawings come from the built
 * program as it is typed there, pages from a browser, so they need /usr/bin/chromium and differ a little with its fonts.
 */
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium, type Page } from 'playwright-core';

const root = fileURLToPath(new URL('..', import.meta.url));
const pictures = join(root, 'corpus/pictures');
const made = mkdtempSync(join(tmpdir(), 'linewright-pictures-'));

function linewright(...words: string[]): void {
  const { status, stderr } = spawnSync(process.execPath, ['dist/main.js', ...words], {
    cwd: root,
    encoding: 'utf8',
  });
  if (status !== 0 && status !== 1) throw new Error(`linewright ${words.join(' ')}: ${stderr}`);
}

/** What the browser shows of a page, once `ready` has brought it there. */
async function page(file: string, name: string, ready: (shown: Page) => Promise<unknown>): Promise<void> {
  const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
  try {
    const shown = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await shown.goto(pathToFileURL(file).href);
    await ready(shown);
    await shown.screenshot({ path: join(pictures, `${name}.png`) });
  } finally {
    await browser.close();
  }
}

const makers: Readonly<Record<string, () => void | Promise<void>>> = {
  kelp: () => {
    linewright('convert', 'corpus/motifs/kelp.svg', '--to', 'png', '--pixels', '960', '--out', made);
    copyFileSync(join(made, 'kelp.png'), join(pictures, 'kelp.png'));
  },
  'buoys-mended': () => {
    linewright('mend', 'corpus/pieces/buoys.svg', '--reshape', '--out', made, '--picture', made);
    copyFileSync(join(made, 'buoys-mended.png'), join(pictures, 'buoys-mended.png'));
  },
  'tide-lines-rows': () =>
    linewright(
      ...['rows', 'corpus/motifs/tide-lines.svg', '--force'],
      ...['--picture', join(pictures, 'tide-lines-rows.png')],
    ),
  'quilt-plan': () => {
    const words = [
      '--quilt',
      '60in x 72in',
      '--throat',
      '18in',
      '--bobbin',
      '120yd',
      '--out',
      join(made, 'quilt'),
    ];
    linewright('plan', 'corpus/motifs/kelp.svg', ...words);
    copyFileSync(join(made, 'quilt/plan.png'), join(pictures, 'quilt-plan.png'));
  },
  library: async () => {
    const folder = join(made, 'library');
    linewright('library', 'build', 'corpus/motifs', '--out', folder);
    await page(join(folder, 'index.html'), 'library', (shown) => shown.waitForLoadState('networkidle'));
  },
  desk: () =>
    page(join(root, 'dist/linewright.html'), 'desk', async (shown) => {
      await shown.getByRole('button', { name: /^Buoys/ }).click();
      await shown.getByRole('button', { name: 'Do it' }).last().waitFor();
      await shown.locator('.busy').waitFor({ state: 'detached' });
      await shown.locator('#see').evaluate((heading) => heading.scrollIntoView());
    }),
};

const asked = process.argv.length > 2 ? process.argv.slice(2) : Object.keys(makers);
try {
  for (const name of asked) {
    const make = makers[name];
    if (!make) throw new Error(`There is no picture ${name}; there are ${Object.keys(makers).join(', ')}.`);
    await make();
    console.log(`corpus/pictures/${name}.png`);
  }
} finally {
  rmSync(made, { recursive: true, force: true });
}
