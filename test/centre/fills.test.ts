/** How a shape is painted decides what of it is ink: SVG 2, 13.4.2, the rules nonzero and evenodd. */
import { expect, test } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { inkEdges } from '../../src/centre/area.js';
import { polylineOf, reversed, signedArea } from '../../src/geometry/polyline.js';
import { mendMotif } from '../../src/mend/index.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';

const circle = (radius: number) =>
  polylineOf(
    Array.from({ length: 361 }, (_, i) => {
      const angle = (i % 360) * (Math.PI / 180);
      return { x: 50 + radius * Math.cos(angle), y: 50 + radius * Math.sin(angle) };
    }),
  );
const ink = (...args: Parameters<typeof inkEdges>) =>
  inkEdges(...args).reduce((sum, ring) => sum + signedArea(ring), 0);
const [outer, inner] = [circle(20), circle(18)];
const disc = signedArea(outer);
const ring = disc - signedArea(inner);
const most = 1000;

test('two circles that run the same way are a ring under evenodd, a disc under nonzero', () => {
  const as = (rule: 'nonzero' | 'evenodd') => [0, 1].map(() => ({ shape: 7, rule }));
  expect(ink([outer, inner], most, as('evenodd'))).toBeCloseTo(ring, 2);
  expect(ink([outer, inner], most, as('nonzero'))).toBeCloseTo(disc, 2);
  expect(ink([outer, reversed(inner)], most, as('nonzero'))).toBeCloseTo(ring, 2);
});

test('shapes of their own lie over one another; thin lines are taken together, even-odd', () => {
  const apart = [0, 1].map((shape) => ({ shape, rule: 'evenodd' as const }));
  expect(ink([outer, inner], most, apart)).toBeCloseTo(disc, 2);
  expect(ink([outer, inner], most)).toBeCloseTo(ring, 2);
});

const page = (style: string) => {
  const d = [20, 18]
    .map((r) => `M${50 - r} 50a${r} ${r} 0 1 1 ${2 * r} 0a${r} ${r} 0 1 1 ${-2 * r} 0z`)
    .join('');
  return new TextEncoder().encode(
    `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><g ${style}><path d="${d}"/></g></svg>`,
  );
};

test.each([
  ['fill-rule="evenodd"', 1],
  ['style="fill-rule: evenodd"', 1],
  ['fill-rule="nonzero"', 0],
  ['', 0],
])('a ring painted with "%s" has its line put in the middle %i times', async (style, times) => {
  const motif = toMotif(await readArtwork(page(style), 'ring.svg'), defaultSetup);
  const { accounts, motif: mended } = mendMotif(motif, defaultSetup, { only: ['centre'] });
  expect(accounts).toHaveLength(times);
  if (times === 0) return;
  expect(mended.strokes).toHaveLength(1);
  for (let i = 0; i < mended.strokes[0].length; i += 2)
    expect(Math.hypot(mended.strokes[0][i] - 19, mended.strokes[0][i + 1] - 19)).toBeCloseTo(19, 1);
});
