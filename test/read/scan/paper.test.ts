/**
 * What else is on the paper, or beyond it: drawn by resvg beside a line that is known, it is left out and named, and the
 * line is found as if it were alone. Distances are jsts's.
 */
import { describe, expect, test, vi } from 'vitest';
import { defaultSetup } from '../../../shared/setup.js';
import { boundsOf, moved, polylineOf } from '../../../src/geometry/polyline.js';
import { motifPicture } from '../../../src/picture/index.js';
import { readArtwork } from '../../../src/read/index.js';
import { asInkOnPaper } from '../../../src/read/scan/paper.js';
import type { Picture } from '../../../src/read/scan/picture.js';
import { toMotif } from '../../../src/size/index.js';
import { farthest } from '../../centre/farthest.js';
import { findingsOf } from '../../checked.js';
import { scanned, type Wish } from './drawn.js';

vi.setConfig({ testTimeout: 60_000 });

const wave = polylineOf(
  Array.from({ length: 301 }, (_, i) => ({ x: i / 2, y: 15 * Math.sin((i / 2) * 0.12) })),
);
/** The page is 166 x 46 mm. */
const pen: Wish = { dpi: 200, penMm: 1 };

async function read(wish: Partial<Wish>, ink?: number) {
  const scan = scanned(wave, { ...pen, ...wish });
  const artwork = await readArtwork(scan.bytes, 'wave.png', { dpi: scan.dpi, ...(ink && { ink }) });
  const { minX, minY } = boundsOf(artwork.lines.map(({ coords }) => coords));
  const motif = toMotif(artwork, defaultSetup);
  return {
    motif,
    lines: scan.lines.map((line) => moved(line, -minX, -minY)),
    left: artwork.notes.map(({ what, count }) => `${count} ${what}`),
  };
}

const grid = (colour: string) =>
  Array.from({ length: 33 }, (_, i) => `M${5 * i + 3} 0V60M0 ${5 * i + 3}H200`).map(
    (d) => `<path d="${d}" stroke="${colour}" stroke-width="0.25"/>`,
  );

describe.each([
  ['pale graph paper', { under: grid('#a8c8e8').join('') }, '1 paler mark'],
  ['paler graph paper', { under: grid('#d4e4f0').join('') }, '1 paler mark'],
  [
    'a filled heart apart',
    { also: '<path transform="translate(140 38)" d="M0 6C-9 0 -6 -6 0 -2C6 -6 9 0 0 6Z"/>' },
    '1 filled shape',
  ],
  ['the dark beyond the sheet', { also: '<path d="M0 0H200V4L0 1Z" fill="#333"/>' }, '1 dark picture edge'],
  [
    'the dark all round',
    { also: '<path d="M-9 -9H200V70H-9Z M3 2H160V44H4Z" fill="#333" fill-rule="evenodd"/>' },
    '4 dark picture edge',
  ],
] as const)('%s', (_name, drawing, named) => {
  test('is left out and named, and the line is found', async () => {
    const { motif, lines, left } = await read(drawing);
    expect(left).toEqual([named]);
    expect(motif.strokes).toHaveLength(1);
    expect(farthest(motif.strokes, lines)).toBeLessThan(0.12);
    expect(motif.scan?.uncovered).toEqual([]);
    const said = findingsOf(motif).find(({ rule }) => rule === 'stray-artwork');
    expect(said?.message).toContain(named.replace(/^4 /, '').replace(/mark$/, ''));
  });
});

test('a line in pencil beside one in ink is named, and read when that is asked for', async () => {
  const pencilled = '<path d="M12 4H150" stroke="#b4b4b4" stroke-width="1"/>';
  const one = await read({ also: pencilled });
  expect([one.motif.strokes.length, one.left]).toEqual([1, ['1 paler mark']]);
  const both = await read({ also: pencilled }, 0.2);
  expect([both.motif.strokes.length, both.left]).toEqual([2, []]);
});

test('a blot is pointed out', async () => {
  const blot = await read({ also: `<circle cx="${8 + 75}" cy="${8 + 15 + 15 * Math.sin(9)}" r="1.2"/>` });
  expect(blot.motif.scan?.uncovered).toHaveLength(1);
  const { findings, at } = { findings: findingsOf(blot.motif), at: blot.motif.scan!.uncovered[0] };
  const said = findings.find(({ rule }) => rule === 'traced-line');
  expect(said?.places).toEqual([at]);
  expect(Math.hypot(at.x - 75, at.y - 15 - 15 * Math.sin(9))).toBeLessThan(1);
});

test('the scan lies under the line in a picture, where it was read', async () => {
  const { motif } = await read({});
  const svg = motifPicture(motif, { widthPx: 1000, withScan: true });
  const [, width, x, y] = /<image [^>]* width="([\d.]+)"[^>]*matrix\(1 0 0 1 ([-\d.]+) ([-\d.]+)\)/
    .exec(svg)!
    .map(Number);
  // The page is as wide as its pixels say, and the line begins 8 mm from its edge.
  const pxPerMm = 860 / motif.widthMm;
  expect(width / pxPerMm).toBeCloseTo(166, 0);
  expect(70 - x).toBeCloseTo(8 * pxPerMm, 0);
  expect(y).toBeLessThan(70);
  expect(motifPicture(motif, { widthPx: 1000 })).not.toContain('<image');
});

