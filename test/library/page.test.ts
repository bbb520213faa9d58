/** The library page and its sheets in a real browser: what a quilter does with them, and what they must never do. */
import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { LibraryIndex, MotifEntry } from '../../src/library/contents/index-file.js';

const root = join(import.meta.dirname, '../..');
const corpus = ['crates', 'kelp', 'mussel-bed', 'net', 'swell'];
const oddTitle = `<img src=x onerror="document.title='taken'"></script><b>Buoy`;
const oddCreator = '<img src=x onerror=alert(1)> Otto';
const escaped = (text: string) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

const oddMotif = `<svg xmlns="http://www.w3.org/2000/svg" width="8in" height="4in" viewBox="0 0 800 400">
<title>${escaped(oddTitle)}</title>
<metadata><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#" xmlns:dc="http://purl.org/dc/elements/1.1/"
 xmlns:cc="http://creativecommons.org/ns#"><cc:Work rdf:about=""><dc:creator><cc:Agent><dc:title>${escaped(oddCreator)}</dc:title>
</cc:Agent></dc:creator></cc:Work></rdf:RDF></metadata>
<path fill="none" stroke="black" d="M0 200 C200 -60 300 460 400 200 S600 -60 800 200"/></svg>`;
// Three pieces with gaps, a stretch stitched twice, tight turns: a sheet with much to tell.
const tangle = `<svg xmlns="http://www.w3.org/2000/svg" width="8in" height="8in" viewBox="0 0 800 800"><title>Tangle</title>
<path fill="none" stroke="black" d="M0 200 L100 0 L110 780 L120 20 L125 700 L400 200 L402 200 L401 203 L0 201 L400 200
M420 205 L500 700 L498 702 L600 20 L600 400 L600 20 L780 300 L700 390 M705 400 C700 430 720 430 700 400 L720 600"/></svg>`;

// About all that can be wrong at once: two broken pieces beside frame, marks, dots, text and hidden lines.
const heap = `<svg width="800" height="700" viewBox="0 0 800 700"><title>Heap</title>
<text x="20" y="20">Heap</text><circle cx="500" cy="500" r="30" fill="red"/>
<clipPath id="c"><rect width="300" height="300"/></clipPath><g fill="none" stroke="black"><path d="M0 0H800V700H0Z"/>
<path d="M10 10h8M14 6v8M790 690h8M794 686v8M300 300h.1M310 300h.1"/><path style="display:none" d="M50 50L300 60"/>
<path clip-path="url(#c)" d="M20 200L100 40L110 660L120 40L125 660L400 200L402 200L401 203L20 201L400 200M420 205L500 660
L498 662L600 40L600 400L600 40L780 300L700 390M705 400C700 430 720 430 700 400L720 600L720.01 600.01L720 600.03"/>
<path d="M400 300L400 301L402 303L400 305L402 307L400 309L402 311L400 313M450 300c2 0 2 4 0 4c-2 0-2 4 0 4c2 0 2 4 0 4"/>
<path d="M300 400H420M300 402H420M300 404H420M300 500h100h-100h100h-100M350 450v100M350.5 450v100M300 480l100 60M100 400h80"/>
<path d="M100 400h80"/><path d="M100 500L200 500L20"/></g></svg>`;

let folder: string;
let library: string;
let motifs: readonly MotifEntry[];
let browser: Browser;
let page: Page;
const wide = { width: 1280, height: 900 };
/** However busy the machine is. */
const patient = { timeout: 30_000 };
const requests: string[] = [];
const complaints: string[] = [];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'linewright-page-'));
  await mkdir(join(folder, 'bought'));
  await writeFile(join(folder, 'bought/odd.svg'), oddMotif);
  await writeFile(join(folder, 'bought/tangle.svg'), tangle);
  await writeFile(join(folder, 'bought/torn.svg'), '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0');
  const sources = corpus.map((name) => join(root, 'corpus/motifs', `${name}.svg`));
  const args = ['library', 'build', ...sources, 'bought', '--out', 'library'];
  const built = promisify(execFile)(process.execPath, [join(root, 'dist/main.js'), ...args], { cwd: folder });
  // A file that cannot be read is told by the exit code too, and keeps the others from nothing.
  await expect(built).rejects.toMatchObject({ code: 2 });
  await writeFile(join(folder, 'heap.svg'), heap);
  const sheet = ['sheet', 'heap.svg', '--throat', '2in', '--batting', '1in', '--out', 'library/heap.html'];
  const told = promisify(execFile)(process.execPath, [join(root, 'dist/main.js'), ...sheet], { cwd: folder });
  await expect(told).rejects.toMatchObject({ code: 1 });
  library = pathToFileURL(join(folder, 'library/')).href;
  const index = JSON.parse(await readFile(join(folder, 'library/index.json'), 'utf8')) as LibraryIndex;
  motifs = index.entries.flatMap(({ motif }) => motif ?? []);
  browser = await chromium.launch({
    executablePath: '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  page = await newPage();
}, 300_000);

