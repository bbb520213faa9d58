/** The desk as a person has it: the built file, opened from disk in a real browser with the network cut. */
import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  type Browser,
  type BrowserContextOptions,
  chromium,
  type Download,
  type Page,
} from 'playwright-core';
import { expect } from 'vitest';

export const root = new URL('../../', import.meta.url).pathname;
export const deskFile = `${root}dist/linewright.html`;

export interface OpenDesk {
  readonly page: Page;
  /** What the page asked of the network, or said on the console: nothing, as it must be. */
  readonly complaints: string[];
  close(): Promise<void>;
}

export function browserFor(): Promise<Browser> {
  return chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
}

export async function openDesk(
  browser: Browser,
  options: BrowserContextOptions = {},
  file = deskFile,
  shows = 'Choose files',
): Promise<OpenDesk> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
  await context.setOffline(true);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => complaints.push(`console: ${message.text()}`));
  page.on('pageerror', (error) => complaints.push(`error: ${error.stack}`));
  page.on('request', (request) => {
    if (!/^(?:file|blob|data):/.test(request.url())) complaints.push(`request: ${request.url()}`);
  });
  // Closing with unsaved work asks; here it may close.
  page.on('dialog', (dialog) => dialog.accept());
  await page.goto(pathToFileURL(file).href);
  await page.getByText(shows).first().waitFor();
  return { page, complaints, close: () => context.close() };
}

/** What is read becomes so, however busy the machine is. */
export function eventually<T>(read: () => T): ReturnType<typeof expect.poll<T>> {
  return expect.poll(read, { timeout: 30_000 });
}

/** As if newly opened, but without loading the page again. */
export async function cleared(page: Page): Promise<void> {
  const clear = page.getByRole('button', { name: 'Clear the desk' });
  if ((await clear.count()) > 0) await clear.click();
  await settled(page);
}

/** Waits until the page has them: it reads them after the browser has told that they were chosen. */
export async function bring(
  page: Page,
  ...files: readonly (string | { name: string; mimeType: string; buffer: Buffer })[]
) {
  await page.locator('input[type=file]').setInputFiles(files as string[]);
  for (const file of files)
    await eventually(() => page.locator('body').textContent()).toContain(
      typeof file === 'string' ? basename(file) : file.name,
    );
}

/** What this browser keeps of the desk. */
export function kept(page: Page): Promise<string> {
  return page.evaluate(
    () =>
      new Promise<string>((done) => {
        const opening = indexedDB.open('linewright-desk');
        // The page has not made it yet, and this is not to make it either.
        opening.onupgradeneeded = () => opening.transaction!.abort();
        opening.onerror = () => done('');
        opening.onsuccess = () => {
          const asked = opening.result.transaction('desk').objectStore('desk').get('session');
          asked.onsuccess = () => {
            opening.result.close();
            done(asked.result ?? '');
          };
        };
      }),
  );
}

/** Waits until everything that follows from the choices has been worked out. */
export async function settled(page: Page): Promise<void> {
  await eventually(
    async () => (await page.locator('.busy').count()) + (await page.getByText(' …').count()),
  ).toBe(0);
}

export async function typeInto(page: Page, label: string, text: string, within = ''): Promise<void> {
  const field = page.locator(within === '' ? 'main' : `section[aria-labelledby=${within}]`).getByLabel(label);
  await field.fill(text);
  await field.press('Tab');
}

/** The bytes that the browser saves when the button is pressed, by file name. */
export async function saved(page: Page, button: string, files = 1): Promise<Map<string, Buffer>> {
  const downloads: Download[] = [];
  const all = new Promise<void>((done) => {
    const onDownload = (download: Download) => {
      downloads.push(download);
      if (downloads.length < files) return;
      page.off('download', onDownload);
      done();
    };
    page.on('download', onDownload);
  });
  await page.getByRole('button', { name: button, exact: true }).click();
  await all;
  const found = new Map<string, Buffer>();
  for (const download of downloads)
    found.set(download.suggestedFilename(), await readFile(await download.path()));
  return found;
}
