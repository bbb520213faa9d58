/** What a quilter does on the desk, step by step, and that what it saves is what the command line writes. */
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { Resvg } from '@resvg/resvg-js';
import { build } from 'esbuild';
import jpeg from 'jpeg-js';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { linewright } from '../cli/run.js';
import {
  bring,
  browserFor,
  cleared,
  deskFile,
  eventually,
  kept,
  type OpenDesk,
  openDesk,
  root,
  saved,
  settled,
  typeInto,
} from './desk-page.js';

const kelp = join(root, 'corpus/motifs/kelp.svg');
const buoys = join(root, 'corpus/pieces/buoys.svg');
const gullWing = join(root, 'corpus/motifs/gull-wing.svg');

let browser: Browser;
let desk: OpenDesk;
let page: Page;

// One page for all of them, cleared in between: it must bear that.
beforeAll(async () => {
  browser = await browserFor();
  desk = await openDesk(browser);
  page = desk.page;
});
afterAll(async () => {
  await browser.close();
});
beforeEach(() => cleared(page));
afterEach(() => expect(desk.complaints).toEqual([]));

/** What mending would do, by its title. */
function offer(on: Page, title: string) {
  return on.locator('.offers > li').filter({ hasText: `Put right ${title}` });
}

/** A wave that a pen drew, to be read at 150 dots to the inch. */
function penDrawing() {
  const pen =
    '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="30mm" viewBox="0 0 60 30"><path fill="none" stroke="#000" d="M8 15C18 0 22 30 32 15S46 0 52 15"/></svg>';
  return new Resvg(pen, { fitTo: { mode: 'zoom', value: 150 / 96 }, background: '#fff' }).render();
}

const doIt = (on: Page, title: string) => offer(on, title).getByRole('button', { name: 'Do it' }).click();

const verdict = (on: Page = page) => on.locator('[data-verdict]').getAttribute('data-verdict');

function folder(): string {
  return mkdtempSync(join(tmpdir(), 'linewright-desk-'));
}

function written(where: string): Map<string, Buffer> {
  return new Map(readdirSync(where).map((name) => [name, readFileSync(join(where, name))]));
}

/** Where two texts differ, with what stands there in both; null where they are the same. */
function firstDifference(a: string, b = ''): readonly string[] | null {
  if (a === b) return null;
  let i = 0;
  while (a[i] === b[i]) i++;
  return [a, b].map((text) => text.slice(Math.max(0, i - 60), i + 60));
}

/** As the desk is bundled, to see what goes in. */
const deskBundle = {
  bundle: true,
  format: 'iife',
  platform: 'browser',
  jsx: 'automatic',
  jsxImportSource: 'preact',
  loader: { '.svg': 'text' },
  alias: { 'css-tree': 'css-tree/dist/csstree.esm' },
  metafile: true,
} as const;

