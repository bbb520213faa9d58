/** The sheet of a plan in a real browser: on paper, on a tablet and a phone, and what a person reads on it. */
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import type { Plan } from '../../shared/plan.js';
import { defaultSetup, type Setup } from '../../shared/setup.js';
import { planPicture } from '../../src/picture/plan-picture.js';
import { writePlanSheet } from '../../src/sheet/plan-sheet.js';
import { planOf, wantedOf } from '../plan/planned.js';

/** A browser, on a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const setup: Setup = { ...defaultSetup, throatMm: 457.2, bobbinMm: 109_728, speed: 1500, price: 0.02 };
const sheetOf = (plan: Plan) => writePlanSheet(plan, 'kelp', planPicture(plan, { widthPx: 900 }), setup);

let plan: Plan;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  plan = await planOf('kelp', { ...wantedOf(1524, 1828.8), resize: 0.1 }, setup);
  browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
  page = await browser.newPage();
  await page.setContent(sheetOf(plan));
});
afterAll(() => browser?.close());

it('prints a harbour quilt on two pages of letter or A4', async () => {
  for (const format of ['Letter', 'A4']) {
    const pdf = (await page.pdf({ format })).toString('latin1');
    expect(pdf.match(/\/Type \/Page\b/g)!.length, format).toBeLessThanOrEqual(2);
  }
});

it('a title that turns the way of writing is isolated from what is said after it', () => {
  const title = '\u05d2\u05dc \u202eevaw';
  const heading = /<h1>(.*)<\/h1>/.exec(sheetOf({ ...plan, credit: { ...plan.credit, title } }))![1];
  expect(heading.startsWith(`<bdi>${title}</bdi> `)).toBe(true);
});

it("keeps a motif's credits, those that stand in its description too", () => {
  const credit = {
    creator: 'Ada Reed',
    rights: '(c) 2026, all kept',
    description: 'From the Ada Reed tide set <3>',
  };
  for (const [name, text] of Object.entries(credit)) {
    const footer = /<footer>(.*)<\/footer>/.exec(sheetOf({ ...plan, credit: { [name]: text } }))![1];
    expect(footer).toContain(text.replace('<3>', '&lt;3&gt;'));
  }
});

it('reads on a tablet beside the machine, and on a phone, without moving it sideways', async () => {
  for (const width of [820, 390]) {
    await page.setViewportSize({ width, height: 1000 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  }
});

it('has a line to tick for each pass, with where it starts, how far to roll on and what to check', async () => {
  const lines = await page.locator('.passes tbody tr').allInnerTexts();
  expect(lines).toHaveLength(plan.passes.length);
  lines.forEach((line, i) => {
    const { pass, rows, stitches } = plan.passes[i];
    const words = line.replace(/\s+/g, ' ');
    expect(words).toContain(`☐ ${pass}`);
    expect(words).toContain(`rows ${rows[0]} to ${rows.at(-1)}`);
    expect(words).toContain(`${stitches.toLocaleString('en-US')} stitches`);
    expect(words).toMatch(pass === 1 ? /nothing is rolled on/ : /Roll on by [\d/ ]+ in/);
    // Rows to and fro: a pass starts on the side where the one before ended.
    const before = i === 0 ? [0, 0] : plan.passes[i - 1].endMm;
    expect(words).toContain(before[0] > 762 ? 'On the right' : 'On the left');
  });
  const text = (await page.locator('body').allInnerTexts()).join().replace(/\s+/g, ' ');
  // 4 in larger on every side: 68 x 80 in. 60 x 72 in at 0.02 a square inch.
  expect(text).toContain('at least 68 x 80 in');
  expect(text).toContain('86.40');
  expect(text).toContain('a throat of 18 in (457.2 mm)');
  expect(text).toContain('linewright resume FOLDER');
  expect(text).toContain('Keep hands, hair, sleeves and tools clear');
  expect(text).toContain('Designer: Pearl Driftwood');
});

it('obeys nothing that a title says', async () => {
  const title = '<img src=x onerror="document.title=`taken`"></script><b>Kelp';
  const other = await browser.newPage();
  await other.setContent(
    sheetOf({ ...plan, file: `${title}.svg`, credit: { title, creator: title, rights: title } }),
  );
  expect(await other.locator('img, script, b').count()).toBe(0);
  expect(await other.title()).toContain('<img src=x');
  await other.close();
});
