/** The desk for everyone: by keyboard alone, by touch on a phone, in the dark, for a screen reader (axe-core), and stopped. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import {
  bring,
  browserFor,
  eventually,
  kept,
  openDesk,
  root,
  saved,
  settled,
  typeInto,
} from './desk-page.js';

const kelp = join(root, 'corpus/motifs/kelp.svg');
const buoys = join(root, 'corpus/pieces/buoys.svg');
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let browser: Browser;

beforeAll(async () => {
  browser = await browserFor();
});
afterAll(async () => {
  await browser.close();
});

/** The sizes that the page is looked at in; in the dark only colours differ. */
const sizes = [
  { width: 1280, height: 800 },
  { width: 360, height: 740 },
] as const;

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

/** What axe-core finds against WCAG 2.2 AA, the size of targets among it, in every size, light and dark. */
async function violations(page: Page): Promise<string[]> {
  const found: string[] = [];
  for (const size of sizes) {
    await page.setViewportSize(size);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      const all = await page.evaluate(async (isDark) => {
        const { axe: asked } = globalThis as unknown as {
          axe: { run(options: object): Promise<{ violations: Violation[] }> };
        };
        const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
        const { violations: each } = await asked.run(
          isDark
            ? { runOnly: { type: 'rule', values: ['color-contrast'] } }
            : { runOnly: tags, rules: { 'target-size': { enabled: true } } },
        );
        return each.map(
          ({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 160)} ${nodes[0].failureSummary}`,
        );
      }, colorScheme === 'dark');
      found.push(...all.map((each) => `${size.width} ${colorScheme} ${each}`));
    }
    // Nothing sticks out to the side.
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    if (wide > size.width) found.push(`${size.width}: the page is ${wide} wide`);
  }
  return found;
}

it('has no violation in any step, wide and on a phone, light and dark', async () => {
  const { page, complaints, close } = await openDesk(browser);
  await page.evaluate(axe);
  expect(await violations(page)).toEqual([]);
  await bring(page, buoys, kelp);
  await settled(page);
  await page.locator('.findings button').first().click();
  await page.getByRole('button', { name: 'Show before and after' }).last().click();
  for (const summary of await page.locator('summary').all()) await summary.click();
  await typeInto(page, 'Height', 'nine');
  await settled(page);
  expect(await violations(page)).toEqual([]);
  await page.getByRole('radio', { name: 'kelp.svg' }).check();
  await typeInto(page, 'Size of the top', '40in x 30in');
  await typeInto(page, 'Throat', '18in', 'quilt');
  await settled(page);
  await page.getByRole('radio', { name: 'the rows', exact: true }).check();
  expect(await violations(page)).toEqual([]);
  await page.getByRole('radio', { name: 'the quilt', exact: true }).check();
  for (const summary of await page.locator('section[aria-labelledby=quilt] summary').all())
    await summary.click();
  await settled(page);
  expect(await violations(page)).toEqual([]);
  expect(complaints).toEqual([]);
  await close();
}, 120_000);

/** Presses Tab until what has the focus is called so. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let i = 0; i < 120; i++) {
    await page.keyboard.press('Tab');
    const label = await page.evaluate(() => {
      const at = document.activeElement as HTMLInputElement | null;
      const texts = [at?.getAttribute('aria-label'), at?.labels?.[0]?.textContent, at?.textContent];
      return texts.find((text) => text) ?? '';
    });
    if (!name.test(label.trim())) continue;
    const outline = await page.evaluate(() => {
      const at = document.activeElement!;
      const frame = at.closest('.button') ?? at;
      return getComputedStyle(frame).outlineStyle;
    });
    expect(outline, `the focus on ${label} is seen`).not.toBe('none');
    return;
  }
  throw new Error(`Tab never comes to ${name}`);
}

it('goes from a motif to a planned quilt by keyboard alone', async () => {
  const { page, complaints, close } = await openDesk(browser);
  await tabTo(page, /^Buoys/);
  await page.keyboard.press('Enter');
  await settled(page);
  await tabTo(page, /^The motif/);
  const view = () => page.locator('.paper svg').getAttribute('viewBox');
  const whole = await view();
  await page.keyboard.press('+');
  await page.keyboard.press('ArrowRight');
  await eventually(view).not.toBe(whole);
  await page.keyboard.press('0');
  await eventually(view).toBe(whole);
  await tabTo(page, /^Flags 1, 2, 3, 4, 5 Error/);
  await page.keyboard.press('Enter');
  await tabTo(page, /^Do it$/);
  await page.keyboard.press('Enter');
  // What had the focus is gone; it is where the work goes on.
  await eventually(() => page.evaluate(() => document.activeElement?.id)).toBe('put-right');
  await settled(page);
  const verdict = () => page.locator('[data-verdict]').getAttribute('data-verdict');
  await eventually(verdict).not.toBe('errors');
  await page.keyboard.press('Control+z');
  await settled(page);
  await eventually(verdict).toBe('errors');
  await page.keyboard.press('Control+Shift+z');
  await settled(page);
  await tabTo(page, /^Row spacing: /);
  const spacing = () => page.getByText(/^Row spacing: /).textContent();
  const before = await spacing();
  await page.keyboard.press('ArrowRight');
  await settled(page);
  await eventually(spacing).not.toBe(before);
  await tabTo(page, /^Size of the top/);
  await page.keyboard.type('40in x 30in');
  await page.keyboard.press('Enter');
  await settled(page);
  await page.getByText('Pass by pass').waitFor();
  const download = page.waitForEvent('download');
  await tabTo(page, /^Motif file$/);
  await page.keyboard.press('Enter');
  expect((await download).suggestedFilename()).toBe('buoys.motif.json');
  expect(complaints).toEqual([]);
  await close();
}, 120_000);

it('is used by touch on a phone: what is tapped is large enough, a row is dragged, the line is tapped', async () => {
  const { page, complaints, close } = await openDesk(browser, {
    viewport: { width: 360, height: 740 },
    hasTouch: true,
    isMobile: true,
  });
  // The browser makes a click of a tap by itself, after the tap was told as done: what follows from one is waited for.
  const spacing = () => page.getByText(/^Row spacing: /).textContent();
  await page.getByRole('button', { name: 'Kelp' }).tap();
  await settled(page);
  const paper = (await page.locator('.paper svg').boundingBox())!;
  await page.touchscreen.tap(paper.x + paper.width / 2, paper.y + paper.height / 2);
  await eventually(() => page.getByLabel('Walk along the line').inputValue()).not.toBe('0');
  await page.getByRole('button', { name: 'Mirror top and bottom' }).tap();
  await settled(page);
  await page.getByRole('radio', { name: 'mirrored' }).tap();
  await eventually(() => page.getByRole('radio', { name: 'mirrored' }).isChecked()).toBe(true);
  await settled(page);
  const before = await spacing();
  const rows = (await page.locator('.rows').boundingBox())!;
  const session = await page.context().newCDPSession(page);
  const touch = (type: string, y: number) =>
    session.send('Input.dispatchTouchEvent', {
      type: type as 'touchStart',
      touchPoints: type === 'touchEnd' ? [] : [{ x: rows.x + rows.width / 2, y }],
    });
  const from = rows.y + rows.height / 2;
  await touch('touchStart', from);
  for (let dy = 4; dy <= 24; dy += 4) await touch('touchMove', from + dy);
  await touch('touchEnd', from);
  await eventually(spacing).not.toBe(before);
  await settled(page);
  await page.getByRole('button', { name: 'Undo' }).tap();
  await eventually(spacing).toBe(before);
  expect(complaints).toEqual([]);
  await close();
}, 120_000);

it.each([
  [640, 400],
  // A phone's width at twice the size.
  [195, 422],
])(
  'keeps what has the focus out from under the picture, back and forth, at twice the size (WCAG 2.2, 2.4.11): %s x %s',
  async (width, height) => {
    const { page, close } = await openDesk(browser, { viewport: { width, height } });
    await bring(page, buoys);
    await settled(page);
    const covered = () =>
      page.evaluate(() => {
        const at = document.activeElement!;
        const picture = document.querySelector('.sight')!;
        if (!at.closest('.steps')) return null;
        const { bottom } = at.getBoundingClientRect();
        return bottom <= picture.getBoundingClientRect().bottom ? at.outerHTML.slice(0, 80) : null;
      });
    const found: string[] = [];
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
    for (const key of ['Tab', 'Shift+Tab'])
      for (let i = 0; i < 60; i++) {
        await page.keyboard.press(key);
        const under = await covered();
        if (under) found.push(`${key} ${under}`);
      }
    expect(found).toEqual([]);
    await page.getByRole('button', { name: 'Do it' }).last().press('Enter');
    await settled(page);
    await eventually(() => page.evaluate(() => document.activeElement?.id)).toBe('put-right');
    await eventually(covered).toBeNull();
    await close();
  },
  120_000,
);

it('keeps the focus in a field that makes the drawing unreadable, and the field where it can be put right', async () => {
  const { page, close } = await openDesk(browser);
  await bring(page, buoys);
  await settled(page);
  await page.getByText('Which lines of the drawing are read').click();
  const layer = page.getByLabel('Only the layer');
  await layer.fill('sails');
  await layer.press('Enter');
  await page.getByRole('alert').waitFor();
  expect(await layer.evaluate((field) => field === document.activeElement)).toBe(true);
  await layer.fill('');
  await layer.press('Enter');
  await eventually(() => page.getByRole('alert').count()).toBe(0);
  expect(await layer.evaluate((field) => field === document.activeElement)).toBe(true);
  // So small that there is nothing left of it.
  await typeInto(page, 'Height', '0.01mm');
  await page.getByRole('alert').waitFor();
  await typeInto(page, 'Height', '6in');
  await eventually(() => page.locator('[data-verdict]').count()).toBe(1);
  await close();
}, 60_000);

it('can be stopped when a file takes long, and goes on with another', async () => {
  const { page, complaints, close } = await openDesk(browser);
  // A scribble that crosses itself again and again.
  const points = Array.from({ length: 60_000 }, (_, i) => `${(i * 7919) % 1000} ${(i * 104_729) % 997}`);
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="40in" height="40in" viewBox="0 0 1000 1000"><path fill="none" stroke="#000" d="M${points.join('L')}"/></svg>`;
  await bring(page, { name: 'scribble.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(svg) });
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.getByText('Stopped.').first().waitFor();
  await page.getByText("Try one of the harbour's").click();
  await page.getByRole('button', { name: 'Kelp' }).click();
  await settled(page);
  await eventually(() => page.locator('[data-verdict]').getAttribute('data-verdict')).toBe('clean');
  expect(complaints).toEqual([]);
  await close();
}, 120_000);

/** The page's worker gets no question of these kinds: to the page they take for ever. */
async function hold(page: Page, ...kinds: string[]): Promise<void> {
  await page.evaluate((held) => {
    const on = globalThis as unknown as { held?: string[]; Worker: typeof Worker };
    if (!on.held) {
      on.Worker = class extends Worker {
        override postMessage(message: { ask?: string }): void {
          if (!on.held!.includes(message.ask ?? '')) super.postMessage(message);
        }
      };
    }
    on.held = held;
  }, kinds);
}

it('says of what holds for the choices before that it does, while it works and when it was stopped, and keeps what was typed', async () => {
  const { page, complaints, close } = await openDesk(browser);
  const section = (name: string) => page.locator(`section[aria-labelledby=${name}]`);
  const ofBefore = (name: string) => section(name).getByText(/^This is as it was before the change/);
  const height = page.getByLabel('Height', { exact: true });
  await hold(page);
  await page.getByRole('button', { name: 'Kelp' }).click();
  await settled(page);
  expect(await page.getByText(/before the change/).count()).toBe(0);
  await hold(page, 'look');
  await typeInto(page, 'Height', '6in');
  for (const name of ['see', 'rows']) await ofBefore(name).waitFor();
  await page.getByText(/^As it was before the change/).waitFor();
  await page.getByRole('button', { name: 'Stop' }).click();
  await section('see')
    .getByText(/was stopped/)
    .waitFor();
  expect(await height.inputValue()).toBe('6in');
  expect(await section('see').textContent()).toContain('Size: 9');
  await hold(page);
  await section('see').getByRole('button', { name: 'Work it out' }).click();
  await settled(page);
  await eventually(() => page.getByText(/before the change/).count()).toBe(0);
  expect(await section('see').textContent()).toContain('6\u00a0in (152.4');
  // Of a change that is taken back, what was known holds again.
  await hold(page, 'look');
  await typeInto(page, 'Height', '7in');
  await page.getByRole('button', { name: 'Stop' }).click();
  await ofBefore('see').waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await eventually(() => ofBefore('see').count()).toBe(0);
  expect(await height.inputValue()).toBe('6in');
  await hold(page);
  await page.getByRole('button', { name: 'Stop' }).click();
  // Only the rows are of before, where only they take long; of rows that were never known it is said that they are not.
  await hold(page, 'rows');
  await typeInto(page, 'Clearance', '1/4in');
  await page.getByText('Nesting the rows').waitFor();
  await ofBefore('rows').waitFor();
  expect(await ofBefore('see').count()).toBe(0);
  await page.getByRole('button', { name: 'Stop' }).click();
  await section('rows').getByRole('button', { name: 'Work it out' }).waitFor();
  await page.getByText("Try one of the harbour's").click();
  await page.getByRole('button', { name: 'Gull wing' }).click();
  await page.getByText('Nesting the rows').waitFor();
  await section('rows').getByText('Working out how the rows nest …').waitFor();
  await page.getByRole('button', { name: 'Stop' }).click();
  await section('rows').getByText('Working this out was stopped.').waitFor();
  expect(await page.getByLabel('Clearance').inputValue()).toBe('1/4in');
  expect(complaints).toEqual([]);
  await close();
}, 120_000);

it('lets nothing out of date, nor what nobody waits for, hold up what the hand asks', async () => {
  const { page, complaints, close } = await openDesk(browser);
  const see = page.locator('section[aria-labelledby=see]');
  await hold(page);
  await page.getByRole('button', { name: 'Kelp' }).click();
  await settled(page);
  // A file is saved beside a look that never ends, which is dropped for that at what was typed since.
  await hold(page, 'look');
  await typeInto(page, 'Height', '6in');
  await page.getByText('Reading and judging …').first().waitFor();
  expect([...(await saved(page, 'Motif file')).keys()]).toEqual(['kelp.motif.json']);
  await hold(page);
  await typeInto(page, 'Height', '7in');
  await eventually(() => see.textContent()).toContain('7\u00a0in (177.8');
  await settled(page);
  // So are offers of before; those of now come after the rows, and both files are saved while they are sought.
  await page.getByRole('button', { name: 'Stitch it the other way' }).click();
  await settled(page);
  await hold(page, 'offers');
  await typeInto(page, 'Height', '8in');
  await page.getByText('Looking for what can be put right …').first().waitFor();
  await eventually(() => see.textContent()).toContain('8\u00a0in (203.2');
  await typeInto(page, 'Height', '9in');
  await eventually(() => see.textContent()).toContain('9\u00a0in (228.6');
  await page.getByText('Looking for what can be put right …').first().waitFor();
  const rows = page.locator('section[aria-labelledby=rows]');
  await eventually(() => rows.getByText(/ …/).count()).toBe(0);
  const names: string[] = [];
  page.on('download', (download) => names.push(download.suggestedFilename()));
  for (const name of ['Motif file', 'SVG', 'Table of points (CSV)'])
    await page.getByRole('button', { name, exact: true }).click();
  await eventually(() => names).toEqual(['kelp.motif.json', 'kelp.svg', 'kelp.csv']);
  await page.getByRole('button', { name: 'Stop' }).click();
  await page
    .locator('section[aria-labelledby=put-right]')
    .getByText(/was stopped/)
    .waitFor();
  // Nothing is worked out for a desk that is clear.
  await typeInto(page, 'Height', '10in');
  await page.getByText('Looking for what can be put right …').first().waitFor();
  await page.getByRole('button', { name: 'Clear the desk' }).click();
  await settled(page);
  expect(complaints).toEqual([]);
  await close();
}, 120_000);

/** The page as the browser prints it, and the words on each sheet, as poppler reads them. */
async function printed(page: Page, heightIn: number) {
  const pdf = join(mkdtempSync(join(tmpdir(), 'linewright-print-')), 'desk.pdf');
  await page.pdf({
    path: pdf,
    width: '8.5in',
    height: `${heightIn}in`,
    margin: { top: '0.4in', bottom: '0.4in' },
  });
  const poppler = (command: string, ...words: string[]) =>
    execFileSync(command, words, { maxBuffer: 2 ** 28, stdio: ['ignore', 'pipe', 'ignore'] });
  const sheets = poppler('pdftotext', '-raw', pdf, '-').toString().split('\f').slice(0, -1);
  return { sheets: sheets.map(wordsOf), pixels: poppler('pdftoppm', '-r', '40', '-gray', pdf) };
}

const wordsOf = (text: string) => text.split(/\s+/).filter((word) => /\w/.test(word));

it('prints dark on white in dark surroundings too, with every word that is for reading, and nothing torn apart', async () => {
  const { page, complaints, close } = await openDesk(browser);
  await bring(page, kelp);
  await settled(page);
  await page.getByText('The numbers').click();
  await typeInto(page, 'Size of the top', '40in x 30in');
  await settled(page);
  const light = await printed(page, 11);
  await page.emulateMedia({ colorScheme: 'dark' });
  expect((await printed(page, 11)).pixels.equals(light.pixels)).toBe(true);
  await page.emulateMedia({ media: 'print' });
  const [text] = await page.locator('body').allInnerTexts();
  const whole = '.findings li, .offers > li, fieldset, .field';
  const pieces = await page.locator(whole).filter({ visible: true }).allInnerTexts();
  expect(text).not.toMatch(/Show where|click/);
  for (const heightIn of [11, 9, 8.5, 8]) {
    const { sheets } = await printed(page, heightIn);
    const all = new Set(sheets.flat());
    expect(wordsOf(text).filter((word) => !all.has(word))).toEqual([]);
    const torn = pieces.filter(
      (piece) => !sheets.some((sheet) => wordsOf(piece).every((word) => sheet.includes(word))),
    );
    expect(torn, `on sheets of ${heightIn} in`).toEqual([]);
  }
  expect(complaints).toEqual([]);
  await close();
}, 120_000);

it('asks before it is closed where something would be lost, and only then', async () => {
  const { page, close } = await openDesk(browser);
  const asked: string[] = [];
  page.on('dialog', (dialog) => asked.push(dialog.type()));
  const reloaded = async () => {
    asked.length = 0;
    await page.reload();
    await settled(page);
    return asked.length;
  };
  const size = async (height: string) => {
    await typeInto(page, 'Height', height);
    await settled(page);
  };
  const save = async (button: string) => {
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: button, exact: true }).click();
    await download;
    await settled(page);
  };
  await bring(page, kelp, buoys);
  await settled(page);
  // Looked at: the other motif, the other unit, and a size typed and taken back.
  await page.getByRole('radio', { name: 'buoys.svg' }).check();
  await page.getByLabel('Lengths in').selectOption('mm');
  await size('6in');
  await page.getByRole('button', { name: 'Undo' }).click();
  await size('6in');
  await size('');
  await eventually(() => kept(page)).toContain('"unit":"mm"');
  expect(await reloaded()).toBe(0);
  await size('7in');
  expect(await reloaded()).toBe(1);
  await size('8in');
  await save('Session: everything on this desk');
  expect(await reloaded()).toBe(0);
  // What is saved of one motif saves nothing of the other.
  await size('9in');
  await page.getByRole('radio', { name: 'kelp.svg' }).check();
  await size('9in');
  await save('Motif file');
  expect(await reloaded()).toBe(1);
  await close();
}, 120_000);
