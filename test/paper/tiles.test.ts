/**
 * Patterns on paper, printed by poppler and measured: tiles put together by their places must show the rows of section 6
 * of the design, whose maps are written out here by hand, to 0.1 mm.
 */
import { describe, expect, it } from 'vitest';
import type { Layout } from '../../shared/layout.js';
import { defaultSetup, type Setup } from '../../shared/setup.js';
import { studyOf } from '../../src/measure/index.js';
import { layOnPaper, type PaperWanted, writePaper } from '../../src/paper/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { type Printed, pdfinfo, pdftotext, printedPages, saved } from './printed.js';

/** 160 mm wide and 90 mm high, the same neither turned nor flipped. Starts at (0, 60), ends at (160, 60). */
const repeatMm = 160;
const wave = [
  [0, 60],
  [20, 10],
  [50, 0],
  [70, 85],
  [95, 90],
  [120, 40],
  [140, 30],
  [160, 60],
];
const spacingMm = 100;
const setup: Setup = { ...defaultSetup, spacingMm, layout: 'straight' };
const motif = motifOf([Float64Array.from(wave.flat())], { name: 'wave', credit: { title: 'Wave' } });

const letter: PaperWanted = { sheetMm: [215.9, 279.4], repeats: 2, rows: 2, overlapMm: 12.7 };

/** Where a place of repeat k of the changed row lies. Half a turn is about (80, 45): halfway from start to end, mid-height. */
const changed: Readonly<Record<Layout, (x: number, y: number, k: number) => [number, number]>> = {
  straight: (x, y, k) => [x + k * 160, y + 100],
  brick: (x, y, k) => [x + k * 160 + 80, y + 100],
  mirrored: (x, y, k) => [x + k * 160 + 80, 90 - y + 100],
  // Its repeats are counted from the right: it covers 0 to 320 like the first row.
  turned: (x, y, k) => [160 - x + k * 160, 90 - y + 100],
};

/** Every half millimetre, with the direction across the line. */
function samples(place: (x: number, y: number) => [number, number]) {
  const found: { x: number; y: number; nx: number; ny: number }[] = [];
  const points = wave.map(([x, y]) => place(x, y));
  for (let i = 1; i < points.length; i++) {
    const [[ax, ay], [bx, by]] = [points[i - 1], points[i]];
    const length = Math.hypot(bx - ax, by - ay);
    for (let at = 1; at < length - 1; at += 0.5)
      found.push({
        x: ax + (at / length) * (bx - ax),
        y: ay + (at / length) * (by - ay),
        nx: -(by - ay) / length,
        ny: (bx - ax) / length,
      });
  }
  return found;
}

/** Round the marks at a row's two ends, which lie over the line. */
const markMm = 5;

function expected(layout: Layout) {
  const [near, far] = [
    [0, 60],
    [160, 60],
  ].map(([x, y]) => [0, 1].map((k) => changed[layout](x, y, k)));
  const ends = [[0, 60], [320, 60], ...near, ...far];
  return [0, 1]
    .flatMap((k) => [
      ...samples((x, y) => [x + k * repeatMm, y]),
      ...samples((x, y) => changed[layout](x, y, k)),
    ])
    .filter(({ x, y }) => ends.every(([ex, ey]) => Math.hypot(x - ex, y - ey) > markMm));
}

async function paperOf(layout: Layout, wanted: PaperWanted) {
  const study = studyOf(motif, { ...setup, layout });
  const paper = layOnPaper(study, wanted);
  const file = saved(await writePaper(study, paper));
  return { paper, file };
}

