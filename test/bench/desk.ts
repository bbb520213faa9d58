/**
 * The desk in a real browser: how large it is, how soon it is ready, how soon a dropped motif has its verdict beside what the
 * bare core takes for it, and how many pictures a second a dragged row makes.
 */
import { statSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { rules } from '../../rules/index.js';
import { defaultSetup } from '../../shared/setup.js';
import { lint } from '../../src/lint/index.js';
import { studyOf } from '../../src/measure/index.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { loopingMotif } from './looping-motif.js';
import type { BenchRow } from './row.js';

const file = new URL('../../dist/linewright.html', import.meta.url).pathname;
const curves = 1500;
const rounds = 5;

export async function deskRows(): Promise<BenchRow[]> {
  const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
  try {
    const megabytes = statSync(file).size / 2 ** 20;
    return [
      { work: 'the desk, one file', measured: `${megabytes.toFixed(2)} MB`, aim: 'at most 1.5 MB' },
      await ready(browser),
      await verdict(browser),
      await dragging(browser),
    ];
  } finally {
    await browser.close();
  }
}

async function opened(browser: Browser): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  // tsx has functions named, also those that run in the page.
  await context.addInitScript('globalThis.__name = (named) => named');
  const page = await context.newPage();
  await page.goto(pathToFileURL(file).href);
  await page.getByText('Choose files').waitFor();
  return page;
}

/** From the start of the navigation to the first picture after the page has drawn itself, as the browser counts. */
async function ready(browser: Browser): Promise<BenchRow> {
  let best = Infinity;
  for (let round = 0; round < rounds; round++) {
    const page = await opened(browser);
    const ms = await page.evaluate(
      () => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Infinity,
    );
    best = Math.min(best, ms);
    await page.context().close();
  }
  return {
    work: 'the desk, from opening to ready, from disk',
    measured: `${best.toFixed(0)} ms`,
    aim: 'under 1 s',
  };
}

/** The page's clock: from the drop to the verdict on the page. */
async function verdict(browser: Browser): Promise<BenchRow> {
  const text = loopingMotif(1, curves);
  const bytes = new TextEncoder().encode(text);
  let bare = Infinity;
  let ours = Infinity;
  for (let round = 0; round < rounds; round++) {
    const start = performance.now();
    const motif = toMotif(await readArtwork(bytes, 'motif.svg'), defaultSetup);
    lint(studyOf(motif, defaultSetup), rules);
    bare = Math.min(bare, performance.now() - start);
    const page = await opened(browser);
    await drop(page, 'warm.svg', loopingMotif(2, curves));
    ours = Math.min(ours, await drop(page, 'motif.svg', text));
    await page.context().close();
  }
  return {
    work: `the desk, from dropping a motif of ${curves.toLocaleString('en-US')} curves to its verdict`,
    measured: `${ours.toFixed(0)} ms, ${(ours / bare).toFixed(1)} times the bare core in Node (${bare.toFixed(0)} ms)`,
    aim: 'within half a second for an everyday file',
  };
}

/** Drops a motif and returns the milliseconds to the verdict that follows, ms. */
async function drop(page: Page, name: string, text: string): Promise<number> {
  const ms: number = await page.evaluate(
    ([file, svg]) =>
      new Promise<number>((done) => {
        const start = performance.now();
        const before = document.querySelector('[data-verdict]');
        const watch = new MutationObserver(() => {
          const now = document.querySelector('[data-verdict]');
          if (!now || now === before) return;
          watch.disconnect();
          done(performance.now() - start);
        });
        watch.observe(document.body, { childList: true, subtree: true, attributes: true });
        const dataTransfer = new DataTransfer();
        dataTransfer.items.add(new File([svg], file));
        document.body.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true }));
      }),
    [name, text] as const,
  );
  await page.locator('.busy').waitFor({ state: 'detached' });
  return ms;
}

/** A row is moved anew before each picture, as a quick hand does; the browser's own pictures are counted. */
async function dragging(browser: Browser): Promise<BenchRow> {
  const page = await opened(browser);
  await drop(page, 'motif.svg', loopingMotif(1, curves));
  await page.getByRole('radio', { name: 'the rows', exact: true }).check();
  // The work of the page's own thread, whoever else is at work on the machine.
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const workS = async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'TaskDuration')!.value;
  };
  const before = await workS();
  const { pictures, perSecond } = await page.evaluate(async () => {
    const svg = document.querySelector('.rows')!;
    const { left, top, width, height } = svg.getBoundingClientRect();
    const [x, y] = [left + width / 2, top + height / 2];
    const move = (type: string, dy: number) =>
      svg.dispatchEvent(
        new PointerEvent(type, { clientX: x, clientY: y + dy, pointerId: 1, bubbles: true, isPrimary: true }),
      );
    Object.assign(svg, { setPointerCapture: () => {} });
    move('pointerdown', 0);
    const next = () => new Promise(requestAnimationFrame);
    await next();
    const start = performance.now();
    let pictures = 0;
    for (; performance.now() - start < 2000; pictures++) {
      move('pointermove', 30 * Math.sin(pictures / 9));
      await next();
    }
    move('pointerup', 0);
    return { pictures, perSecond: (1000 * pictures) / (performance.now() - start) };
  });
  const workMs = (1000 * ((await workS()) - before)) / pictures;
  await page.context().close();
  return {
    work: `the desk, pictures a second while a row of ${curves.toLocaleString('en-US')} curves is dragged`,
    measured: `${perSecond.toFixed(0)}, ${workMs.toFixed(1)} ms of the page's own work for each`,
    aim: '60 (this browser draws without a graphics card)',
  };
}
