/**
 * The core as a page has it: bundled for browsers by esbuild, which refuses what only Node has, and run in chromium under a
 * content policy that forbids making code from text. It must say the very same there as in Node.
 */
import { readFileSync } from 'node:fs';
import { build } from 'esbuild';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import * as core from '../../src/index.js';

const root = new URL('../../', import.meta.url);
const names = ['kelp', 'crates', 'swell'];
const files = Object.fromEntries(
  names.map((name) => [`${name}.svg`, readFileSync(new URL(`corpus/motifs/${name}.svg`, root), 'utf8')]),
);
// With a style element, so that css-tree and css-select run too.
files['styled.svg'] =
  '<svg xmlns="http://www.w3.org/2000/svg" width="8in" height="4in" viewBox="0 0 800 400"><style>g > .a:not(.b) { stroke: #222; fill: none }</style>' +
  '<g><path class="a" d="M0 200 C200 -60 300 460 400 200 S600 -60 800 200"/><path class="a b" fill="none" d="M0 0H9"/></g></svg>';

/** Reads, checks, mends, nests and writes; then reads the motif file back. Plain data, to be compared. */
async function work(linewright: typeof core, sources: Readonly<Record<string, string>>) {
  const {
    readArtwork,
    toMotif,
    studyOf,
    lint,
    rules,
    reportOf,
    mendMotif,
    defaultSetup,
    writeMotif,
    layouts,
  } = linewright;
  const done = [];
  for (const [file, text] of Object.entries(sources)) {
    const motif = toMotif(await readArtwork(new TextEncoder().encode(text), file), defaultSetup);
    const study = studyOf(motif, defaultSetup);
    const mended = mendMotif(motif, defaultSetup, { reshape: true });
    const again = studyOf(mended.motif, defaultSetup);
    const nestings = layouts.map((layout) => again.nesting(layout));
    const motifFile = writeMotif(mended.motif);
    const back = toMotif(
      await readArtwork(new TextEncoder().encode(motifFile), 'back.motif.json'),
      defaultSetup,
    );
    done.push({
      report: reportOf(file, study, lint(study, rules)),
      mends: mended.accounts.map(({ message }) => message),
      rows: nestings.map(({ layout, evenSpacingMm, closestSpacingMm, even }) => [
        layout,
        evenSpacingMm,
        closestSpacingMm,
        even.largestOpenMm,
        even.unevenness,
      ]),
      recommended: linewright.recommend(nestings, null),
      motifFile,
      back: writeMotif(back) === motifFile,
      svg: linewright.writeSvg(mended.motif),
      curves: linewright.writeSvg(mended.motif, undefined, true),
      paper: [
        ...(await linewright.writePaper(
          again,
          linewright.layOnPaper(again, { sheetMm: [210, 297], repeats: 2, rows: 2, overlapMm: 10 }),
        )),
      ],
      dxf: linewright.writeDxf(mended.motif),
      csv: linewright.writeCsv(mended.motif),
      picture: linewright.motifPicture(mended.motif, { widthPx: 480 }),
    });
  }
  const torn = await readArtwork(new TextEncoder().encode('<svg><path d="M0 0'), 'torn.svg').catch(String);
  const newer = await readArtwork(
    new TextEncoder().encode('{"format":"linewright-motif","version":1,"unit":"mm","strokes":[[[0,0]]]}'),
    'short.motif.json',
  ).catch(String);
  return JSON.stringify({ done, torn, newer });
}

let browser: Browser;

beforeAll(async () => {
  browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
});
afterAll(async () => {
  await browser.close();
});

it('runs in a browser whose content policy forbids eval, and says what it says in Node', async () => {
  const bundle = await build({
    stdin: {
      contents: 'import * as core from "./src/index.ts"; globalThis.linewright = core;',
      resolveDir: root.pathname,
    },
    bundle: true,
    write: false,
    format: 'iife',
    platform: 'browser',
    logLevel: 'silent',
  });
  expect(bundle.errors).toEqual([]);
  const [{ text }] = bundle.outputFiles;
  for (const foreign of ['@resvg', 'pngjs', 'new Function', 'worker_threads'])
    expect(text.includes(foreign), foreign).toBe(false);

  // The work stands in the page's own script: what a test has evaluated there is not held to the policy.
  const task = `
    try { new Function('return 1')(); } catch (error) { globalThis.forbidden = error.name; }
    globalThis.said = (${work.toString().replaceAll('__name', '(() => {})')})(linewright, ${JSON.stringify(files)});`;
  const page = await browser.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(String(error)));
  await page.route('**/*', (route) =>
    route.request().url() === 'http://desk.test/'
      ? route.fulfill({
          contentType: 'text/html',
          headers: { 'content-security-policy': "default-src 'none'; script-src 'nonce-core'" },
          body: `<!doctype html><script nonce="core">${`${text}\n${task}`.replaceAll('</script', '<\\/script')}</script>`,
        })
      : route.abort(),
  );
  await page.goto('http://desk.test/');
  const inBrowser: string = await page.evaluate('said');
  const asInNode = await work(core, files);
  const inNode = JSON.parse(asInNode);
  expect(inNode.done).toHaveLength(4);
  expect(inNode.done.every(({ back }: { back: boolean }) => back)).toBe(true);
  expect(inNode.newer).toMatch(/"strokes\/0" must NOT have fewer than 2 items/);
  expect(JSON.parse(inBrowser)).toEqual(inNode);
  // The policy is in force: were it not, this test would prove nothing.
  expect(await page.evaluate('forbidden')).toBe('EvalError');
  expect(complaints.filter((text) => !/unsafe-eval/.test(text))).toEqual([]);
});
