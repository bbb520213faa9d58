/** Defects planted into corpus motifs: what has a mend comes back clean, nothing seen changes unasked, once is enough. */
import { describe, expect, test } from 'vitest';
import type { MendName } from '../../shared/finding.js';
import { defaultSetup } from '../../shared/setup.js';
import { mendMotif, mends } from '../../src/mend/index.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { writeMotif } from '../../src/write/index.js';
import { findingsOf, motifIn } from '../checked.js';
import { planted } from '../planted.js';
import { hausdorff } from './hausdorff.js';

const folder = new URL('../../corpus/motifs/', import.meta.url).pathname;
const safe = new Set<MendName | null>(mends.filter((mend) => mend.safe).map(({ name }) => name));

describe.each(['swell', 'sail', 'lighthouse', 'gull-wing'])('%s', async (name) => {
  const sound = await motifIn(`${folder}${name}.svg`);
  const cases = [{ name: 'no defect', motif: sound }, ...planted(sound)];

  test.each(cases)('with $name', async ({ motif, name: defect }) => {
    const before = findingsOf(motif).filter(({ severity }) => severity !== 'info');
    for (const reshape of [false, true]) {
      const { motif: mended, notMended } = mendMotif(motif, defaultSetup, { reshape });
      const left = findingsOf(mended);
      // What a mend leaves, it says why: repeats that run into each other have no smooth way out everywhere.
      const leaves = notMended.map(({ mend }) => mend);
      const mendable = before.filter(
        ({ mend }) => mend !== null && (reshape || safe.has(mend)) && !leaves.includes(mend),
      );
      if (defect !== 'an inset start') expect(leaves).toEqual([]);
      expect(left.filter(({ rule }) => mendable.some((finding) => finding.rule === rule))).toEqual([]);
      if (reshape) expect(left.filter(({ severity }) => severity === 'error')).toEqual([]);

      const file = writeMotif(mended);
      expect(writeMotif(mendMotif(mended, defaultSetup, { reshape }).motif)).toBe(file);
      const bytes = new TextEncoder().encode(file);
      const read = toMotif(await readArtwork(bytes, 'again.motif.json', defaultSetup), defaultSetup);
      expect(writeMotif(mendMotif(read, defaultSetup, { reshape }).motif)).toBe(file);

      const drops = defect === 'a stray dot';
      if (!reshape && !drops)
        expect(hausdorff(motif.strokes, mended.strokes)).toBeLessThanOrEqual(
          defaultSetup.joinToleranceMm / 2,
        );
    }
  });
});