const slate = { paper: '#3a403c', ink: '#e4e4dc' };
/** What lies round the page, 3 to 4 mm of it seen. */
const round = (colour: string, turnedDeg = 0) =>
  `<path transform="rotate(${turnedDeg} 83 23)" d="M-99 -99H400V299H-99Z M4 3V43H162V3Z" fill="${colour}"/>`;

const lightOnDark: readonly (readonly [string, Partial<Wish>, readonly string[]])[] = [
  ['white on black', { paper: '#000', ink: '#fff' }, []],
  ['chalk on slate, noisy', { paper: '#4a5048', ink: '#d8d8d0', kind: 'noise' }, []],
  ['chalk on pale slate', { paper: '#7c7c7c', ink: '#d0d0d0' }, []],
  ['chalk on slate in light that falls off', { paper: '#555', ink: '#eee', kind: 'light' }, []],
  ['chalk on slate, saved as JPEG', { paper: '#333', ink: '#ddd', kind: 'jpeg' }, []],
  [
    'white on dark paper beside a bright lid',
    { paper: '#222', ink: '#fff', also: '<path d="M0 0H200V4L0 1Z" fill="#fff"/>' },
    ['1 pale picture edge'],
  ],
  ['a slate in a light frame', { ...slate, also: round('#f4f4f0') }, ['4 pale picture edge']],
  ['a slate on a light table, aslant', { ...slate, also: round('#f4f4f0', 1.5) }, ['4 pale picture edge']],
  [
    'a slate in a light frame, noisy',
    { ...slate, also: round('#f4f4f0'), kind: 'noise' },
    ['4 pale picture edge'],
  ],
  [
    'a slate in a frame of wood',
    { ...slate, also: round('#b08850') },
    ['3 pale picture edge', '2 paler mark'],
  ],
];

describe.each(lightOnDark)('%s', (_name, drawing, named) => {
  test('is read as the line that was drawn, not as what lies between', async () => {
    const { motif, lines, left } = await read(drawing);
    expect(left).toEqual(named);
    expect(motif.strokes).toHaveLength(1);
    expect(farthest(motif.strokes, lines)).toBeLessThan(drawing.kind === 'noise' ? 0.25 : 0.12);
    expect(motif.scan?.uncovered).toEqual([]);
  });
});

test('loops in chalk are lines round spaces, and a small sheet on a large dark table is a sheet', async () => {
  const looped = polylineOf(
    Array.from({ length: 601 }, (_, i) => ({
      x: i / 4 + 12 * Math.sin(i * 0.1),
      y: 14 * Math.cos(i * 0.1),
    })),
  );
  for (const colours of [{ paper: '#444', ink: '#ddd' }, {}]) {
    const table = { also: '<path d="M-99 -99H400V299H-99Z M1 1V44H200V1Z" fill="#333"/>' };
    const scan = scanned(looped, { ...pen, ...('ink' in colours ? colours : table) });
    const { lines } = await readArtwork(scan.bytes, 'loops.png', { dpi: scan.dpi });
    const strokes = lines.map(({ coords }) => coords);
    expect(farthest(strokes, scan.lines)).toBeLessThan(0.3);
  }
});

describe('which is the line', () => {
  const [width, height] = [500, 400];
  const isLightOnDark = (greyAt: (x: number, y: number) => number) => {
    const grey = Uint8Array.from({ length: width * height }, (_, i) =>
      greyAt(i % width, Math.floor(i / width)),
    );
    return asInkOnPaper({ width, height, grey } as Picture).isLightOnDark;
  };
  const rings = (linePx: number, spacePx: number, line: number, paper: number) => (x: number, y: number) => {
    const off = Math.hypot(x - width / 2, y - height / 2);
    return off > 10 && off < 150 && off % (linePx + spacePx) < linePx ? line : paper;
  };

  test('of a broad pen, though its spaces are a little narrower: the line', () => {
    for (const [linePx, spacePx] of [
      [5, 15],
      [10, 10],
      [11, 9],
      [12, 8],
    ]) {
      expect(isLightOnDark(rings(linePx, spacePx, 20, 240))).toBe(false);
      expect(isLightOnDark(rings(linePx, spacePx, 240, 20))).toBe(true);
    }
  });

  test('of a sheet or a slate of any size on a table: the line on it, not the sheet', () => {
    for (const share of [0.2, 0.3, 0.35, 0.5, 0.9]) {
      const onSheet = (line: number, paper: number, table: number) => (x: number, y: number) => {
        const [u, v] = [(x / width - 0.5) / share, (y / height - 0.5) / share];
        if (Math.abs(u) > 0.5 || Math.abs(v) > 0.5) return table;
        return Math.abs(u) < 0.4 && Math.abs(v - 0.1 * Math.sin(10 * u)) < 1.5 / (height * share)
          ? line
          : paper;
      };
      expect(isLightOnDark(onSheet(20, 240, 50))).toBe(false);
      expect(isLightOnDark(onSheet(240, 20, 210))).toBe(true);
    }
  });
});