describe('the file', () => {
  it('is one of at most 1.5 MB, under a policy without network, eval or inline handlers', () => {
    const text = readFileSync(deskFile, 'utf8');
    expect(Buffer.byteLength(text)).toBeLessThan(1.5 * 2 ** 20);
    const [, policy] = /Content-Security-Policy" content="([^"]+)"/.exec(text)!;
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toMatch(/unsafe|https?:|connect/);
    expect(text.match(/<script/g)).toHaveLength(1);
  });

  it('carries nothing of preact/compat, which makes fields act at every key (its hook into options.event)', async () => {
    const inputs = async (entry: string) => {
      const { metafile } = await build({
        ...deskBundle,
        stdin: { contents: entry, resolveDir: root },
        write: false,
      });
      return Object.keys(metafile!.inputs).filter((path) => /preact\/compat/.test(path));
    };
    expect(await inputs("import './src/desk/main.tsx'")).toEqual([]);
    // The question can be answered with no.
    expect(await inputs("import 'preact/compat'")).not.toEqual([]);
  });

  it('is what `linewright desk` writes, once and no more unless forced', () => {
    const cwd = folder();
    expect(linewright(['desk', '--out', 'here.html'], { cwd }).code).toBe(0);
    expect(readFileSync(join(cwd, 'here.html')).equals(readFileSync(deskFile))).toBe(true);
    expect(linewright(['desk', '--out', 'here.html'], { cwd })).toMatchObject({ code: 2, stdout: '' });
    expect(linewright(['desk', '--out', 'here.html', '--force'], { cwd }).code).toBe(0);
    expect(linewright(['desk', '--out', 'here.pdf'], { cwd }).stderr).toMatch(/\.html/);
    expect(linewright(['desk'], { cwd }).code).toBe(2);
  });
});

describe('bring and see', () => {
  it('shows verdict, picture and numbers of a motif of its own', async () => {
    await page.getByRole('button', { name: 'Kelp' }).click();
    await settled(page);
    await eventually(() => verdict()).toBe('clean');
    expect(await page.locator('.paper svg path').count()).toBeGreaterThan(0);
    // What `check` says of the same file.
    const { files } = JSON.parse(linewright(['check', kelp, '--json']).stdout);
    await page.getByText('The numbers').click();
    expect(await page.locator('dl').textContent()).toContain(String(files[0].stitches.count));
  });

  it('takes files by drag and drop, packed ones too', async () => {
    const packed = gzipSync(readFileSync(kelp)).toString('base64');
    await page.evaluate((data) => {
      const bytes = Uint8Array.from(atob(data), (sign) => sign.charCodeAt(0));
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([bytes], 'kelp.svgz'));
      document.querySelector('h1')!.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true }));
    }, packed);
    await settled(page);
    await eventually(() => verdict()).toBe('clean');
  });

  it('tells files of one name apart, and says of what is dropped when it is no file', async () => {
    const [one, other] = [kelp, buoys].map((file) => ({
      name: 'same.svg',
      mimeType: 'image/svg+xml',
      buffer: readFileSync(file),
    }));
    await bring(page, one, other);
    await settled(page);
    await eventually(() => verdict()).toBe('clean');
    await page.getByRole('radio', { name: 'same.svg (2)', exact: true }).check();
    await settled(page);
    await eventually(() => verdict()).toBe('errors');
    await page.getByRole('button', { name: 'Put away same.svg', exact: true }).click();
    await page.getByText('On the desk: same.svg', { exact: true }).waitFor();
    await eventually(() => verdict()).toBe('errors');
    await page.evaluate(() => {
      const dataTransfer = new DataTransfer();
      dataTransfer.setData('text/uri-list', 'https://harbour.example/kelp.svg');
      document.querySelector('h1')!.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true }));
    });
    await page.getByText(/^What was dropped is no file/).waitFor();
    await eventually(() => verdict()).toBe('errors');
  });

  it('shows the first of several that can be read, and tells at the top of those that cannot', async () => {
    const where = folder();
    const files = {
      'torn.svg': '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0',
      'notes.txt': 'needles',
    };
    for (const [name, text] of Object.entries(files)) writeFileSync(join(where, name), text);
    await bring(page, join(where, 'torn.svg'), join(where, 'notes.txt'), kelp, buoys);
    await settled(page);
    await eventually(() => verdict()).toBe('clean');
    expect(await page.getByLabel('kelp.svg', { exact: true }).isChecked()).toBe(true);
    const told = await page.getByRole('status').textContent();
    for (const name of Object.keys(files)) {
      expect(told).toContain(name);
      await page.getByRole('radio', { name: new RegExp(`^${name}\\s*cannot be read`) }).waitFor();
    }
    await page.getByRole('button', { name: 'Undo' }).click();
    await settled(page);
    await eventually(() => page.locator('[data-verdict]').count()).toBe(0);
  });

  it('points from a finding to its place', async () => {
    await bring(page, buoys);
    await settled(page);
    await eventually(() => verdict()).toBe('errors');
    const view = () => page.locator('.paper svg').getAttribute('viewBox');
    const whole = await view();
    await page.locator('.findings button').first().click();
    await eventually(view).not.toBe(whole);
    await page.locator('.findings button').first().click();
    await eventually(view).toBe(whole);
  });

  it('keeps several motifs, each with its own choices', async () => {
    await bring(page, kelp, buoys);
    await settled(page);
    await typeInto(page, 'Height', '6in');
    await settled(page);
    await page.getByLabel('buoys.svg', { exact: true }).check();
    await settled(page);
    await eventually(() => verdict()).toBe('errors');
    await eventually(() => page.getByLabel('Height').inputValue()).toBe('');
    await page.getByRole('button', { name: 'Put away buoys.svg' }).click();
    await settled(page);
    await eventually(() => verdict()).toBe('clean');
    await eventually(() => page.getByLabel('Height').inputValue()).toBe('6in');
  });
});