afterAll(async () => {
  await browser?.close();
  await rm(folder, { recursive: true, force: true });
});

afterEach(async () => {
  await page.emulateMedia({ media: null });
  await page.setViewportSize(wide);
  const visited = requests.splice(0);
  expect(visited.length).toBeGreaterThan(0);
  expect(visited.filter((url) => !url.startsWith(library))).toEqual([]);
  expect(complaints.splice(0)).toEqual([]);
});

async function newPage(options: BrowserContextOptions = {}): Promise<Page> {
  const fresh = await browser.newPage({ viewport: wide, ...options });
  fresh.on('request', (request) => requests.push(request.url()));
  fresh.on('requestfailed', (request) => {
    // A page that is left takes back what it had still asked for.
    if (request.failure()?.errorText !== 'net::ERR_ABORTED') complaints.push(request.url());
  });
  fresh.on('console', (message) => complaints.push(message.text()));
  fresh.on('pageerror', (error) => complaints.push(error.message));
  fresh.on('dialog', async (dialog) => {
    complaints.push(dialog.message());
    await dialog.dismiss();
  });
  return fresh;
}

async function open(path = 'index.html'): Promise<void> {
  await page.goto(library + path);
}

/** The motifs of the cards that can be seen, from first to last. */
function shown(): Promise<string[]> {
  return page
    .locator('#motifs > li:visible h3 a')
    .evaluateAll((links) =>
      links.map((link) => /motifs\/(.*)\.html/.exec((link as HTMLAnchorElement).href)![1]),
    );
}

const select = (name: string) => page.getByRole('combobox', { name, exact: true });
const count = () => page.locator('output').textContent();

function namesWhere(suits: (motif: MotifEntry) => boolean): string[] {
  return motifs
    .filter(suits)
    .map(({ name }) => name)
    .sort();
}

const rowsOf = (motif: MotifEntry) => motif.rows.find(({ layout }) => layout === motif.recommended)!;