describe.each(['straight', 'brick', 'mirrored', 'turned'] as const)('%s rows', (layout) => {
  it('are right to 0.1 mm on every tile, and whole', async () => {
    const { paper, file } = await paperOf(layout, letter);
    const pages = printedPages(file);
    expect(pages).toHaveLength(paper.tiles.length + 1);
    const places = expected(layout);
    const seen = new Set<number>();
    paper.tiles.forEach(({ fromMm }, index) => {
      const page: Printed = pages[index + 1];
      const [width, height] = paper.sizeMm;
      places.forEach(({ x, y, nx, ny }, i) => {
        const [dx, dy] = [x - fromMm[0], y - fromMm[1]];
        // Half a pen inside the tile.
        if (dx < 0.3 || dy < 0.3 || dx > width - 0.3 || dy > height - 0.3) return;
        seen.add(i);
        const [px, py] = [paper.atMm[0] + dx, paper.atMm[1] + dy];
        // The pen is 0.6 mm wide: were it off by more than 0.1 mm, 0.2 mm to one side would be white.
        for (const aside of [-0.2, 0, 0.2])
          if (!page.dark(px + aside * nx, py + aside * ny))
            throw new Error(`white at ${x.toFixed(1)}, ${y.toFixed(1)} on page ${index + 2}`);
      });
    });
    expect(seen.size).toBeGreaterThan(0.99 * places.length);
  });
});

it('draws the line, its marks and no more', async () => {
  const { paper, file } = await paperOf('straight', { ...letter, sheetMm: [350, 220] });
  expect(paper.tiles).toHaveLength(1);
  const [page] = printedPages(file, 2, 2);
  const lineMm2 = (expected('straight').length / 2) * 0.6;
  expect(page.darkArea).toBeGreaterThan(lineMm2);
  // Arrow heads, the dashed row below, marks and the foot of the page.
  expect(page.darkArea).toBeLessThan(1.5 * lineMm2);
});

it('puts squares of 2 in and 50 mm on page 1', async () => {
  for (const sheetMm of [letter.sheetMm, [297, 210], [152.4, 203.2]] as const) {
    const { file } = await paperOf('straight', { ...letter, sheetMm });
    const [page] = printedPages(file, 1, 1);
    // Columns that are dark for 45 to 55 mm without a break are sides of squares.
    const sides: { from: number; to: number; runMm: number }[] = [];
    for (let x = 0; x < page.widthPx; x++) {
      let [run, longest] = [0, 0];
      for (let y = 0; y < page.heightPx; y++) {
        run = page.dark((x + 0.5) / 10, (y + 0.5) / 10) ? run + 1 : 0;
        longest = Math.max(longest, run);
      }
      if (longest < 450 || longest > 550) continue;
      const last = sides.at(-1);
      if (last && last.to === x - 1) sides[sides.length - 1] = { ...last, to: x };
      else sides.push({ from: x, to: x, runMm: longest / 10 });
    }
    const middles = sides.map(({ from, to }) => (from + to + 1) / 20);
    expect(middles).toHaveLength(4);
    expect(Math.abs(middles[1] - middles[0] - 50.8)).toBeLessThan(0.11);
    expect(Math.abs(middles[3] - middles[2] - 50)).toBeLessThan(0.11);
    // From the outer edge of a pen of 0.2 mm to the other.
    expect(Math.abs(sides[0].runMm - 51)).toBeLessThan(0.11);
    expect(Math.abs(sides[3].runMm - 50.2)).toBeLessThan(0.11);
  }
});

it('says where each page belongs, whose motif it is, and how to print', async () => {
  const { paper, file } = await paperOf('brick', letter);
  const info = pdfinfo(file);
  expect(info.Title).toBe('Wave');
  expect(Number(info.Pages)).toBe(paper.tiles.length + 1);
  const [w, h] = paper.paperMm.map((mm) => Math.round((mm / 25.4) * 72));
  expect(info['Page 1 size']).toContain(`${w} x ${h} pts`);
  expect(info['Page 2 size']).toContain(`${w} x ${h} pts`);
  const first = pdftotext(file, 1);
  expect(first).toContain('Print every page at 100 %');
  expect(first).toContain('brick, every 3 15/16 in (100 mm)');
  expect(first).toContain('Title: Wave');
  expect(first).toContain('Test on scrap first');
  paper.tiles.forEach(({ row, column }, index) => {
    const place = `Row ${'ABC'[row]}, page ${column + 1}`;
    expect(pdftotext(file, index + 2)).toContain(place);
  });
});