describe('put right', () => {
  it('mends, shows before and after, and undoes and redoes', async () => {
    await bring(page, buoys);
    await settled(page);
    await offer(page, 'everything').getByRole('button', { name: 'Show before and after' }).click();
    await page.getByRole('img', { name: /Before on the left/ }).waitFor();
    await doIt(page, 'everything');
    await settled(page);
    await eventually(() => verdict()).not.toBe('errors');
    await page.getByRole('button', { name: 'Undo' }).click();
    await settled(page);
    await eventually(() => verdict()).toBe('errors');
    await page.keyboard.press('Control+y');
    await settled(page);
    await eventually(() => verdict()).not.toBe('errors');
    // The same motif file as by `mend --reshape`.
    const out = folder();
    linewright(['mend', buoys, '--reshape', '--out', out, '--to', 'motif,svg']);
    const wanted = written(out);
    const files = new Map([...(await saved(page, 'Motif file')), ...(await saved(page, 'SVG'))]);
    for (const [name, bytes] of wanted)
      expect(firstDifference(String(files.get(name)), bytes.toString()), name).toBeNull();
  });

  it('mends only what is ticked, smooths, and saves curves, as `mend --only --smooth --curves` does', async () => {
    await bring(page, buoys);
    await settled(page);
    await page.getByText('Choose what is put right').click();
    const wanted = /one line through all|shaky/;
    for (const box of await page.getByRole('group', { name: 'Wanted' }).getByRole('checkbox').all())
      if (!wanted.test((await box.locator('..').textContent())!)) await box.uncheck();
    await typeInto(page, 'Make a shaky line smooth within', '0.5mm');
    await settled(page);
    await doIt(page, 'what is ticked');
    await settled(page);
    const out = folder();
    const words = [
      '--reshape',
      '--only',
      'route,smooth',
      '--smooth',
      '0.5mm',
      '--to',
      'motif,svg',
      '--curves',
    ];
    expect(linewright(['mend', buoys, ...words, '--out', out]).code).toBe(0);
    const files = written(out);
    for (const button of ['Motif file', 'SVG of few curves, to edit again'])
      for (const [name, bytes] of await saved(page, button))
        expect(firstDifference(bytes.toString(), files.get(name)?.toString()), name).toBeNull();
  });

  it('says what it cannot put right, in the words of `mend`, and no longer advises it', async () => {
    const file = join(root, 'corpus/rules/opposite-edges/fail-starts-inside.svg');
    const run = linewright(['mend', file, '--reshape', '--json', '--out', folder()]);
    const [{ notMended, findings }] = JSON.parse(run.stdout).files;
    expect(notMended).toHaveLength(1);
    await bring(page, file);
    await settled(page);
    const step = page.getByRole('region', { name: 'Put it right' });
    await step.getByText(notMended[0].message).waitFor();
    const said = (await page.locator('.findings').textContent())!.replaceAll('\u00a0', ' ');
    for (const { message } of findings) expect(said).toContain(message);
  });

  it('reads pen drawings from PNG and JPEG as `convert` does', async () => {
    const where = folder();
    const [png, jpg] = [join(where, 'pen.png'), join(where, 'photo.jpg')];
    const drawn = penDrawing();
    const { width, height, pixels } = drawn;
    writeFileSync(png, drawn.asPng());
    writeFileSync(jpg, jpeg.encode({ width, height, data: pixels }, 90).data);
    const out = join(where, 'out');
    const words = ['--dpi', '150', '--ink', '45%', '--to', 'motif', '--out', out];
    expect(linewright(['convert', png, jpg, ...words]).code).toBe(0);
    await bring(page, png, jpg);
    for (const name of ['pen.png', 'photo.jpg']) {
      await page.getByLabel(name, { exact: true }).check();
      await settled(page);
      await page.getByText('How the picture is read').click();
      await typeInto(page, 'Dots to the inch', '150');
      await typeInto(page, 'Ink from', '45%');
      await settled(page);
      for (const [file, bytes] of await saved(page, 'Motif file'))
        expect(firstDifference(bytes.toString(), written(out).get(file)?.toString()), file).toBeNull();
    }
  });

  it('goes on from a motif that was read, where another worker takes over, without reading it again', async () => {
    const where = folder();
    const png = join(where, 'pen.png');
    writeFileSync(png, penDrawing().asPng());
    expect(linewright(['convert', png, '--to', 'motif', '--out', 'out'], { cwd: where }).code).toBe(0);
    const other = await openDesk(browser);
    // The first worker seeks offers for ever; those after it get no more of the file than its name.
    await other.page.evaluate(() => {
      const on = globalThis as unknown as { Worker: typeof Worker };
      let started = 0;
      on.Worker = class extends Worker {
        private readonly isFirst = started++ === 0;
        override postMessage(message: { ask?: string; bring?: object }): void {
          if (message.ask === 'offers') return;
          const { bring } = message;
          super.postMessage(
            bring && !this.isFirst ? { ...message, bring: { ...bring, bytes: new Uint8Array() } } : message,
          );
        }
      };
    });
    await bring(other.page, png);
    await other.page.getByText('Looking for what can be put right …').first().waitFor();
    const [[name, bytes]] = await saved(other.page, 'Motif file');
    const wanted = readFileSync(join(where, 'out', name), 'utf8');
    expect(firstDifference(bytes.toString(), wanted)).toBeNull();
    expect(other.complaints).toEqual([]);
    await other.close();
  });

  it('reverses, mirrors and lets the line start elsewhere', async () => {
    await bring(page, kelp);
    await settled(page);
    await page.getByRole('button', { name: 'Stitch it the other way' }).click();
    await settled(page);
    await eventually(() => page.locator('.findings').textContent()).toMatch(/starts on the right/i);
    await page.getByRole('button', { name: 'Mirror left and right' }).click();
    await settled(page);
    await eventually(() => verdict()).toBe('clean');
    const before = (await saved(page, 'Motif file')).get('kelp.motif.json')!;
    await page.getByLabel('Walk along the line').fill('300');
    await page.getByRole('button', { name: 'Start the line at the handle' }).click();
    await settled(page);
    const after = (await saved(page, 'Motif file')).get('kelp.motif.json')!;
    const [was, is] = [before, after].map((bytes) => JSON.parse(bytes.toString()));
    // The row stays the row: its repeat is the same wherever it is cut.
    expect(is.strokes[0][0]).not.toEqual(was.strokes[0][0]);
    for (const i of [0, 1]) expect(Math.abs(is.repeat[i] - was.repeat[i])).toBeLessThan(0.002);
  });

  it('reads only the lines that are meant, and says so in words of the page', async () => {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="8in" height="4in" viewBox="0 0 800 400"><g fill="none" stroke="#000">
<path d="M0 200C200 -60 300 460 400 200S600 -60 800 200"/><path stroke-dasharray="8 4" d="M0 20H800"/></g></svg>`;
    await bring(page, { name: 'guided.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(svg) });
    await settled(page);
    await eventually(() => verdict()).toBe('errors');
    expect(await page.locator('.findings').textContent()).toContain('Leave dashed lines out');
    expect(await page.locator('main').textContent()).not.toMatch(/--[a-z]/);
    await page.getByText('Which lines of the drawing are read').click();
    await page.getByLabel('Leave dashed lines out').check();
    await settled(page);
    await eventually(() => verdict()).not.toBe('errors');
  });

  it('says what is wrong with what was typed, beside the field', async () => {
    await bring(page, kelp);
    await settled(page);
    await typeInto(page, 'Height', 'nine');
    await page.getByText('The height "nine" is not a length').waitFor();
    await eventually(() => page.getByLabel('Height').getAttribute('aria-invalid')).toBe('true');
    await typeInto(page, 'Height', '9 1/2in');
    await settled(page);
    await eventually(() => page.locator('.flaw').count()).toBe(0);
    await eventually(() => page.getByText(/^Size:/).textContent()).toContain('9\u00a01/2\u00a0in');
  });
});

describe('rows', () => {
  it('stores layout and spacing as `convert --rows --spacing` does, in every form', async () => {
    await bring(page, kelp);
    await settled(page);
    await page.getByRole('radio', { name: /^brick/ }).check();
    await page.getByRole('textbox', { name: 'Row spacing' }).fill('5 1/4in');
    await page.getByRole('textbox', { name: 'Row spacing' }).press('Tab');
    await typeInto(page, 'Height', '6in');
    await settled(page);
    const out = folder();
    linewright(
      [
        'convert',
        kelp,
        '--out',
        out,
        '--to',
        'motif,svg,dxf,csv',
        '--rows',
        'brick',
        '--spacing',
        '5 1/4in',
      ].concat(['--height', '6in']),
    );
    const chosen = ['--layout', 'brick', '--spacing', '5 1/4in', '--height', '6in'];
    linewright(['sheet', kelp, '--out', join(out, 'kelp.html'), ...chosen]);
    linewright(['paper', kelp, '--out', join(out, 'kelp.pdf'), '--rows', '3', ...chosen]);
    const wanted = written(out);
    expect(wanted.size).toBe(6);
    await page.getByText('The pattern on paper').click();
    await typeInto(page, 'Rows on paper', '3');
    await settled(page);
    const forms = ['Motif file', 'SVG', 'DXF', 'Table of points (CSV)', 'Sheet to print'];
    for (const button of [...forms, 'Full size on paper (PDF)'])
      for (const [name, bytes] of await saved(page, button))
        expect(firstDifference(bytes.toString(), wanted.get(name)?.toString()), name).toBeNull();
  });

  it('rounds a spacing in one way, on buttons, in sentences and in the field', async () => {
    // Its rows may lie 5.08 mm apart: 3/16 in would be too near.
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="4mm" viewBox="0 0 200 4"><path fill="none" stroke="#000" d="M0 2C33 -1 67 -1 100 2S167 5 200 2"/></svg>';
    await bring(page, { name: 'ripple.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(svg) });
    await settled(page);
    await typeInto(page, 'Clearance', '5.08mm');
    await settled(page);
    const closest = page.getByRole('button', { name: /^closest: / });
    const [, told] = /: (.*) in/.exec((await closest.textContent())!)!;
    expect(told).toBe('7/32');
    await closest.click();
    await settled(page);
    expect(await page.getByText(/^Row spacing: /).textContent()).toContain(`${told} in`);
    expect(await page.getByRole('textbox', { name: 'Row spacing' }).inputValue()).toBe(`${told}in`);
    expect(await page.getByRole('slider', { name: /^Row spacing/ }).getAttribute('aria-valuetext')).toBe(
      `${told} in`,
    );
  });

  it('follows the slider and a dragged row, and remembers where it was left', async () => {
    await bring(page, kelp);
    await settled(page);
    const now = () => page.getByText(/^Row spacing: /).textContent();
    const first = await now();
    await page.locator('#spacing-slider').focus();
    await page.keyboard.press('ArrowRight');
    await settled(page);
    await eventually(now).not.toBe(first);
    const second = await now();
    await page.getByRole('radio', { name: 'the rows', exact: true }).check();
    const box = (await page.locator('.rows').boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 + 40, { steps: 8 });
    await eventually(now).not.toBe(second);
    await page.mouse.up();
    await settled(page);
    const third = await now();
    const [, inches] = /: ([\d /]+) in/.exec(third!)!;
    expect(await page.getByRole('textbox', { name: 'Row spacing' }).inputValue()).toBe(`${inches.trim()}in`);
    await page.getByRole('button', { name: 'Undo' }).click();
    await settled(page);
    await eventually(now).toBe(second);
  });
});

describe('the quilt', () => {
  it('plans as `plan` does, and saves the same plan, sheet and passes', async () => {
    await bring(page, kelp);
    await settled(page);
    await typeInto(page, 'Size of the top', '40in x 30in');
    await typeInto(page, 'Throat', '18in', 'quilt');
    await typeInto(page, 'Thread on a bobbin', '120yd');
    await settled(page);
    const out = folder();
    const words = ['--quilt', '40in x 30in', '--throat', '18in', '--bobbin', '120yd', '--out', 'quilt'];
    const run = linewright(['plan', kelp, ...words], { cwd: out });
    expect(run.code).toBe(0);
    const wanted = written(join(out, 'quilt'));
    // The command line names the file with its path, the page without one.
    const plain = (bytes: Buffer | undefined) => bytes?.toString().replaceAll(kelp, basename(kelp));
    const passes = [...wanted.keys()].filter((name) => name.startsWith('pass-'));
    expect(passes.length).toBeGreaterThan(1);
    for (const [name, bytes] of [
      ...(await saved(page, 'Plan (JSON)')),
      ...(await saved(page, 'Sheet of the plan')),
      ...(await saved(page, 'Passes (SVG, one file each)', passes.length)),
    ])
      expect(firstDifference(bytes.toString(), plain(wanted.get(name))), name).toBeNull();
    await page.getByRole('radio', { name: 'the quilt', exact: true }).check();
    await page.getByRole('img', { name: /The whole quilt/ }).waitFor();
  });

  it('goes on after a break as `resume` does, from a place typed or clicked', async () => {
    await bring(page, kelp);
    await settled(page);
    await typeInto(page, 'Size of the top', '40in x 30in');
    await typeInto(page, 'Throat', '18in', 'quilt');
    await settled(page);
    await page.getByText('Go on after a break').click();
    const cwd = folder();
    linewright(['plan', kelp, '--quilt', '40in x 30in', '--throat', '18in', '--out', 'quilt'], { cwd });
    const { passes } = JSON.parse(readFileSync(join(cwd, 'quilt/plan.json'), 'utf8'));
    // A place in the middle of the second pass, as it would be read off a ruler.
    const [x, y] = passes[1].strokes[0][Math.floor(passes[1].strokes[0].length / 3)];
    const at = `${x.toFixed(0)}mm; ${y.toFixed(0)}mm`;
    await page.getByRole('combobox', { name: 'Pass', exact: true }).selectOption('2');
    await typeInto(page, 'Stopped at', at);
    await settled(page);
    if ((await page.getByText('comes by there more than once').count()) > 0)
      await page.locator('input[name=which]').first().check();
    await settled(page);
    const out = join(cwd, 'rest');
    const words = ['resume', 'quilt', '--pass', '2', '--at', at, '--out', out, '--to', 'svg'];
    if (linewright(words, { cwd }).code === 2) linewright([...words, '--which', '1'], { cwd });
    const [[name, bytes]] = await saved(page, 'Rest of the pass (SVG)');
    expect(name).toBe('pass-02-rest.svg');
    expect(firstDifference(bytes.toString(), String(written(out).get(name)))).toBeNull();
    // Another place, clicked: half an inch off the line at most, somewhere in the picture.
    await page.locator('.paper > svg').click();
    await settled(page);
    await eventually(() => page.getByLabel('Stopped at').inputValue()).not.toBe(at);
    await page.getByRole('button', { name: 'Back to the whole plan' }).click();
    await settled(page);
    await eventually(() => page.getByRole('button', { name: 'Rest of the pass (SVG)' }).count()).toBe(0);
    // Rolled on a little askew: the same plan, lined up as `align` does.
    await page.getByText('Line a pass up after rolling on').click();
    await settled(page);
    const [left, right] = passes[1].checkMm.map(([across, down]: number[]) => [
      `${(across + 4).toFixed(1)}mm`,
      `${(down - 2).toFixed(1)}mm`,
    ]);
    await typeInto(page, 'Found on the left at', left.join('; '));
    await typeInto(page, 'Found on the right at', right.join('; '));
    await settled(page);
    const found = [...left, ...right].join(', ').replace(/^([^,]*, [^,]*), /, '$1; ');
    const align = linewright(['align', 'quilt', '--pass', '2', '--found', found, '--out', out], { cwd });
    expect(align.code).toBe(0);
    const [[lined, svg]] = await saved(page, 'Pass lined up (SVG)');
    expect(lined).toBe('pass-02-aligned.svg');
    expect(firstDifference(svg.toString(), String(written(out).get(lined)))).toBeNull();
    await page.getByText(/^Turned 0\.00 degrees/).waitFor();
    // Stopped in the pass that was lined up: its rest is lined up, too.
    await page.getByRole('combobox', { name: 'Pass', exact: true }).selectOption('2');
    await typeInto(page, 'Stopped at', at);
    await settled(page);
    if ((await page.getByText('comes by there more than once').count()) > 0)
      await page.locator('input[name=which]').first().check();
    await settled(page);
    const again = join(cwd, 'again');
    const lastWords = [...words.slice(0, 6), '--found', found, '--out', again, '--to', 'svg'];
    if (linewright(lastWords, { cwd }).code === 2) linewright([...lastWords, '--which', '1'], { cwd });
    const [[restName, rest]] = await saved(page, 'Rest of the pass (SVG)');
    expect(firstDifference(rest.toString(), String(written(again).get(restName)))).toBeNull();
  });

  it('says of a plan that is brought what to do with it, and takes the motif beside it', async () => {
    const cwd = folder();
    const typed = ['plan', kelp, '--quilt', '60in x 72in', '--out', 'quilt', '--to', 'svg'];
    expect(linewright(typed, { cwd }).code).toBe(0);
    const plan = join(cwd, 'quilt/plan.json');
    await bring(page, plan, buoys);
    await settled(page);
    await page.getByText(/^plan\.json: this is a plan, made from kelp\.svg: bring that motif/).waitFor();
    await eventually(() => page.locator('main').textContent()).toContain('On the desk: buoys.svg');
    writeFileSync(plan, readFileSync(plan).subarray(0, 2000));
    await bring(page, plan);
    await page.getByText(/^plan\.json: this plan is damaged, /).waitFor();
  });

  it('says beside the figures that they go by a size that is a guess, as `plan` does, until a size is typed', async () => {
    const svg = readFileSync(kelp, 'utf8').replace(/ (?:width|height)="[^"]*(?:in|mm)"/g, '');
    await bring(page, { name: 'kelp.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(svg) });
    await settled(page);
    const guess = page
      .locator('section[aria-labelledby=quilt]')
      .getByText(
        /^The file does not say how large the motif is\. .* Give its size with “Height” or “Width”\.$/,
      );
    await typeInto(page, 'Size of the top', '60in x 72in');
    await settled(page);
    await eventually(() => guess.count()).toBe(1);
    await typeInto(page, 'Throat', '1in', 'quilt');
    await page.getByText(/is taller than the throat/).waitFor();
    await eventually(() => guess.count()).toBe(1);
    await typeInto(page, 'Throat', '', 'quilt');
    await typeInto(page, 'Height', '9in');
    await settled(page);
    await eventually(() => guess.count()).toBe(0);
    expect(await page.getByText('Pass by pass').count()).toBe(1);
  });

  it('says in a sentence why there is no plan', async () => {
    await bring(page, buoys);
    await settled(page);
    await typeInto(page, 'Size of the top', '60in x 72in');
    await page.getByText(/buoys\.svg is not planned/).waitFor();
    await typeInto(page, 'Size of the top', 'large');
    await page.getByText(/The quilt takes a width and a height/).waitFor();
  });
});

describe('the quilt in words', () => {
  it('says why there is one pass without a throat, and of a motif taller than the throat that it never fits', async () => {
    await bring(page, kelp);
    await settled(page);
    await typeInto(page, 'Size of the top', '60in x 72in');
    await page
      .getByText(
        'all rows are taken as one pass. Give that of your machine in \u201cThroat\u201d to have the passes worked out.',
      )
      .waitFor();
    await typeInto(page, 'Batting allows', '1in');
    await page.getByText(/^A circle of .* more than the .* that the batting allows/).waitFor();
    await typeInto(page, 'Throat', '3in', 'quilt');
    await settled(page);
    expect(await page.locator('section[aria-labelledby=quilt] .flaw').textContent()).toMatch(
      /is taller than the throat\. The largest height that fits to the end is .*: give it with \u201cHeight\u201d/,
    );
    expect(await page.getByText('all rows are taken as one pass').count()).toBe(0);
  });
});

describe('from the library', () => {
  it('comes by a link on the library page, with all that its motif file holds, and once', async () => {
    const cwd = folder();
    // A name that is markup, and hard in an address.
    copyFileSync(kelp, join(cwd, 'kelp & "sail" #1.svg'));
    expect(linewright(['library', 'build', '.', '--out', 'library'], { cwd }).code).toBe(0);
    const other = await openDesk(browser, {}, join(cwd, 'library/index.html'), 'Motif library');
    await other.page.getByRole('link', { name: /^Open .* on the desk$/ }).click();
    await other.page.getByText('See how it will stitch').waitFor();
    await settled(other.page);
    await eventually(() => verdict(other.page)).toBe('clean');
    const [[name, bytes]] = await saved(other.page, 'Motif file');
    const [inLibrary] = readdirSync(join(cwd, 'library/motifs')).filter((each) =>
      each.endsWith('.motif.json'),
    );
    expect(name).toBe(inLibrary);
    expect(
      firstDifference(bytes.toString(), readFileSync(join(cwd, 'library/motifs', name), 'utf8')),
    ).toBeNull();
    // A reload finds it as what the browser kept; it does not come a second time.
    await eventually(() => kept(other.page)).toContain(name);
    await other.page.reload();
    await settled(other.page);
    expect(await other.page.getByRole('button', { name: /^Put away/ }).count()).toBe(0);
    await other.page.goto(`${other.page.url()}#motif=kelp.motif.json&data=H4sIA`);
    await other.page.reload();
    await other.page.getByText('kelp.motif.json: the link is damaged or cut short.').waitFor();
    expect(other.complaints).toEqual([]);
    await other.close();
  });
});