describe('finding motifs on the library page', () => {
  it('shows every motif with its picture at first, and how many', async () => {
    await open();
    expect(await shown()).toEqual(['odd', ...corpus, 'tangle']);
    expect(await count()).toBe('7 of 7');
    const pictures = page.locator('#motifs img');
    // They are loaded only when they come near.
    await page.locator('footer').scrollIntoViewIfNeeded();
    await expect
      .poll(
        () => pictures.evaluateAll((all) => all.every((each) => (each as HTMLImageElement).naturalWidth > 0)),
        patient,
      )
      .toBe(true);
  });

  it('filters by words, designer and verdict, and shows all again', async () => {
    await open();
    await page.getByLabel('Name, tag or note').fill('  MUSSEL ');
    expect(await shown()).toEqual(['mussel-bed']);
    expect(await count()).toBe('1 of 7');
    await page.getByRole('button', { name: 'Show all' }).click();
    await expect.poll(count, patient).toBe('7 of 7');
    await select('Designer').selectOption('Barnaby Tidewater');
    expect(await shown()).toEqual(['crates', 'net']);
    await select('Designer').selectOption(oddCreator);
    expect(await shown()).toEqual(['odd']);
    await select('Verdict').selectOption('Errors');
    expect(await shown()).toEqual([]);
    await select('Designer').selectOption('any');
    expect(await shown()).toEqual(['tangle']);
  });

  it('filters by lengths as quilters type them', async () => {
    await open();
    const from = page.getByLabel('Height from');
    const to = page.getByLabel('Height to');
    // Net is drawn 78 mm high: 3 1/16 in on its card, which is 77.8 mm.
    for (const typed of ['3 1/16', '3-1/16"', '3.07', '3,07 in', '78 mm', '7.8cm']) {
      await from.fill(typed);
      await to.fill(typed);
      expect(await shown(), typed).toEqual(['net']);
    }
    await from.fill('2½');
    await to.fill('');
    expect((await shown()).sort()).toEqual(namesWhere(({ heightMm }) => heightMm > 2.5 * 25.4));
    await from.fill('high');
    expect(await shown()).toHaveLength(7);
    expect(await count()).toContain('"high" is not understood');
    expect(await from.getAttribute('aria-invalid')).toBe('true');
    // One length in every unit that may be typed on the command line.
    for (const typed of [
      '4 in',
      '4 inches',
      '4″',
      '4”',
      '.1016 m',
      '1/3 ft',
      "1/3'",
      '1/9yd',
      '288 pt',
      '24 pc.',
    ]) {
      await from.fill(typed);
      expect((await shown()).sort(), typed).toEqual(namesWhere(({ heightMm }) => heightMm > 101.6));
      expect(await count(), typed).toMatch(/^\d of 7$/);
    }
    await from.fill('4 constructor');
    expect(await count()).toContain('"4 constructor" is not understood');
    await from.fill('');
    await page.getByRole('textbox', { name: 'Stitches to', exact: true }).fill('few');
    expect(await count()).toContain('"few" is not understood: write a whole number');
  });

  it('filters by spacing, open circle and stitches', async () => {
    await open();
    const cases: readonly (readonly [string, string, (motif: MotifEntry) => boolean])[] = [
      ['Spacing from', '100 mm', (motif) => rowsOf(motif).evenMm > 100],
      ['Spacing to', '2 3/4', (motif) => rowsOf(motif).evenMm < 2.75 * 25.4],
      ['Open circle to', '1 1/2', (motif) => rowsOf(motif).openMm < 1.5 * 25.4],
      ['Stitches to', '500', (motif) => motif.stitches <= 500],
    ];
    for (const [label, typed, suits] of cases) {
      const expected = namesWhere(suits);
      expect(expected.length).toBeGreaterThan(0);
      expect(expected.length).toBeLessThan(7);
      await page.getByLabel(label).fill(typed);
      expect((await shown()).sort(), label).toEqual(expected);
      expect(await count()).toBe(`${expected.length} of 7`);
      await page.getByLabel(label).fill('');
    }
    await page.getByLabel('Stitches to').fill('1,000');
    expect(await count()).toBe('7 of 7');
  });

  it('sorts by what is asked for', async () => {
    await open();
    const orders: readonly (readonly [string, (motif: MotifEntry) => number])[] = [
      ['height', ({ heightMm }) => heightMm],
      ['spacing', (motif) => rowsOf(motif).evenMm],
      ['open circle', (motif) => rowsOf(motif).openMm],
      ['stitches', ({ stitches }) => stitches],
    ];
    for (const [order, key] of orders) {
      await select('Order by').selectOption(order);
      const keys = (await shown()).map((name) => key(motifs.find((motif) => motif.name === name)!));
      expect(keys, order).toEqual(motifs.map(key).sort((a, b) => a - b));
    }
    await select('Order by').selectOption('verdict');
    expect((await shown()).slice(-2)).toEqual(['odd', 'tangle']);
    // By what is shown: the title of `odd` begins with a sign, which comes before all letters.
    await select('Order by').selectOption('name');
    expect(await shown()).toEqual(['odd', ...corpus, 'tangle']);
  });

  it('needs nothing but the keyboard', async () => {
    await open();
    await page.keyboard.press('/');
    await page.keyboard.type('kelp');
    expect(await shown()).toEqual(['kelp']);
    const focused = () => page.evaluate(() => (document.activeElement as HTMLAnchorElement).href ?? '');
    for (let i = 0; i < 15 && (await focused()) === ''; i++) await page.keyboard.press('Tab');
    expect(await focused()).toBe(`${library}motifs/kelp.html`);
    await page.keyboard.press('Enter');
    await page.waitForURL('**/motifs/kelp.html');
    expect(await page.locator('h1').textContent()).toBe('Kelp');
    await page.goBack();
    await expect.poll(count, patient).toBe('1 of 7');
    // Within a field it is a sign like any other.
    await page.getByLabel('Height from').focus();
    await page.keyboard.type('1/2');
    expect(await page.getByLabel('Height from').inputValue()).toBe('1/2');
  });
});

