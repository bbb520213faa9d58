/** Motifs as they come out of a drawing program, in pieces: reshaped, they are one stroke that covers all that was drawn. */
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { mendMotif } from '../../src/mend/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { findingsOf, motifIn } from '../checked.js';
import { circle } from './drawings.js';
import { hausdorff } from './hausdorff.js';

const folder = new URL('../../corpus/pieces/', import.meta.url).pathname;
const files = readdirSync(folder).filter((name) => name.endsWith('.svg'));

test('there are six and more', () => expect(files.length).toBeGreaterThanOrEqual(6));

describe.each(files)('%s', async (file) => {
  const motif = await motifIn(folder + file);

  test('is mended without an error left', () => {
    const { motif: mended } = mendMotif(motif, defaultSetup, { reshape: true });
    expect(mended.strokes.length).toBe(1);
    expect(findingsOf(mended).filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  test('the route through it leaves nothing out', () => {
    const whole = mendMotif(motif, defaultSetup, { only: ['drop'] }).motif;
    const { motif: routed, accounts } = mendMotif(whole, defaultSetup, { only: ['route'] });
    const links = accounts.flatMap(({ added }) => added);
    // Links are new line; with them laid over the drawing, drawing and route are the same to the touch distance.
    expect(hausdorff([...whole.strokes, ...links], routed.strokes)).toBeLessThanOrEqual(0.1);
  });
});

test('hundreds of rings too small to look at one by one are routed too', () => {
  const rings = Array.from({ length: 400 }, (_, i) => circle(3 * (i % 40), 3 * Math.floor(i / 40), 1, i, 12));
  const { motif } = mendMotif(motifOf(rings), defaultSetup, { only: ['route'] });
  expect(motif.strokes.length).toBe(1);
});