describe('nothing is lost', () => {
  it('finds the last motif after a reload, and forgets it when the desk is cleared', async () => {
    await bring(page, kelp);
    await settled(page);
    await typeInto(page, 'Height', '6in');
    await settled(page);
    await eventually(() => kept(page)).toContain('6in');
    await page.reload();
    await settled(page);
    await page.getByText('this browser kept it').waitFor();
    await eventually(() => page.getByLabel('Height').inputValue()).toBe('6in');
    await page.getByRole('button', { name: 'Clear the desk' }).click();
    await eventually(() => kept(page)).toBe('');
    await page.reload();
    await page.getByText('Choose files').waitFor();
    await page.waitForTimeout(300);
    expect(await page.locator('[data-verdict]').count()).toBe(0);
  });

  it('leaves what another tab has kept since, says so, and lets that one go on', async () => {
    const first = await openDesk(browser);
    await bring(first.page, kelp);
    await settled(first.page);
    await eventually(() => kept(first.page)).toContain('kelp.svg');
    const second = await first.page.context().newPage();
    await second.goto(first.page.url());
    await second.getByText('this browser kept it').waitFor();
    await typeInto(second, 'Height', '7in');
    await eventually(() => kept(second)).toContain('7in');
    await typeInto(first.page, 'Height', '5in');
    await first.page.getByText('keeps the desk of another tab, changed since').waitFor();
    expect(await kept(first.page)).toContain('7in');
    await typeInto(second, 'Height', '8in');
    await eventually(() => kept(second)).toContain('8in');
    // Cleared there is nothing left that could be lost.
    await second.getByRole('button', { name: 'Clear the desk' }).click();
    await eventually(() => kept(second)).toBe('');
    await typeInto(first.page, 'Height', '6in');
    await eventually(() => kept(first.page)).toContain('6in');
    expect(first.complaints).toEqual([]);
    await first.close();
  });

  it('brings a session back from its file, on another desk', async () => {
    await bring(page, buoys, kelp);
    await settled(page);
    await doIt(page, 'everything');
    await settled(page);
    const session = await saved(page, 'Session: everything on this desk');
    const [[name, buffer]] = session;
    const other = await openDesk(browser);
    await bring(other.page, { name, mimeType: 'application/json', buffer });
    await settled(other.page);
    await eventually(() => verdict(other.page)).not.toBe('errors');
    expect(await other.page.getByLabel('kelp.svg', { exact: true }).count()).toBe(1);
    const damaged = Buffer.from(buffer.toString().replace('"unit":"in"', '"unit":"ell"'));
    await bring(other.page, { name, mimeType: 'application/json', buffer: damaged });
    await other.page.getByText(/this session is damaged/).waitFor();
    expect(other.complaints).toEqual([]);
    await other.close();
  });

  it('lays motifs that are dropped with sessions beside those of the sessions, and tells of what cannot be read', async () => {
    await bring(page, buoys, kelp);
    await settled(page);
    await typeInto(page, 'Height', '6in');
    await settled(page);
    const [[, buffer]] = await saved(page, 'Session: everything on this desk');
    await page.getByRole('button', { name: 'Clear the desk' }).click();
    await bring(page, gullWing);
    await settled(page);
    const torn = buffer.subarray(0, 2000);
    const files = {
      'one.json': buffer,
      'torn.json': torn,
      'kelp.svg': readFileSync(kelp),
      'two.json': buffer,
    };
    await bring(
      page,
      ...Object.entries(files).map(([name, bytes]) => ({ name, mimeType: '', buffer: bytes })),
    );
    await settled(page);
    const told = await page.getByRole('status').textContent();
    for (const words of ['The session one.json is', 'torn.json, line 1', 'The session two.json is'])
      expect(told).toContain(words);
    const names = () => page.locator('section[aria-labelledby=bring] fieldset label').allTextContents();
    const each = ['buoys.svg', 'kelp.svg', 'buoys.svg (2)', 'kelp.svg (2)', 'kelp.svg (3)'];
    await eventually(async () => (await names()).map((name) => name.trim())).toEqual(each);
    expect(await page.getByLabel('kelp.svg (3)', { exact: true }).isChecked()).toBe(true);
    for (const [name, height] of [
      ['kelp.svg (2)', ''],
      ['buoys.svg (2)', '6in'],
    ]) {
      await page.getByLabel(name, { exact: true }).check();
      await eventually(() => page.getByLabel('Height', { exact: true }).inputValue()).toBe(height);
    }
  });
});