describe('what the library page tells', () => {
  it('shows markup in a title as text', async () => {
    await open();
    const card = page.locator('#motifs > li', { hasText: 'Buoy' });
    expect(await card.locator('h3').textContent()).toBe(oddTitle);
    expect(await card.locator('.by').textContent()).toContain(oddCreator);
    // Tags are given by the name, so it stands below a title that is another.
    expect(await card.locator('.facts').first().textContent()).toBe('odd');
    expect(await page.locator('img[src="x"], #motifs b').count()).toBe(0);
    await card.locator('h3 a').click();
    await page.waitForURL('**/motifs/odd.html');
    expect(await page.locator('h1').textContent()).toBe(oddTitle);
    expect(await page.title()).toBe(oddTitle);
    expect(await page.locator('img, script').count()).toBe(0);
  });

  it('lists what could not be read or has errors, with the reason', async () => {
    await open();
    const trouble = await page.locator('li.trouble').allTextContents();
    expect(trouble).toHaveLength(2);
    expect(trouble[0]).toMatch(/tangle\.svg\): .*3 pieces/);
    expect(await page.locator('li.trouble a').textContent()).toBe('Tangle');
    // The file is named once, though the reason names it too.
    expect(trouble[1].trim()).toMatch(/^\S*torn\.svg, line 2?\d*, .*not well-formed XML/);
    expect(trouble[1].split('torn.svg')).toHaveLength(2);
  });

  it('keeps its cards without a script, and offers no form that would do nothing', async () => {
    const scriptless = await newPage({ javaScriptEnabled: false });
    await scriptless.goto(`${library}index.html`);
    expect(await scriptless.locator('#motifs > li:visible').count()).toBe(7);
    expect(await scriptless.locator('form').isVisible()).toBe(false);
    await scriptless.close();
  });

  it('prints its cards without the form', async () => {
    await open();
    expect(await page.locator('form').isVisible()).toBe(true);
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('form').isVisible()).toBe(false);
    expect(await page.locator('#motifs > li:visible').count()).toBe(7);
  });
});

describe('sheets', () => {
  it('fit a phone as the page does, without scrolling sideways', async () => {
    await page.setViewportSize({ width: 360, height: 640 });
    for (const path of ['index.html', 'motifs/odd.html', 'motifs/kelp.html', 'motifs/tangle.html']) {
      await open(path);
      expect(await page.evaluate(() => document.documentElement.scrollWidth), path).toBeLessThanOrEqual(360);
    }
  });

  it('print on at most two pages of letter or A4, also where nearly every rule has found something', async () => {
    for (const path of ['motifs/mussel-bed', 'motifs/tangle', 'motifs/swell', 'heap']) {
      await open(`${path}.html`);
      for (const format of ['Letter', 'A4']) {
        const pdf = (await page.pdf({ format })).toString('latin1');
        const pages = pdf.match(/\/Type \/Page\b/g)!.length;
        expect(pages, `${path} on ${format}`).toBeLessThanOrEqual(2);
      }
    }
  });

  it('tell everything that is wrong once, notes in smaller type, lengths unbroken', async () => {
    await open('heap.html');
    const findings = page.locator('main > ul').first().locator('li');
    expect(await findings.count()).toBeGreaterThan(15);
    const size = (which: string) =>
      page
        .locator(`li.${which}`)
        .first()
        .evaluate((item) => Number.parseFloat(getComputedStyle(item).fontSize));
    expect(await size('info')).toBeLessThan(await size('error'));
    expect(await page.locator('main').textContent()).not.toMatch(/\d (?:in|mm|yd|m)\b/);
  });

  it('name on the caption only what the picture shows', async () => {
    const captions = page.locator('figcaption');
    await open('motifs/kelp.html');
    expect(await captions.first().textContent()).toMatch(/triangle marks the start/);
    expect(await captions.last().textContent()).toMatch(/within a row/);
    await open('motifs/swell.html');
    expect(await captions.last().textContent()).toMatch(/between two rows\.$/);
    await open('heap.html');
    expect(await captions.first().textContent()).toBe('The numbered flags belong to the findings below.');
  });

  it('tell the verdict, the rows of every layout, the credits and the cautions', async () => {
    await open('motifs/kelp.html');
    expect(await page.locator('figure svg').count()).toBe(2);
    expect(await page.locator('table').last().locator('tbody th').allTextContents()).toEqual([
      expect.stringMatching(/^straight/),
      expect.stringMatching(/^brick/),
      expect.stringMatching(/^mirrored/),
      expect.stringMatching(/^turned/),
    ]);
    // The sum of the textbook, 10 % added: the yard is 0.9144 m.
    expect(await page.locator('main').textContent()).toMatch(/needle 3\.6.yd \(3\.25.m\)/);
    expect(await page.locator('footer').textContent()).toContain('Pearl Driftwood');
    expect(await page.locator('.care').textContent()).toMatch(/scrap first.*moves by itself.*manual/s);
    await open('motifs/tangle.html');
    expect(await page.locator('.verdict').textContent()).toBe('1 error: not ready to stitch.');
    expect(await page.locator('main > ul').first().textContent()).toContain('Join');
  });
});
