/** `--curves` where drawings are mended: as few as were drawn, counted in the SVG that comes out. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { readArtwork } from '../../src/read/index.js';
import { emptyFolder, linewright } from './run.js';

const corpus = new URL('../../corpus/', import.meta.url).pathname;

/** Pieces of all path data: what stands behind M is no curve. */
function curvesIn(svg: string): number {
  const data = [...svg.matchAll(/ d="([^"]*)"/g)].map(([, d]) => d).join('');
  // A letter may stand for several pieces of its kind: two numbers for each line, six for each curve.
  return [...data.matchAll(/([CLHV])([^A-Z]*)/g)].reduce((sum, [, letter, text]) => {
    const numbers = text.match(/-?(?:\d+\.?\d*|\.\d+)/g)?.length ?? 0;
    return sum + numbers / { C: 6, L: 2, H: 1, V: 1 }[letter]!;
  }, 0);
}

it('puts pieces together in about as few curves as they were drawn in', async () => {
  const cwd = emptyFolder();
  const piece = join(corpus, 'pieces/swell-in-six.svg');
  const { code } = linewright(['mend', piece, '--reshape', '--to', 'svg', '--curves', '--out', '.'], { cwd });
  expect(code).toBe(0);
  const { lines } = await readArtwork(readFileSync(piece), 'swell.svg', defaultSetup);
  const drawn = lines.reduce((sum, { ops }) => sum + ops.length, 0);
  const mended = curvesIn(readFileSync(join(cwd, 'swell-in-six.svg'), 'utf8'));
  expect(drawn).toBeGreaterThan(5);
  // Five gaps were closed, which may bend the line at each: one more there. Thinned first it comes to sixty.
  expect(mended).toBeLessThanOrEqual(1.5 * drawn + 5);
});

it('thins the line all the same where that is asked for', () => {
  const cwd = emptyFolder();
  const words = ['mend', join(corpus, 'motifs/kelp.svg'), '--to', 'svg', '--curves', '--out', '.', '--json'];
  const done = (more: string[]) =>
    JSON.parse(linewright([...words, '--force', ...more], { cwd }).stdout).files[0].mended.map(
      ({ mend }: { mend: string }) => mend,
    );
  expect(done([])).not.toContain('thin');
  expect(done(['--only', 'thin'])).toContain('thin');
});
