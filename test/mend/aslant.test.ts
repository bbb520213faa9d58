/** A drawing scanned aslant is turned back by the angle it was turned by, as it was: lengths and crossings stay. */
import { expect, test, vi } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { boundsOf, lengthOf, moved } from '../../src/geometry/polyline.js';
import { mendMotif } from '../../src/mend/index.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { farthest } from '../centre/farthest.js';
import { findingsOf, motifIn } from '../checked.js';
import { scanned } from '../read/scan/drawn.js';

vi.setConfig({ testTimeout: 60_000 });

const folder = new URL('../../corpus/motifs/', import.meta.url).pathname;

test.each(['swell', 'kelp'])('%s', async (name) => {
  const [line] = (await motifIn(`${folder}${name}.svg`)).strokes;
  const scan = scanned(line, { dpi: 200, penMm: 1, kind: 'turned' });
  const aslant = toMotif(await readArtwork(scan.bytes, `${name}.png`, { dpi: scan.dpi }), defaultSetup);
  expect(findingsOf(aslant).map(({ rule }) => rule)).toContain('level-ends');
  const { motif, accounts } = mendMotif(aslant, defaultSetup, { reshape: true });
  expect(accounts.find(({ mend }) => mend === 'reach')?.message).toBe(
    'The scan lay aslant: turned level by 3.0 degrees.',
  );
  const { minX, minY } = boundsOf([line]);
  expect(farthest(motif.strokes, [moved(line, -minX, -minY)])).toBeLessThan(0.15);
  expect(Math.abs(lengthOf(motif.strokes[0]) / lengthOf(line) - 1)).toBeLessThan(0.005);
  // The picture goes along: it is still as wide, and lies turned under the line.
  const [was, is] = [aslant.scan!.pale!, motif.scan!.pale!].map(({ topLeft, topRight }) => ({
    x: topRight.x - topLeft.x,
    y: topRight.y - topLeft.y,
  }));
  expect(Math.hypot(is.x, is.y)).toBeCloseTo(was.x, 3);
  expect((Math.atan2(is.y, is.x) * 180) / Math.PI).toBeCloseTo(-3, 1);
  expect(mendMotif(motif, defaultSetup, { reshape: true }).accounts).toEqual([]);
});