describe('hostile files', () => {
  const cases: readonly (readonly [string, string | Buffer])[] = [
    ['torn.svg', '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0'],
    ['empty.svg', ''],
    [
      'bomb.svg',
      `<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">${Array.from({ length: 12 }, (_, i) => `<!ENTITY ${String.fromCharCode(98 + i)} "${`&${String.fromCharCode(97 + i)};`.repeat(10)}">`).join('')}]><svg xmlns="http://www.w3.org/2000/svg"><text>&m;</text></svg>`,
    ],
    ['deep.svg', `<svg xmlns="http://www.w3.org/2000/svg">${'<g>'.repeat(100_000)}`],
    [
      'numbers.svg',
      '<svg xmlns="http://www.w3.org/2000/svg"><path stroke="#000" d="M0 0L1e300 1e300"/></svg>',
    ],
    ['short.motif.json', '{"format":"linewright-motif","version":1,"unit":"mm","strokes":[[[0,0]]]}'],
    ['cut.svgz', gzipSync('<svg/>').subarray(0, 12)],
    ['noise.bin', Buffer.from([0, 1, 2, 3, 255, 254])],
  ];

  it('gets a sentence for each, the same as on the command line, and stays alive', async () => {
    const where = folder();
    mkdirSync(where, { recursive: true });
    for (const [name, content] of cases) writeFileSync(join(where, name), content);
    const names = cases.map(([name]) => name);
    const { stderr, code } = linewright(['check', ...names], { cwd: where });
    expect(code).toBe(2);
    for (const name of names) {
      const sentence = stderr.split('\n').find((line) => line.startsWith(name));
      expect(sentence, name).toBeDefined();
      await bring(page, join(where, name));
      await eventually(() => page.locator('body').textContent()).toContain(sentence!.slice(0, 60));
    }
    await page.getByText("Try one of the harbour's").click();
    await page.getByRole('button', { name: 'Kelp' }).click();
    await settled(page);
    await eventually(() => verdict()).toBe('clean');
  });

  it('shows credits that stand in the description', async () => {
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg" width="8in" height="4in" viewBox="0 0 800 400"><desc>Drawn by Ada Reed</desc><path fill="none" stroke="#000" d="M0 200C200 -60 300 460 400 200S600 -60 800 200"/></svg>';
    await bring(page, { name: 'reed.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(svg) });
    await settled(page);
    expect(await page.locator('section[aria-labelledby=see] .credit').textContent()).toContain('Ada Reed');
  });

  it('shows markup in titles and names as text', async () => {
    const title = '<img src=x onerror="document.title=1">Buoy';
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="8in" height="4in" viewBox="0 0 800 400"><title>${title.replaceAll('<', '&lt;')}</title><path fill="none" stroke="#000" d="M0 200C200 -60 300 460 400 200S600 -60 800 200"/></svg>`;
    await bring(page, { name: '<b>odd.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(svg) });
    await settled(page);
    expect(await page.locator('.credit').first().textContent()).toContain(title);
    expect(await page.locator('img').count()).toBe(0);
    expect(await page.title()).toBe('Linewright: the quilting desk');
  });
});
