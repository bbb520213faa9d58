/** Motifs drawn by resvg at a scanner's resolution: the line read from the pixels is the line drawn. Distances are jsts's. */
import { describe, expect, test, vi } from 'vitest';
import { defaultSetup } from '../../../shared/setup.js';
import { boundsOf, lengthOf, moved } from '../../../src/geometry/polyline.js';
import { studyOf } from '../../../src/measure/index.js';
import { mendMotif } from '../../../src/mend/index.js';
import { readArtwork } from '../../../src/read/index.js';
import { toMotif } from '../../../src/size/index.js';
import { motifOf } from '../../../src/size/motif-of.js';
import { distances } from '../../centre/farthest.js';
import { findingsOf, motifIn } from '../../checked.js';
import { scanned, type Wish } from './drawn.js';

// Comparing by jsts takes a second or two, and longer beside other work.
vi.setConfig({ testTimeout: 60_000 });

const folder = new URL('../../../corpus/motifs/', import.meta.url).pathname;
const lineOf = async (name: string) => (await motifIn(`${folder}${name}.svg`)).strokes[0];

async function traced(name: string, wish: Wish) {
  const scan = scanned(await lineOf(name), wish);
  const artwork = await readArtwork(scan.bytes, `${name}.png`, { ...defaultSetup, dpi: scan.dpi });
  const { minX, minY } = boundsOf(artwork.lines.map(({ coords }) => coords));
  const motif = mendMotif(toMotif(artwork, defaultSetup), defaultSetup, {
    reshape: true,
    skip: ['reach', 'turn', 'thin'],
  }).motif;
  return { artwork, motif, line: moved(scan.line, -minX, -minY) };
}

// Two motifs for each kind of scan, three kinds for each motif.
describe.each([
  [200, 0.7, 'plain', ['swell', 'net']],
  [200, 1.5, 'light', ['kelp', 'mussel-bed']],
  [200, 1.5, 'turned', ['swell', 'kelp']],
  [200, 0.7, 'noise', ['mussel-bed', 'net']],
  [300, 1.5, 'plain', ['kelp', 'net']],
  [200, 1.5, 'jpeg', ['swell', 'mussel-bed']],
] as const)('at %i dots to the inch, pen %f mm, %s', (dpi, penMm, kind, names) => {
  test.each(names)('%s', async (name) => {
    const { motif, line } = await traced(name, { dpi, penMm, kind });
    expect(motif.strokes).toHaveLength(1);
    const off = distances(motif.strokes, [line]);
    const missed = distances([line], motif.strokes);
    const isNoisy = kind === 'noise';
    expect(Math.max(off.at(-1)!, missed.at(-1)!)).toBeLessThan(isNoisy ? 0.25 : 0.12);
    expect(off[Math.floor(0.95 * off.length)]).toBeLessThan(0.045);
    expect(Math.abs(lengthOf(motif.strokes[0]) / lengthOf(line) - 1)).toBeLessThan(isNoisy ? 0.01 : 0.005);
    const crossings = (strokes: readonly Float64Array[]) =>
      studyOf(motifOf(strokes), defaultSetup).crossings.places.length;
    expect(crossings(motif.strokes)).toBe(crossings([line]));
  });
});

test('a ruled line and specks are left out and named, passes through them kept whole', async () => {
  const also =
    '<path d="M0 40H400" stroke="#222" stroke-width="0.7"/><circle cx="4" cy="4" r="0.4"/><circle cx="60" cy="76" r="0.3"/>';
  const { artwork, motif, line } = await traced('swell', { dpi: 200, penMm: 1, also });
  expect(artwork.notes.map(({ what, count }) => [what, count])).toEqual([
    ['speck', 2],
    ['ruled line', 1],
  ]);
  expect(motif.strokes).toHaveLength(1);
  expect(distances(motif.strokes, [line]).at(-1)).toBeLessThan(0.12);
  expect(findingsOf(toMotif(artwork, defaultSetup)).map(({ rule }) => rule)).toContain('stray-artwork');
});

test('the resolution typed goes before the one assumed, and that is said', async () => {
  const { bytes } = scanned(await lineOf('swell'), { dpi: 200, penMm: 1 });
  const assumed = await readArtwork(bytes, 'swell.png');
  const typed = await readArtwork(bytes, 'swell.png', { dpi: 150 });
  expect([assumed.assumedSize, typed.assumedSize]).toEqual([true, false]);
  expect(toMotif(typed, defaultSetup).widthMm / toMotif(assumed, defaultSetup).widthMm).toBeCloseTo(2, 3);
  const said = findingsOf(toMotif(assumed, defaultSetup)).find(({ rule }) => rule === 'physical-size');
  expect(said?.message).toContain('300 dots to the inch');
  expect(said?.message).toContain('at 200 it would be');
});

test('a line under three pixels wide gets a sentence', async () => {
  const { bytes } = scanned(await lineOf('swell'), { dpi: 72, penMm: 0.7 });
  await expect(readArtwork(bytes, 'thin.png')).rejects.toThrow(
    /thin\.png: the line is only .* scan it finer/,
  );
});
