/** A size that is asked for is that of the line: held against the same drawing without what mending leaves out. */
import { describe, expect, test, vi } from 'vitest';
import { defaultSetup, type Setup } from '../../shared/setup.js';
import { mendMotif } from '../../src/mend/index.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { hausdorff } from './hausdorff.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000 });

const wave = '<path d="M0 120C30 80 60 80 100 120S170 160 200 120"/>';
const mark = '<circle cx="5" cy="5" r="2"/>';
const cross = '<path d="M-40 118h4M-38 116v4"/>';
const frame = '<path d="M-45 -20H240V180H-45Z"/>';
const square = '<path d="M-10 10V230H210V10Z"/>';
const dot = '<path d="M100 2l0 .01"/>';

async function mended(drawn: string, asked: Partial<Setup>, reshape = true) {
  const setup = { ...defaultSetup, ...asked };
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="-50 0 300 200"><g fill="none" stroke="#000">${drawn}</g></svg>`;
  const artwork = await readArtwork(new TextEncoder().encode(svg), 'drawn.svg', setup);
  const read = toMotif(artwork, setup);
  return { read, ...mendMotif(read, setup, { reshape }) };
}

describe.each([
  ['a registration mark above it', mark, true],
  ['a cross beside it', cross, true],
  ['a frame', frame, true],
  ['a square frame', square, true],
  ['a dot above it', dot, false],
  ['all of them', mark + cross + frame + dot, true],
])('a wave with %s', (_, beside, reshape) => {
  test.each([{ heightMm: 101.6 }, { widthMm: 240 }, { heightMm: 12 }])(
    'comes out as large as was asked, %j, as without',
    async (asked) => {
      const { read, motif, accounts } = await mended(wave + beside, asked, reshape);
      const alone = await mended(wave, asked, reshape);
      // Thinning takes off up to 0.02 mm above and below.
      const mm = asked.heightMm ? motif.heightMm : motif.widthMm;
      expect(Math.abs(mm - (asked.heightMm ?? asked.widthMm!))).toBeLessThan(0.041);
      // Of both lines: the points left out by thinning, and how far they leave the curve, which grew with the line.
      expect(hausdorff(motif.strokes, alone.motif.strokes)).toBeLessThan(
        0.02 + 0.02 + 0.01 + motif.flattenMm,
      );
      const grew = alone.motif.scale / read.scale;
      expect(motif.scale).toBeCloseTo(alone.motif.scale, 2);
      if (grew > 1.01) expect(accounts[0].message).toContain(`made ${grew.toFixed(2)} times as large`);
      const again = mendMotif(motif, { ...defaultSetup, ...asked }, { reshape });
      expect(again.accounts).toEqual([]);
    },
  );

  test('keeps its size where none was asked for', async () => {
    const { motif, accounts } = await mended(wave + beside, {}, reshape);
    expect(motif.widthMm).toBeCloseTo(200, 2);
    expect(accounts[0].message).not.toContain('times as large');
  });
});

test('a line without any height is refused one, as it is without the mark above it', async () => {
  const straight = '<path d="M0 100H200"/>';
  for (const drawn of [straight, straight + mark])
    await expect(mended(drawn, { heightMm: 100 })).rejects.toThrow(
      'straight line without any height: give its width instead',
    );
});
