/** Frames and what lies in them, as drawn and as mended, side by side: what is left is the line alone, and all of it. */
import { expect, test, vi } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { mendMotif } from '../../src/mend/index.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { hausdorff } from './hausdorff.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000 });

async function motifOf(drawn: string) {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="300mm" viewBox="-50 -50 300 300"><g fill="none" stroke="#000">${drawn}</g></svg>`;
  return toMotif(await readArtwork(new TextEncoder().encode(svg), 'drawn.svg', defaultSetup), defaultSetup);
}

// From (0, 40) to (200, 40), between 10 and 70.
const wave = 'M0 40C20 0 30 0 50 40S80 80 100 40 130 0 150 40 180 80 200 40';
const path = (d: string) => `<path d="${d}"/>`;

const level = path(
  'M0 80L.801 79.988 1.592 79.952C60 79 60 20 100 20S140 79 198.408 79.952L199.199 79.988 200 80',
);
const ring = '<circle cx="100" cy="10" r="10"/>';

test.each([
  ['a frame clear of it', path(wave) + path('M-9 0H209V80H-9Z'), path(wave)],
  ['a frame that its ends touch', path(wave) + path('M0 0H200V80H0Z'), path(wave)],
  ['a frame that it touches all round', path('M0 10H200V70H0Z') + path(wave), path(wave)],
  ['a frame that it reaches out of', path(wave) + path('M3 13H197V67H3Z'), path(wave)],
  [
    'a frame in four lines',
    path('M0 0H200') + path(wave) + path('M200 0V80') + path('M200 80H0') + path('M0 80V0'),
    path(wave),
  ],
  [
    'pieces of a line that do not quite join, and their frame',
    path('M0 40C20 0 30 0 50 40S80 80 100 40') +
      path('M100.5 40C120.5 0 130 0 150 40S180 80 200 40') +
      path('M0 0H200V80H0Z'),
    path('M0 40C20 0 30 0 50 40S80 80 100 40L100.5 40C120.5 0 130 0 150 40S180 80 200 40'),
  ],
  [
    'four lines that a line comes to along one of them, and a ring that touches another',
    `${path('M0 80H200')}${path('M200 80V0')}${path('M200 0H0')}${path('M0 0V80')}${level}${ring}`,
    `${level}${ring}`,
  ],
  [
    'a line that runs down, and a frame clear of it',
    `<g transform="matrix(0 1 -1 0 80 0)">${path(wave)}${path('M-9 0H209V80H-9Z')}</g>`,
    path(wave),
  ],
  [
    'a line that runs down, and a frame that it touches',
    `<g transform="matrix(0 1 -1 0 80 0)">${path(wave)}${path('M0 10H200V70H0Z')}</g>`,
    path(wave),
  ],
])('%s', async (_, drawn, left) => {
  const { motif, accounts } = mendMotif(await motifOf(drawn), defaultSetup, { reshape: true });
  expect(accounts[0].message).toContain('Left out 1 frame');
  expect(motif.strokes).toHaveLength(1);
  // Thinned to 0.02 mm, and each drawing flattened to 0.01; half of a gap is gone over from either side.
  expect(hausdorff(motif.strokes, (await motifOf(left)).strokes)).toBeLessThan(0.25 + 0.04);
  expect(mendMotif(motif, defaultSetup, { reshape: true }).accounts).toEqual([]);
});

test.each([
  ['a rectangle between two leads', path('M0 0H100V80H0Z') + path('M-9 80H0') + path('M100 80H109')],
  [
    'a rectangle that the line goes round',
    path('M-30 40C-20 20 -10 20 0 40V80H100V0H0V40') + path('M100 40C110 20 120 20 130 40'),
  ],
  ['a crate on the swell', path('M0 0H100V80H0Z') + path('M-5 82C20 74 40 90 50 82S80 74 105 82')],
  ['a grating', path('M0 0H120V80H0Z') + [20, 40, 60, 80, 100].map((x) => path(`M${x} 0V80`)).join('')],
  [
    'a window with a wave that stops in it',
    path('M0 0H120V80H0Z') + path('M0 40C20 0 30 0 50 40S80 80 100 40'),
  ],
])('%s keeps all its line', async (_, drawn) => {
  const before = await motifOf(drawn);
  const { motif, accounts } = mendMotif(before, defaultSetup, { reshape: true });
  expect(accounts.map(({ mend }) => mend)).not.toContain('drop');
  expect(motif.strokes).toHaveLength(1);
});
